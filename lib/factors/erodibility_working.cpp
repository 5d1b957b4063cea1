#include "factors/erodibility_working.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "factors/geometric_mean_diameter.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

using source::in_working;

constexpr const char* si_unit = "t ha h/(ha MJ mm)";

}  // namespace

source::Step step_to_si(double K_us, double K_si) {
    return {"K",
            "soil erodibility, in SI units",
            "",
            in_working(K_us) + " x " + in_working(units::erodibility_si_per_us),
            K_si,
            si_unit,
            source::origin_of("unit-conversions")};
}

source::Steps nomograph_steps(const NomographSoil& soil, double sum_us, double least_us,
                              const source::Origin& of_texture) {
    const source::Origin nomograph = source::origin_of("nomograph");
    const std::string silt = in_working(soil.silt_pct), fine = in_working(soil.very_fine_sand_pct);
    const double M = particle_size_parameter(soil.silt_pct + soil.very_fine_sand_pct, soil.clay_pct);
    const double a = std::min(soil.organic_matter_pct, largest_organic_matter_pct);
    const double texture = nomograph_texture_term_us(soil);
    const double structure = structure_term_us(soil.structure_code);
    const double permeability = permeability_term_us(soil.permeability_code);
    const double K_us = std::max(least_us, sum_us);
    const std::string sum = in_working(texture) + " + " + in_working(structure) + " + " + in_working(permeability);
    source::Steps steps;
    steps.push_back({"M", "silt and very fine sand (vfs), times what is not clay, in %", "(silt + vfs) (100 - clay)",
                     "(" + silt + " + " + fine + ") x (100 - " + in_working(soil.clay_pct) + ")", M, "1", of_texture});
    steps.push_back({"a", a < soil.organic_matter_pct ? "organic matter in %, counted up to 4" : "organic matter in %",
                     "", a < soil.organic_matter_pct ? "min(4, " + in_working(soil.organic_matter_pct) + ")" : "", a,
                     "%", of_texture});
    steps.push_back({"b", "structure code, 1 to 4", "", "", double(soil.structure_code), "1", of_texture});
    steps.push_back({"c", "permeability code, 1 to 6", "", "", double(soil.permeability_code), "1", of_texture});
    steps.push_back({"K1", "texture and organic matter", "0.0000021 M^1.14 (12 - a)",
                     "0.0000021 x " + in_working(M) + "^1.14 x (12 - " + in_working(a) + ")", texture, "US K",
                     nomograph});
    steps.push_back({"K2", "structure", "3.25 (b - 2) / 100",
                     "3.25 x (" + std::to_string(soil.structure_code) + " - 2) / 100", structure, "US K", nomograph});
    steps.push_back({"K3", "permeability", "2.5 (c - 3) / 100",
                     "2.5 x (" + std::to_string(soil.permeability_code) + " - 3) / 100", permeability, "US K",
                     nomograph});
    steps.push_back({"K",
                     K_us > sum_us ? "soil erodibility, in US units, held at the least K of the survey's classes"
                                   : "soil erodibility, in US units",
                     "K1 + K2 + K3", K_us > sum_us ? "max(0.02, " + sum + ")" : sum, K_us, "US K", nomograph});
    steps.push_back(step_to_si(K_us, K_us * units::erodibility_si_per_us));
    return steps;
}

source::Steps diameter_steps(const TextureShares& texture, double K_si, const source::Origin& of_texture) {
    const std::array<GrainClass, 3> grains{GrainClass{texture.clay_pct, 0, 0.002},
                                           GrainClass{texture.silt_pct, 0.002, 0.05},
                                           GrainClass{texture.sand_pct, 0.05, 2}};
    const double diameter_mm = geometric_mean_diameter_mm(grains);
    std::string sum;
    for (const GrainClass& one : grains)
        sum += (sum.empty() ? "" : " + ") + in_working(one.share_pct) + " x ln(" +
               in_working(0.5 * (one.from_mm + one.to_mm)) + ")";
    return {{"Dg", "geometric mean diameter of clay, silt and sand, each at the middle m of its limits",
             "exp(0.01 sum f ln m)", "exp(0.01 x (" + sum + "))", diameter_mm, "mm", of_texture},
            {"K", "soil erodibility of 225 soils of the world by Dg, in SI units",
             "0.0034 + 0.0405 exp(-0.5 ((log10 Dg + 1.659) / 0.7101)^2)",
             "0.0034 + 0.0405 x exp(-0.5 x ((ln(" + in_working(diameter_mm) + ") / ln(10) + 1.659) / 0.7101)^2)", K_si,
             si_unit, source::origin_of("geometric-mean-diameter")}};
}

