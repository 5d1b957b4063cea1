/// `slope:` length, steepness, the handbook.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include <optional>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

void read_slope(const Section& slope, loss::Field& field);

/// A slope length with its plausibility; of the field, and of a change that shortens it.
std::optional<spread::Stated> read_length(const Section& section, std::string_view key);

}  // namespace soilhold::input
