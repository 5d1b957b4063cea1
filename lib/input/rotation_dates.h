/// Days of a rotation as a field file writes them: `year 2 October 5`, `5 Oct year 2`; in a rotation of one year
/// `October 5` alone.
///
/// The month is written as a word. Numbers alone (5/1, 05-01) are read in two orders in two countries, so they are
/// refused with both readings; so is a date of the calendar (2026-05-01), since a rotation repeats.
#pragma once

#include <optional>
#include <string_view>

#include "input/section.h"
#include "rotation/rotation.h"

namespace soilhold::input {

/// The day that a key says; a mistake is noted and nothing returned when it can't be read or lies outside the rotation.
std::optional<rotation::Day> day_of(const Section& section, std::string_view key, int years);

/// "year 2 October 5".
std::string words_of(const rotation::Day& day);

}  // namespace soilhold::input
