/// A rotation laid out on a line of time: who stands when, what happens on which day, and the stretches between.
///
/// Time is in days since the rotation began, 0 to 365 N; a crop that stands over the turn of the rotation ends past 365
/// N. Everything looked up by name is found once here, so that running the calendar is arithmetic alone.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "rotation/canopy.h"
#include "rotation/crops.h"
#include "rotation/decomposition.h"
#include "rotation/operations.h"
#include "rotation/rotation.h"

namespace soilhold::rotation {

/// Factors on what our tables say, all 1: for the doubt of a calendar and for setting it by a reading.
struct Adjustments {
    double residue = 1;                ///< mass of residue
    double left = 1;                   ///< power of the share of cover that tools leave
    double decay = 1;                  ///< speed of rot
    double roots = 1;                  ///< mass of roots
    double growth = 1;                 ///< speed of growth
    double fall_height = 1;            ///< height from which drops fall
    double roughness = 1;              ///< of tools, above the unit plot's
    double residue_effectiveness = 1;  ///< b
    double consolidation = 1;          ///< power of Cf
};

/// Tops taken from a perennial: all but a fifth by a cut, or some over a time by animals.
struct Grazed {
    double from = 0, to = 0;  ///< `to` may lie past the end of the rotation
    double taken = 0;
};

/// One crop on the line of time.
struct Stand {
    const Crop* crop = nullptr;
    bool always = false;  ///< an old stand
    bool cover_crop = false;
    double start = 0, end = 0;
    double canopy = 0, height_m = 0, fall_height_m = 0, roots_kg_ha = 0, living_cover = 0;
    double residue_at_end_kg_ha = 0, leaves_kg_ha = 0;
    std::size_t residue = 0;  ///< index of its residue
    std::size_t warmth = 0;   ///< index of its sums of warmth
    double warmth_at_start = 0;
    double litter_kg_ha_day = 0, litter_from = 0;
    std::vector<double> cuts;  ///< times it was cut or laid to rest
};

/// In the order in which they happen on one day.
enum class Kind { end, leaves, added, removed, operation, planted, probe };

struct Event {
    double at = 0;
    Kind kind = Kind::end;
    std::size_t index = 0;  ///< stand, or entry of its kind
    std::string words{};    ///< "corn planted", for a picture
};

/// A stretch of time in which nothing happens and the weather is the same.
struct Stretch {
    double from = 0, to = 0;
    std::size_t year = 0, half_month = 0;     ///< counted from 0
    std::size_t first_event = 0, events = 0;  ///< that come before it
    double grazing_per_day = 0;
};

struct PlannedOperation {
    double roughness_mm = 0, disturbed = 0, kept_shallow = 1, removes = 0;
    std::vector<double> left;  ///< share of cover, by residue
};

struct Plan {
    double length = 0;  ///< days
    int years = 1;
    std::vector<const Residue*> residues;
    std::vector<Warmth> warmth;
    std::vector<Stand> stands;
    std::vector<Grazed> grazed;
    std::vector<PlannedOperation> operations;
    std::vector<Event> events;
    std::vector<Stretch> stretches;
    std::vector<std::string> cold_deaths;  ///< crops that the cold kills
};

/// @param probe  a day at whose end the calendar is to be read, or none
/// @throws std::invalid_argument with the first of problems_of()
Plan plan_of(const Rotation& rotation, const Climate& climate, const Adjustments& adjustments,
             const std::optional<Day>& probe = {});

/// What a stand shows at a time within the rotation.
struct Standing {
    bool stands = false;
    double canopy = 0;  ///< share of the ground
    double height_m = 0, fall_height_m = 0, roots_kg_ha = 0, living_cover = 0;
};
Standing standing_at(const Plan& plan, const Stand& stand, double time);

}  // namespace soilhold::rotation
