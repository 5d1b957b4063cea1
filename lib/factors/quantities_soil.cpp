#include "factors/quantities.h"

// Erodibility: the nomograph and its codes, rock fragments, tables by texture, other published relations.
#include <cmath>
#include <stdexcept>

#include "factors/aggregate_erodibility.h"
#include "factors/erodibility_class.h"
#include "factors/geometric_mean_diameter.h"
#include "factors/nomograph.h"
#include "factors/nomograph_codes.h"
#include "factors/rock_fragments.h"
#include "factors/texture_carbon.h"
#include "factors/texture_erodibility.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

/// Silt and very fine sand apart or as one sum: the equation takes their sum only.
NomographSoil soil_of(const Inputs& in) {
    NomographSoil soil;
    if (in.has("silt_vfs_pct"))
        soil.silt_pct = in.share_pct("silt_vfs_pct");
    else {
        soil.silt_pct = in.share_pct("silt_pct");
        soil.very_fine_sand_pct = in.share_pct("vfs_pct");
    }
    soil.clay_pct = in.share_pct("clay_pct");
    soil.organic_matter_pct = in.share_pct("om_pct");
    soil.structure_code = in.whole("structure");
    soil.permeability_code = in.whole("permeability");
    if (in.has("sand_pct") &&
        std::abs(soil.silt_pct + soil.very_fine_sand_pct + soil.clay_pct + in.share_pct("sand_pct") - 100.0) > 0.5)
        throw std::invalid_argument("silt, very fine sand, other sand and clay must sum to 100 %");
    return soil;
}

Quantity nomograph_of(std::string name, std::vector<std::string> keys) {
    return {std::move(name), "US", std::move(keys), [](const Inputs& in) {
                const NomographSoil soil = soil_of(in);
                return by_equation(nomograph_erodibility_us(soil), "nomograph", nomograph_remarks(soil));
            }};
}

/// "GR-L 0-5 in": the survey's word for the volume of fragments stands before the dash. The middle of its class is
/// taken.
double fragment_volume_pct(const std::string& texture) {
    if (texture.starts_with("GRX-")) return 75.0;  // 60-90 %
    if (texture.starts_with("GRV-")) return 47.5;  // 35-60 %
    if (texture.starts_with("GR-")) return 25.0;   // 15-35 %
    return 0.0;
}

Answer held_to_range(double erodibility_us, std::string_view citation) {
    source::Remarks remarks;
    if (erodibility_us < 0 || erodibility_us > 0.7)
        remarks.push_back({source::Weight::caution, "erodibility-out-of-range",
                           "K lies outside 0 to 0.7 US: this soil is not one the relation was fitted to."});
    return by_equation(erodibility_us, citation, std::move(remarks));
}

}  // namespace

