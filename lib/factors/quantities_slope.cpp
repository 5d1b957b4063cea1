#include "factors/quantities.h"

// Slope: LS of both handbooks and their parts, irregular slopes, grids.
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "factors/irregular_slope.h"
#include "factors/slope.h"
#include "factors/slope_length.h"
#include "factors/slope_steepness.h"
#include "factors/unit_area_slope.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

double gradient_of(const Inputs& in) { return in.not_negative("slope_pct") / 100.0; }
double length_of(const Inputs& in) { return in.positive("length_ft") * units::metre_per_foot; }

RillRatio rills_of(const Inputs& in) {
    if (!in.has("rill_interrill")) return RillRatio::moderate;
    const std::string& word = in.words("rill_interrill");
    if (word == "low") return RillRatio::low;
    if (word == "moderate") return RillRatio::moderate;
    if (word == "high") return RillRatio::high;
    throw std::invalid_argument("'rill_interrill' is low, moderate or high");
}

double angle_gradient(const Inputs& in, std::string_view key) {
    const double degrees = in.not_negative(key);
    if (!(degrees < 90)) throw std::invalid_argument("'" + std::string(key) + "' must be below 90");
    return std::tan(degrees * std::numbers::pi / 180.0);
}

std::vector<double> gradients_of(const Inputs& in) {
    std::vector<double> gradients = in.list("segments");
    for (double& g : gradients) g /= 100.0;
    return gradients;
}

/// The worked example's length, where a row leaves it out.
double profile_length(const Inputs& in) { return in.has("length_ft") ? length_of(in) : 400.0 * units::metre_per_foot; }

Quantity uniform(std::string name, SlopeMethod method, std::string_view citation) {
    return {std::move(name), "-", {"slope_pct", "length_ft", "rill_interrill?"}, [=](const Inputs& in) {
                if (method == SlopeMethod::handbook_537 && in.has("rill_interrill"))
                    throw std::invalid_argument("Handbook 537 knows no rill ratio");
                return by_equation(slope_factor(length_of(in), gradient_of(in), method, rills_of(in)), citation);
            }};
}

Quantity worksheet(std::string name) {
    return {std::move(name), "-", {"segments", "length_ft?"}, [](const Inputs& in) {
                return by_equation(irregular_slope_worksheet_537(profile_length(in), gradients_of(in)),
                                   "irregular-slopes");
            }};
}

}  // namespace

std::vector<Quantity> slope_quantities() {
    return {
        uniform("LS_ah537", SlopeMethod::handbook_537, "ls-ah537"),
        uniform("LS_ah537_example_full_length", SlopeMethod::handbook_537, "ls-ah537"),
        uniform("LS_of_that_example", SlopeMethod::handbook_537, "ls-ah537"),
        uniform("LS_ah703", SlopeMethod::handbook_703, "ls-ah703"),
        uniform("LS_ah703_reading", SlopeMethod::handbook_703, "ls-ah703"),
        {"LS_of_exercise",
         "-",
         {"slope_pct", "length_m"},
         [](const Inputs& in) {
             return by_equation(
                 slope_factor(in.positive("length_m"), gradient_of(in), SlopeMethod::handbook_703, RillRatio::moderate),
                 "ls-ah703");
         }},
        {"m_ah537",
         "-",
         {"slope_pct"},
         [](const Inputs& in) { return by_equation(length_exponent_537(gradient_of(in)), "ls-ah537"); }},
        {"m_ah703",
         "-",
         {"slope_pct", "rill_interrill?"},
         [](const Inputs& in) { return by_equation(length_exponent_703(gradient_of(in), rills_of(in)), "ls-ah703"); }},
        {"LS_barfield_form",
         "-",
         {"sin_slope", "length_ft", "m"},
         [](const Inputs& in) {
             const double sine = in.not_negative("sin_slope");
             if (sine > 1) throw std::invalid_argument("'sin_slope' lies from 0 to 1");
             return by_equation(slope_length_factor(length_of(in), in.not_negative("m")) * early_steepness_factor(sine),
                                "early-slope");
         }},
        {"S_ah537",
         "-",
         {"slope_pct"},
         [](const Inputs& in) { return by_equation(steepness_factor_537(gradient_of(in)), "ls-ah537"); }},
        {"S_ah703",
         "-",
         {"slope_pct"},
         [](const Inputs& in) { return by_equation(steepness_factor_703(gradient_of(in)), "ls-ah703"); }},
        {"S_ah703_short",
         "-",
         {"slope_pct", "length_ft?"},
         [](const Inputs& in) {
             if (in.has("length_ft") && in.words("length_ft") != "below 15" && !(in.positive("length_ft") < 15))
                 throw std::invalid_argument("this S is for slopes shorter than 15 ft");
             return by_equation(short_slope_steepness_factor_703(gradient_of(in)), "ls-ah703");
         }},
        {"S_ah703_thawing",
         "-",
         {"slope_pct"},
         [](const Inputs& in) { return by_equation(thawing_steepness_factor_703(gradient_of(in)), "thawing-slope"); }},
        {"segment_soil_loss_fraction",
         "-",
         {"segments", "segment", "m"},
         [](const Inputs& in) {
             return by_equation(segment_loss_share(in.whole("segment"), in.whole("segments"), in.number("m")),
                                "irregular-slopes");
         }},
        {"irregular_slope_product",
         "-",
         {"slope_pct", "fraction", "length_ft?"},
         [](const Inputs& in) {
             // One line of the worksheet: LS over the full length as the table prints it, times the segment's share.
             const double share = in.not_negative("fraction");
             if (share > 1) throw std::invalid_argument("'fraction' lies from 0 to 1");
             const std::vector<double> one = {gradient_of(in)};
             return by_equation(share * irregular_slope_worksheet_537(profile_length(in), one), "irregular-slopes");
         }},
        worksheet("LS_irregular_convex"),
        worksheet("LS_irregular_concave"),
        {"KLS_irregular_convex",
         "US",
         {"segments", "K", "length_ft?"},
         [](const Inputs& in) {
             return by_equation(irregular_slope_worksheet_537(profile_length(in), gradients_of(in), in.list("K")),
                                "irregular-slopes");
         }},
        {"LS_exact_segment_sum",
         "-",
         {"segments", "length_ft", "m"},
         [](const Inputs& in) {
             return by_equation(irregular_slope_factor_537(length_of(in), gradients_of(in), in.number("m")),
                                "irregular-slopes");
         }},
        {"LS_unit_area",
         "-",
         {"As_m2_per_m", "slope_deg"},
         [](const Inputs& in) {
             return by_equation(unit_area_slope_factor(in.number("As_m2_per_m"), angle_gradient(in, "slope_deg")),
                                "unit-area-slope");
         }},
        {"L_grid_cell",
         "-",
         {"A_in_m2", "cell_m", "m", "aspect_deg"},
         [](const Inputs& in) {
             return by_equation(grid_cell_length_factor(in.number("A_in_m2"), in.number("cell_m"), in.number("m"),
                                                        in.number("aspect_deg") * std::numbers::pi / 180.0),
                                "grid-slope-length");
         }},
    };
}

}  // namespace soilhold::factors
