/// `weather:` the temperature and rain of a place through the year, and when its erosivity falls: what the calendar of
/// a rotation needs.
///
/// Temperature: twelve means of months or 24 of half-months, or `{mean: 50 F, warmest above mean: 23 F}`. Rain: sums
/// likewise; left out, that of `rain: monthly` is taken. The erosivity calendar: shares of the year in 12 months or 24
/// half-months; left out, that of the gauge record, else by the rain (rotation/climate.h says so).
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

void read_weather(const Section& weather, loss::Field& field);

/// Where the field or a change of it has a rotation: takes from the field's rain what the weather lacks, says what is
/// still missing, and places what the calendar's weather has to remark.
/// @param weather  as the field says it, or nullptr
/// @param rotation  where the rotation stands, for what is said where there is no weather
void judge_weather(const Reader& reader, const Node* weather, Position rotation, loss::Field& field);

}  // namespace soilhold::input
