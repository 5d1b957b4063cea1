/// The texture classes that a field file may name, in lower case, the stony ones too.
/// @source class names of the USDA texture triangle (common practice, no source)
#pragma once

#include <span>
#include <string_view>

namespace soilhold::input {

std::span<const std::string_view> texture_classes();

}  // namespace soilhold::input
