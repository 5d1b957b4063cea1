/// `pasture:`, `woodland:`, `mulch:`, `site:` and `stages:` of a cover: C from the published tables.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "factors/practice.h"
#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// The keys of a cover, each of which is a whole way to come to C.
inline constexpr auto ways_to_cover =
    std::to_array<std::string_view>({"factor", "parts", "pasture", "woodland", "mulch", "site", "stages", "rotation"});

/// The first of the tables that the cover names.
std::optional<factors::CoverOfTable> read_cover_table(const Section& cover);

/// What shows only beside the rest of the field: rows that a table lacks, mulch beyond its length of slope, stones that
/// count twice. @param length_m, practice  of the field, or of a change that has its own
void judge_cover(const Reader& reader, const Node& node, const factors::CoverDescription& cover,
                 const loss::Field& field, const spread::Stated& length_m,
                 const factors::PracticeDescription& practice);

}  // namespace soilhold::input
