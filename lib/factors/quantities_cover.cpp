#include "factors/quantities.h"

// Cover: pasture, woodland, mulch, sites, canopy, and the parts of Handbook 703.
#include <stdexcept>

#include "factors/cover_subfactors.h"
#include "factors/mulch.h"
#include "factors/pasture_range.h"
#include "factors/woodland.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

/// "none" or a height with its unit: "0.5 m".
double fall_height_of(const std::string& words) {
    if (words == "none") return 0.0;
    const auto space = words.find(' ');
    const std::string number = words.substr(0, space);
    if (space != std::string::npos && words.substr(space) == " m")
        for (const double height : {0.5, 2.0, 4.0})
            if (class_limits(number).from == height) return height;
    throw std::invalid_argument("'canopy_fall_height' is none, 0.5 m, 2 m or 4 m");
}

PastureGround ground_of(const Inputs& in) {
    PastureGround ground;
    ground.fall_height_m = fall_height_of(in.words("canopy_fall_height"));
    ground.canopy_pct = in.share_pct("canopy_pct");
    const std::string& type = in.words("ground_cover_type");
    if (type != "G" && type != "W") throw std::invalid_argument("'ground_cover_type' is G (grass) or W (weeds)");
    ground.cover = type == "G" ? GroundCover::grass : GroundCover::weeds;
    const ClassLimits cover = in.range("ground_cover_pct");
    if (cover.from != cover.to && !(cover.from >= 95 && cover.to <= 100))
        throw std::invalid_argument("'ground_cover_pct' is a number, or 95-100");
    ground.ground_cover_pct = cover.from;
    return ground;
}

const std::vector<std::string> pasture_keys = {"canopy_fall_height", "canopy_pct", "ground_cover_type",
                                               "ground_cover_pct"};

const source::Remark undisturbed_only{source::Weight::note, "pasture-undisturbed",
                                      "This table is for ground undisturbed for years; freshly broken ground with the "
                                      "same cover loses more."};

CoverRange woodland_of(const Inputs& in) {
    const ClassLimits canopy = in.range("canopy_pct"), duff = in.range("duff_pct");
    const auto low = woodland_cover_factor(canopy.from, duff.from), high = woodland_cover_factor(canopy.to, duff.to);
    if (!low || !high || low->low != high->low)
        throw std::invalid_argument("the table of woodland has no band that holds this canopy and this duff");
    return *low;
}

MulchCover mulch_of(const Inputs& in) {
    return construction_mulch(in.words("mulch"), in.not_negative("tons_per_acre"), in.range("slope_pct"));
}

Quantity surface_cover(std::string name) {
    return {std::move(name), "-", {"cover_pct", "b?", "roughness_in?"}, [](const Inputs& in) {
                const double b = in.has("b") ? in.not_negative("b") : 0.035;
                const double roughness_mm =
                    in.has("roughness_in") ? 25.4 * in.positive("roughness_in") : unit_plot_roughness_mm;
                return by_equation(surface_cover_subfactor(in.share_pct("cover_pct") / 100.0, b, roughness_mm),
                                   "cover-parts");
            }};
}

Quantity site_cover(std::string name, std::string by) {
    return {std::move(name), "-", {"cover"}, [by](const Inputs& in) {
                return by_table(site_cover_factor(by, in.words("cover")), "site-covers", "by", by);
            }};
}

}  // namespace

