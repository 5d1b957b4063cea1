/// Support practice P [1]: given, or by contouring, contour strips and terraces, each with its limits; and, kept apart
/// from P, what share of the loss leaves the field where terraces or strips of grass catch it.
///
/// No effect counts twice: the P of strips holds contouring; terraces cut the slope length, and by Handbook 537 have no
/// P of their own; what they or grass strips catch is no part of the loss on the slope.
#pragma once

#include <optional>

#include "factors/buffer_strips.h"
#include "factors/strips.h"
#include "factors/terraces.h"
#include "spread/uncertain.h"

namespace soilhold::factors {

struct StripCropping {
    StripRotation rotation = StripRotation::meadow_two_years;
    std::optional<double> width_m;  ///< none: within the table's widest
};

struct PracticeDescription {
    std::optional<spread::Stated> factor;  ///< P given
    bool contouring = false;               ///< Handbook 537 Table 13, with its limit
    std::optional<double> row_grade;       ///< rise over run along the rows; credit falls with it (Handbook 703)
    bool heavy_residue = false;            ///< more than half covered after seedlings: the limit is a quarter longer
    source::Origin origin;
    std::optional<StripCropping> strips{};  ///< Handbook 537 Table 14, with its limits; holds contouring
    std::optional<Terraces> terraces{};     ///< cut the slope length to their interval
    std::optional<BufferStrips> buffers{};  ///< catch soil below the slope; no part of P
};

/// The slope length that the practice leaves: the terraces' interval where that is shorter.
spread::Stated length_left(const PracticeDescription& practice, const spread::Stated& length_m);

/// P of a field on a given slope; 1 when no practice is named.
/// @param gradient  rise over run; contouring has no table above 25 %
/// @param length_m  slope length, between terraces where there are any; beyond the limit rows break over and the credit
/// is withdrawn (P = 1), with a remark
spread::Uncertain support_practice(const PracticeDescription& practice, double gradient, double length_m);

/// The share of the loss on the slope that leaves the field; none where nothing is built to catch it.
std::optional<spread::Uncertain> share_leaving(const PracticeDescription& practice, double gradient);

}  // namespace soilhold::factors
