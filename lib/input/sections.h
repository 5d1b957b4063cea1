/// The sections of a field file, each read into the struct it describes; one source file a section.
///
/// Whatever can't be used becomes a mistake of the document, whatever looks odd a remark with its place; reading goes
/// on, so that all of a file's mistakes are told together.
#pragma once

#include <optional>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// `rain:` one of erosivity, annual, monthly.
void read_rain(const Section& rain, loss::Field& field);

/// `soil:` who the soil is, K or what K is worked out from, T, bulk density, the local reference.
void read_soil(const Section& soil, loss::Field& field);

/// `slope:` length, steepness, the handbook.
void read_slope(const Section& slope, loss::Field& field);

/// `cover:` C or its parts. `credited` is what `credits:` says.
std::optional<factors::CoverDescription> read_cover(const Section& cover, std::optional<structure::Credited>* credited);

/// `practice:` P or contouring; a word alone (`practice: contouring`) will do.
std::optional<factors::PracticeDescription> read_practice(const Reader& reader, const Node& practice);

/// `tests:` the soak tests and how the soil was handled.
void read_tests(const Section& tests, soiltest::Record& record);

/// `slake:` and `slump:` of the tests.
void read_slake(const Reader& reader, const Node& slake, soiltest::Record& record);
void read_slump(const Reader& reader, const Node& slump, soiltest::Record& record);

/// `changes:` a list.
void read_changes(const Reader& reader, const Node& changes, loss::Field& field);

/// A slope length with its plausibility; used by `slope:` and by a change.
std::optional<spread::Stated> read_length(const Section& section, std::string_view key);

}  // namespace soilhold::input