std::vector<Quantity> cover_quantities() {
    return {
        {"C_pasture_range", "-", pasture_keys,
         [](const Inputs& in) {
             Answer result = by_table(pasture_cover_factor(ground_of(in)), "pasture-range");
             result.remarks.push_back(undisturbed_only);
             return result;
         }},
        {"C_pasture_range_ah537", "-", pasture_keys,
         [](const Inputs& in) {
             Answer result = by_table(pasture_cover_factor_1978(ground_of(in)), "pasture-range-1978");
             result.remarks.push_back(undisturbed_only);
             return result;
         }},
        {"C_pasture_cover_curve",
         "-",
         {"cover_pct"},
         [](const Inputs& in) { return by_table(grass_cover_curve(in.number("cover_pct")), "pasture-cover-curve"); }},
        {"canopy_subfactor_table",
         "-",
         {"fall_height_m", "canopy_pct"},
         [](const Inputs& in) {
             return by_equation(canopy_subfactor(in.share_pct("canopy_pct") / 100.0, in.not_negative("fall_height_m")),
                                "cover-parts");
         }},
        {"CC_ah703",
         "-",
         {"fall_height_ft", "canopy_fraction"},
         [](const Inputs& in) {
             return by_equation(canopy_subfactor(in.number("canopy_fraction"),
                                                 in.not_negative("fall_height_ft") * units::metre_per_foot),
                                "cover-parts");
         }},
        {"C_undisturbed_forest",
         "-",
         {"canopy_pct", "litter_pct"},
         [](const Inputs& in) {
             const auto C = undisturbed_forest_cover_factor(in.number("canopy_pct"), in.number("litter_pct"));
             if (!C) throw std::invalid_argument("the table of forest ends at 20 % canopy and 40 % litter");
             return by_table(*C, "undisturbed-forest");
         }},
        {"C_forest_low",
         "-",
         {"canopy_pct", "duff_pct"},
         [](const Inputs& in) { return by_table(woodland_of(in).low, "woodland"); }},
        {"C_forest_high",
         "-",
         {"canopy_pct", "duff_pct"},
         [](const Inputs& in) { return by_table(woodland_of(in).high, "woodland"); }},
        {"C_construction_mulch",
         "-",
         {"mulch", "tons_per_acre", "slope_pct"},
         [](const Inputs& in) {
             Answer result = by_table(mulch_of(in).C, "construction-mulch");
             result.remarks.push_back({source::Weight::caution, "mulch-length",
                                       "This C holds only up to the mulch's own slope length; ask for "
                                       "length_limit_construction_mulch."});
             return result;
         }},
        {"length_limit_construction_mulch",
         "ft",
         {"mulch", "tons_per_acre", "slope_pct"},
         [](const Inputs& in) {
             const auto limit = mulch_of(in).length_limit_m;
             if (!limit) throw std::invalid_argument("bare ground has no length to which mulch holds");
             return by_table(*limit / units::metre_per_foot, "construction-mulch");
         }},
        site_cover("C_cover_table", "pollution control agency"),
        site_cover("C_cover_table_goldman", "goldman"),
        {"residue_cover_reduction",
         "fraction removed",
         {"residue_cover_pct"},
         [](const Inputs& in) {
             const double SC =
                 surface_cover_subfactor(in.share_pct("residue_cover_pct") / 100.0, 0.035, unit_plot_roughness_mm);
             return by_equation(1.0 - SC, "cover-parts");
         }},
        surface_cover("SC_surface_cover"),
        surface_cover("SC_with_roughness"),
        {"SR_roughness",
         "-",
         {"roughness_in"},
         [](const Inputs& in) {
             return by_equation(surface_roughness_subfactor(25.4 * in.not_negative("roughness_in")), "cover-parts");
         }},
        {"consolidation_Cf",
         "-",
         {"years_since_tillage"},
         [](const Inputs& in) {
             return by_equation(consolidation_subfactor(in.number("years_since_tillage")), "cover-parts");
         }},
        {"PLU_prior_land_use",
         "-",
         {"Cf", "roots_lb_per_acre_in", "buried_lb_per_acre_in"},
         [](const Inputs& in) {
             const double Cf = in.positive("Cf");
             if (Cf > 1) throw std::invalid_argument("'Cf' lies above 0 and up to 1");
             return by_equation(prior_land_use_subfactor(Cf, in.not_negative("roots_lb_per_acre_in"),
                                                         in.not_negative("buried_lb_per_acre_in")),
                                "prior-land-use");
         }},
        {"mulch_b_from_plot_length",
         "-",
         {"plot_length_m"},
         [](const Inputs& in) {
             return by_equation(mulch_effectiveness_b(in.number("plot_length_m")), "mulch-studies");
         }},
    };
}

}  // namespace soilhold::factors
