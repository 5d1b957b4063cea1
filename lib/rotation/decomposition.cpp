#include "rotation/decomposition.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "factors/residue.h"
#include "rotation/crops.h"
#include "source/reference_table.h"
#include "source/row_origin.h"

namespace soilhold::rotation {

const std::vector<Residue>& all_residues() {
    static const std::vector<Residue> residues = [] {
        std::vector<Residue> read_in;
        for (const source::Row& row : source::table("residues").rows)
            read_in.push_back({row.text("residue"), factors::residue_area_per_mass_acre_lb(row.text("covers_as")),
                               row.number("decay_per_day"), row.number("fragile") > 0,
                               source::row_origin("residue-rows", row)});
        return read_in;
    }();
    return residues;
}

const Residue& residue_of(std::string_view name) {
    std::vector<std::string> names;
    for (const Residue& residue : all_residues()) {
        if (residue.name == name) return residue;
        names.push_back(residue.name);
    }
    throw std::invalid_argument("no residue is called '" + std::string(name) + "'; the nearest is '" +
                                nearest_name(name, names) + "'");
}

double warmth_of_rot(double temperature_C) {
    constexpr double A = 7.8, To = 32.0;
    if (temperature_C <= -A) return 0.0;
    const double ratio = (temperature_C + A) / (To + A), square = ratio * ratio;
    return std::clamp(2.0 * square - square * square, 0.0, 1.0);
}

double moisture_of_rot(double rain_mm) {
    if (!(rain_mm >= 0)) throw std::invalid_argument("rain must not be negative");
    return std::min(1.0, rain_mm / (2.6 * 25.4));
}

double rot_per_day(double p, double temperature_C, double rain_mm) {
    return p * std::min(moisture_of_rot(rain_mm), warmth_of_rot(temperature_C));
}

double mass_share_left(double cover_exponent, double left) {
    if (!(left >= 0 && left <= 1)) throw std::invalid_argument("the share of cover left lies from 0 to 1");
    if (cover_exponent < 1e-9) return left;
    if (left == 1) return 1.0;
    return std::clamp(std::log1p(left * std::expm1(-cover_exponent)) / -cover_exponent, 0.0, 1.0);
}

}  // namespace soilhold::rotation
