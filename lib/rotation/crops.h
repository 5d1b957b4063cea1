/// The crops that the calendar knows: how each grows with warmth, what it leaves, its usual dates.
///
/// Rows stand in data/reference/crops.csv, each with its standing; most are this project's reading and wide of spread.
/// Growth goes by the sum of daily warmth above a base temperature (C d), so that one row serves a warm and a cool
/// place.
/// @source AH 703 (1997) ch. 5 for residue per yield (from memory); growth, roots and heights: our reading
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "source/citation.h"

namespace soilhold::rotation {

struct Crop {
    std::string name;              ///< "corn"
    std::string residue;           ///< its row of residues.csv
    std::string kind;              ///< "grain", "forage", "perennial", "cover"
    double kg_per_bushel = 0;      ///< 0 where it is not sold by the bushel
    double usual_yield_kg_ha = 0;  ///< as sold
    double residue_per_yield = 0;  ///< kg/kg
    double roots_kg_ha = 0;        ///< full grown, in the top 4 inches
    double canopy = 0;             ///< share of the ground, full grown
    double height_m = 0;           ///< full grown
    double fall_height_m = 0;      ///< from which drops fall, full grown
    double base_C = 0;             ///< no growth below
    double warmth_emerged = 0;     ///< C d from seeding
    double warmth_full = 0;        ///< C d from seeding to the full canopy
    double warmth_mature = 0;      ///< C d from seeding to ripeness; 0 for perennials
    double canopy_at_end = 0;      ///< share of the full canopy that still stands at ripeness
    double leaves_dropped = 0;     ///< share of its residue on the ground by ripeness
    double top_growth_kg_ha = 0;   ///< of a cover crop at ripeness
    double living_cover = 0;       ///< share of the ground that crowns and stems cover, full grown
    double litter_kg_ha_year = 0;  ///< what a perennial drops
    bool winter_killed = false;    ///< dies in a half-month colder than dies_below_C
    double dies_below_C = 0;
    bool rests = false;  ///< loses its tops in a half-month colder than rests_below_C
    double rests_below_C = 0;
    int usual_planted = 0;  ///< day of the year
    int usual_ended = 0;
    source::Origin origin;  ///< of the row
};

const std::vector<Crop>& all_crops();

/// @throws std::invalid_argument that names the nearest crop, for one there is not
const Crop& crop_of(std::string_view name);

/// The name among `names` that takes the fewest single-letter changes to reach.
std::string nearest_name(std::string_view name, const std::vector<std::string>& names);

}  // namespace soilhold::rotation
