/// Every key that a watershed file may hold, section by section; docs/watershed.md names each of them.
#pragma once

#include <span>

#include "input/known_keys.h"

namespace soilhold::input {

std::span<const KnownKey> watershed_keys();

}  // namespace soilhold::input
