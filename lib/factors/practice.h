/// Support practice P [1]: given, or by contouring with its slope-length limit.
#pragma once

#include <optional>

#include "spread/uncertain.h"

namespace soilhold::factors {

struct PracticeDescription {
    std::optional<spread::Stated> factor;  ///< P given
    bool contouring = false;               ///< Handbook 537 Table 13, with its limit
    std::optional<double> row_grade;       ///< rise over run along the rows; credit falls with it (Handbook 703)
    bool heavy_residue = false;            ///< more than half covered after seedlings: the limit is a quarter longer
    source::Origin origin;
};

/// P of a field on a given slope; 1 when no practice is named.
/// @param gradient  rise over run; contouring has no table above 25 %
/// @param length_m  slope length; beyond the limit rows break over and the credit is withdrawn (P = 1), with a remark
spread::Uncertain support_practice(const PracticeDescription& practice, double gradient, double length_m);

}  // namespace soilhold::factors
