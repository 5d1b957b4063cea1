/// Whose figure a row of a reference table is: the record that is cited, with the standing of that very row.
#pragma once

#include <string_view>

#include "source/citation.h"
#include "source/reference_table.h"

namespace soilhold::source {

/// A table may hold rows that were read beside rows from memory, so the standing is the row's and not the record's.
/// @throws std::out_of_range when there is no such record
inline Origin row_origin(std::string_view citation_key, const Row& row) {
    Origin origin = origin_of(citation_key);
    origin.standing = standing_from(row.text("standing"));
    return origin;
}

}  // namespace soilhold::source