source::Steps carbon_steps(const TextureShares& texture, double carbon_pct, std::optional<double> matter_pct,
                           double K_us, double K_si, const source::Origin& of_texture) {
    const source::Origin method = source::origin_of("texture-carbon");
    const std::string sand = in_working(texture.sand_pct), silt = in_working(texture.silt_pct),
                      clay = in_working(texture.clay_pct), C = in_working(carbon_pct);
    const double SN = 1.0 - texture.sand_pct / 100.0;
    const std::string n = in_working(SN);
    const double coarse = 0.2 + 0.3 * std::exp(-0.0256 * texture.sand_pct * (1.0 - texture.silt_pct / 100.0));
    const double fine = std::pow(texture.silt_pct / (texture.clay_pct + texture.silt_pct), 0.3);
    const double carbon = 1.0 - 0.25 * carbon_pct / (carbon_pct + std::exp(3.72 - 2.95 * carbon_pct));
    const double sandy = 1.0 - 0.7 * SN / (SN + std::exp(-5.51 + 22.9 * SN));
    return {matter_pct ? source::Step{"C", "organic carbon, from the organic matter", "organic matter / 1.72",
                                      in_working(*matter_pct) + " / 1.72", carbon_pct, "%",
                                      source::origin_of("carbon-to-matter")}
                       : source::Step{"C", "organic carbon, as given", "", "", carbon_pct, "%", of_texture},
            {"SN", "what is not sand", "1 - sand / 100", "1 - " + sand + " / 100", SN, "1", of_texture},
            {"f1", "coarse sand", "0.2 + 0.3 exp(-0.0256 sand (1 - silt / 100))",
             "0.2 + 0.3 x exp(-0.0256 x " + sand + " x (1 - " + silt + " / 100))", coarse, "1", method},
            {"f2", "silt beside clay", "(silt / (clay + silt))^0.3",
             "(" + silt + " / (" + clay + " + " + silt + "))^0.3", fine, "1", method},
            {"f3", "organic carbon", "1 - 0.25 C / (C + exp(3.72 - 2.95 C))",
             "1 - 0.25 x " + C + " / (" + C + " + exp(3.72 - 2.95 x " + C + "))", carbon, "1", method},
            {"f4", "very sandy soil", "1 - 0.7 SN / (SN + exp(-5.51 + 22.9 SN))",
             "1 - 0.7 x " + n + " / (" + n + " + exp(-5.51 + 22.9 x " + n + "))", sandy, "1", method},
            {"K", "soil erodibility, in US units", "f1 f2 f3 f4",
             in_working(coarse) + " x " + in_working(fine) + " x " + in_working(carbon) + " x " + in_working(sandy),
             K_us, "US K", method},
            step_to_si(K_us, K_si)};
}

namespace {

source::Step product_step(double product, const source::Origin& of_texture) {
    return {"x2", "silt with very fine sand, times sand without it, in %", "", "", product, "1", of_texture};
}

}  // namespace

source::Steps volcanic_steps(const VolcanicSoil& soil, double K_us, double K_si, const source::Origin& of_texture) {
    return {{"x1", "unstable aggregates below 0.25 mm", "", "", soil.unstable_below_250um_pct, "%", of_texture},
            product_step(soil.silt_times_sand, of_texture),
            {"x3", "base saturation", "", "", soil.base_saturation_pct, "%", of_texture},
            {"x4", "silt", "", "", soil.silt_pct, "%", of_texture},
            {"x5", "sand without very fine sand", "", "", soil.modified_sand_pct, "%", of_texture},
            {"K", "soil erodibility, in US units",
             "-0.03970 + 0.00311 x1 + 0.00043 x2 + 0.00185 x3 + 0.00258 x4 - 0.00823 x5",
             "-0.0397 + 0.00311 x " + in_working(soil.unstable_below_250um_pct) + " + 0.00043 x " +
                 in_working(soil.silt_times_sand) + " + 0.00185 x " + in_working(soil.base_saturation_pct) +
                 " + 0.00258 x " + in_working(soil.silt_pct) + " - 0.00823 x " + in_working(soil.modified_sand_pct),
             K_us, "US K", source::origin_of("volcanic-soils")},
            step_to_si(K_us, K_si)};
}

source::Steps midwest_steps(const MidwestSoil& soil, double K_us, double K_si, const source::Origin& of_texture) {
    return {{"x6", "aggregate index", "", "", soil.aggregate_index, "1", of_texture},
            {"x7", "montmorillonite", "", "", soil.montmorillonite_pct, "%", of_texture},
            {"x8", "bulk density", "", "", soil.bulk_density, "t/m3", of_texture},
            product_step(soil.silt_times_sand, of_texture),
            {"x9", "dispersion ratio", "", "", soil.dispersion_ratio, "1", of_texture},
            {"K", "soil erodibility, in US units", "-0.204 + 0.385 x6 - 0.013 x7 + 0.247 x8 + 0.003 x2 - 0.005 x9",
             "-0.204 + 0.385 x " + in_working(soil.aggregate_index) + " - 0.013 x " +
                 in_working(soil.montmorillonite_pct) + " + 0.247 x " + in_working(soil.bulk_density) + " + 0.003 x " +
                 in_working(soil.silt_times_sand) + " - 0.005 x " + in_working(soil.dispersion_ratio),
             K_us, "US K", source::origin_of("midwest-aggregates")},
            step_to_si(K_us, K_si)};
}

}  // namespace soilhold::factors