std::vector<Quantity> soil_quantities() {
    const std::string si = "t ha h/(ha MJ mm)";
    const std::vector<std::string> six = {"silt_vfs_pct", "sand_pct?", "clay_pct",
                                          "om_pct",       "structure", "permeability"};
    const std::vector<std::string> apart = {"silt_pct", "vfs_pct",   "sand_pct?",    "clay_pct",
                                            "om_pct",   "structure", "permeability", "ksat_mm_per_h?"};
    return {
        {"M_particle_size",
         "%*%",
         {"silt_pct", "vfs_pct", "clay_pct"},
         [](const Inputs& in) {
             return by_equation(
                 particle_size_parameter(in.share_pct("silt_pct") + in.share_pct("vfs_pct"), in.share_pct("clay_pct")),
                 "nomograph");
         }},
        nomograph_of("K_nomograph", six),
        nomograph_of("K_nomograph_equation", six),
        {"K_equation_si_rounded_coefficients", si, apart,
         [](const Inputs& in) {
             return by_equation(nomograph_erodibility_rounded_si(soil_of(in)), "nomograph-rounded-si");
         }},
        {"K_equation_exact_conversion", si, apart,
         [](const Inputs& in) {
             const NomographSoil soil = soil_of(in);
             return by_equation(nomograph_erodibility_us(soil) * units::erodibility_si_per_us, "nomograph",
                                nomograph_remarks(soil));
         }},
        {"K_structure_term",
         "US",
         {"structure"},
         [](const Inputs& in) { return by_equation(structure_term_us(in.whole("structure")), "nomograph"); }},
        {"K_permeability_term",
         "US",
         {"permeability"},
         [](const Inputs& in) { return by_equation(permeability_term_us(in.whole("permeability")), "nomograph"); }},
        {"permeability_code_from_ksat",
         "code",
         {"ksat_um_per_s_from", "ksat_um_per_s_below"},
         [](const Inputs& in) {
             const double from = in.not_negative("ksat_um_per_s_from"), below = in.positive("ksat_um_per_s_below");
             if (!(below > from))
                 throw std::invalid_argument("'ksat_um_per_s_below' must be above 'ksat_um_per_s_from'");
             const int code = permeability_code(from);
             if (permeability_code(std::nextafter(below, 0.0)) != code)
                 throw std::invalid_argument("that range of conductivity lies in more than one permeability class");
             return by_table(code, "permeability-codes");
         }},
        {"permeability_code_of_texture",
         "code",
         {"texture"},
         [](const Inputs& in) {
             return by_table(permeability_code_of_texture(in.words("texture")), "texture-permeability");
         }},
        {"structure_code",
         "code",
         {"structure"},
         [](const Inputs& in) { return by_table(structure_code(in.words("structure")), "structure-codes"); }},
        {"K_class_value",
         "US",
         {"class"},
         [](const Inputs& in) { return by_table(erodibility_class_us(in.number("class")), "erodibility-classes"); }},
        {"Kw_from_Kf_example",
         "US",
         {"texture", "Kf"},
         [](const Inputs& in) {
             const double Kw = whole_soil_erodibility(in.not_negative("Kf"), fragment_volume_pct(in.words("texture")));
             return by_equation(erodibility_class_us(Kw), "rock-fragments");
         }},
        {"rock_mulch_factor",
         "-",
         {"fragment_vol_pct"},
         [](const Inputs& in) {
             return by_table(rock_mulch_factor(in.number("fragment_vol_pct")), "rock-mulch-factor");
         }},
        {"Kw_table",
         "US",
         {"fragment_vol_pct", "Kf"},
         [](const Inputs& in) {
             return by_equation(in.not_negative("Kf") * rock_mulch_factor(in.number("fragment_vol_pct")),
                                "rock-fragments");
         }},
        {"K_texture_om_table",
         "US",
         {"texture", "om_pct"},
         [](const Inputs& in) {
             return by_table(texture_erodibility_stewart_us(in.words("texture"), in.number("om_pct")),
                             "texture-erodibility", "by", "stewart");
         }},
        {"K_texture_om_table_ontario",
         "US",
         {"texture", "om"},
         [](const Inputs& in) {
             return by_table(texture_erodibility_ontario_us(in.words("texture"), in.words("om")), "texture-erodibility",
                             "by", "ontario");
         }},
        {"K_ontario_metric_column",
         "t/ha per US R unit",
         {"K_us"},
         [](const Inputs& in) {
             return by_equation(in.not_negative("K_us") * units::t_ha_per_ton_acre, "unit-conversions",
                                {{source::Weight::caution, "erodibility-half-metric",
                                  "This is K for metric loss with R in US units; it is no SI K."}});
         }},
        {"K_from_Dg",
         si,
         {"Dg_mm"},
         [](const Inputs& in) {
             return by_equation(erodibility_from_diameter(in.number("Dg_mm")), "geometric-mean-diameter");
         }},
        {"K_sharpley_williams",
         "US",
         {"sand_pct", "silt_pct", "clay_pct", "oc_pct"},
         [](const Inputs& in) {
             return by_equation(texture_carbon_erodibility_us(in.number("sand_pct"), in.number("silt_pct"),
                                                              in.number("clay_pct"), in.number("oc_pct")),
                                "texture-carbon");
         }},
        {"OM_from_OC",
         "%",
         {"oc_pct"},
         [](const Inputs& in) {
             return by_equation(organic_matter_of_carbon_pct(in.share_pct("oc_pct")), "carbon-to-matter");
         }},
        {"K_el_swaify_dangler",
         "US",
         {"unstable_agg_below_0.25mm_pct", "modsilt_x_modsand", "base_sat_pct", "silt_pct", "modsand_pct"},
         [](const Inputs& in) {
             return held_to_range(
                 volcanic_soil_erodibility_us({in.share_pct("unstable_agg_below_0.25mm_pct"),
                                               in.not_negative("modsilt_x_modsand"), in.share_pct("base_sat_pct"),
                                               in.share_pct("silt_pct"), in.share_pct("modsand_pct")}),
                 "volcanic-soils");
         }},
        {"K_young_mutchler",
         "US",
         {"aggregate_index", "montmorillonite_pct", "bulk_density", "modsilt_x_modsand", "dispersion_ratio"},
         [](const Inputs& in) {
             return held_to_range(
                 midwest_soil_erodibility_us({in.not_negative("aggregate_index"), in.share_pct("montmorillonite_pct"),
                                              in.positive("bulk_density"), in.not_negative("modsilt_x_modsand"),
                                              in.not_negative("dispersion_ratio")}),
                 "midwest-aggregates");
         }},
        reported_quantity("K_measured_plot_si", si, "place"),
        reported_quantity("K_nomograph_plot_si", si, "place"),
        reported_quantity("K_range_low", "US", "soil"),
        reported_quantity("K_range_high", "US", "soil"),
        reported_quantity("K_measured_range_low", "US", "sites"),
        reported_quantity("K_measured_range_high", "US", "sites"),
    };
}

}  // namespace soilhold::factors
