/// The tools that the calendar knows: the roughness each leaves, how much residue stays on top, how much ground it
/// moves.
///
/// Rows stand in data/reference/operations.csv, each with its standing. The share of residue left is one of cover, as
/// the agencies print it; the mass that goes under follows through the cover of a mass (decomposition.h).
/// @source AH 703 (1997) Table 5-5 for roughness, agency ranges for residue left (from memory); the rest our reading
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "source/citation.h"

namespace soilhold::rotation {

struct Operation {
    std::string name;            ///< "chisel plow"
    std::string kind;            ///< "tillage", "injection", "planting", "harvest", "residue", "ending"
    double roughness_mm = 0;     ///< random roughness in soil full of biomass; 0 where it moves no ground
    double disturbed = 0;        ///< share of the surface it moves
    double left_nonfragile = 1;  ///< share of the residue cover it leaves
    double left_fragile = 1;
    double kept_shallow = 1;  ///< share of what it buries, and of what was there, that stays in the top 4 inches
    bool cuts = false;        ///< takes the tops of a perennial, which grows again
    double removes = 0;       ///< share of the residue that leaves the field
    source::Origin origin;
};

const std::vector<Operation>& all_operations();

/// @throws std::invalid_argument that names the nearest tool, for one there is not
const Operation& operation_of(std::string_view name);

/// Whether it works the whole surface or most of it: what ends the years without tillage. Half is our assumption.
inline bool is_tillage(double disturbed_share) { return disturbed_share >= 0.5; }

}  // namespace soilhold::rotation
