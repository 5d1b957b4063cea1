#include "structure/links.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace soilhold::structure {

namespace {

/// No link is believed beyond a factor of about three; it also keeps the logarithm defined on soils of tiny K.
double held(double multiplier) { return std::clamp(multiplier, 0.3, 3.0); }

double mean_of(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

}  // namespace

std::vector<double> Links::logs() const {
    std::vector<double> result{std::log(nomograph)};
    if (unstable_fraction) result.push_back(std::log(*unstable_fraction));
    result.push_back(std::log(interrill));
    return result;
}

Links links(double W, double W_ref, double erodibility_us, const Parameters& with) {
    if (!(erodibility_us > 0.0) || !std::isfinite(erodibility_us) || !std::isfinite(W) || !std::isfinite(W_ref))
        throw std::invalid_argument(fmt::format(
            "W {} %, expected {} %, K {} US: K above 0 and finite percentages are wanted", W, W_ref, erodibility_us));
    Links result;
    const double codes = std::clamp((W_ref - W) / with.points_per_structure_step, -1.0, 1.0);
    result.nomograph =
        held(1.0 + (with.structure_step + with.permeability_share * with.permeability_step) * codes / erodibility_us);
    if (erodibility_us >= with.unstable_link_least_erodibility)
        result.unstable_fraction = held(1.0 + with.unstable_slope * (W_ref - W) / erodibility_us);
    // 98 and 15 keep the slaked fraction away from nothing, where the ratio of two small numbers would run wild.
    const double slaked = (100.0 - std::clamp(W, 0.0, 98.0)) / std::max(15.0, 100.0 - W_ref);
    result.interrill = 1.0 - with.interrill_share + with.interrill_share * slaked;
    return result;
}

double pooled_log(const Links& links) { return mean_of(links.logs()); }

double spread_of(const std::vector<double>& values) {
    if (values.size() < 2) return 0.0;
    const double mean = mean_of(values);
    double squares = 0.0;
    for (const double value : values) squares += (value - mean) * (value - mean);
    return std::sqrt(squares / static_cast<double>(values.size() - 1));
}

}  // namespace soilhold::structure
