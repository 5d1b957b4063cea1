/// What was seen in the soak tests of one field, and how the soil was handled before.
///
/// Spots are the replicates; clods from one hole are not. Everything optional may have gone unrecorded, and then the
/// fairness of a comparison says so instead of assuming.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace soilhold::soiltest {

/// A clod under water: slake class 0 (falls apart before it can be sampled) to 6 (75-100 % left after five dips).
/// @source Herrick et al. 2001, Catena 44:27-35, rules as read in a reprint
struct Clod {
    int slake_class = 0;
    bool floated = false;                ///< repellent: class 6 says nothing about structure
    bool held_by_stone_or_root = false;  ///< void: leave it out
};

struct Spot {
    std::string name;
    std::vector<Clod> clods;
};

/// A strainer of loose moist topsoil after its soak, tipped out. Our own three verdicts; no published scale was found.
enum class SlumpVerdict { holds, partial, slurry };

enum class Cloudiness { not_recorded, none, slight, strong };

enum class SpotPosition { not_recorded, field, fencerow, headland, wheel_track };

/// How the soil was treated between the field and the jar.
struct Handling {
    std::optional<std::chrono::year_month_day> date;  ///< day of sampling
    std::optional<double> drying_days;
    std::optional<double> clod_least_mm, clod_most_mm;
    std::optional<double> depth_top_mm, depth_bottom_mm;
    std::string water;  ///< "rain water", as written
    std::string scorer;
    std::optional<bool> blind;
    std::optional<double> slump_soak_s;
    std::optional<double> days_since_tillage;
    std::optional<double> days_since_rain;
    SpotPosition position = SpotPosition::not_recorded;
};

struct Record {
    Handling handling;
    std::vector<Spot> slake_spots;
    std::vector<SlumpVerdict> slump;
    std::vector<double> water_stable_pct;         ///< % stable > 0.25 mm, one a spot
    std::vector<double> mean_weight_diameter_mm;  ///< fast wetting, one a spot
    Cloudiness cloudiness = Cloudiness::not_recorded;

    bool empty() const {
        return slake_spots.empty() && slump.empty() && water_stable_pct.empty() && mean_weight_diameter_mm.empty();
    }
};

}  // namespace soilhold::soiltest
