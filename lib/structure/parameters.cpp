#include "structure/parameters.h"

#include <string_view>

#include "source/reference_table.h"

namespace soilhold::structure {

const Parameters& parameters() {
    static const Parameters loaded = [] {
        const auto row = [](std::string_view name) -> const source::Row& {
            return source::row_where(source::table("structure-parameters"), "name", name);
        };
        const auto value = [&](std::string_view name) { return row(name).number("value"); };
        Parameters p{};
        p.structure_step = value("structure_step");
        p.permeability_step = value("permeability_step");
        p.unstable_slope = value("unstable_slope");
        p.unstable_link_least_erodibility = value("unstable_link_least_erodibility");
        p.interrill_share = value("interrill_share");
        p.crosswalk_intercept = value("crosswalk_intercept");
        p.crosswalk_slope = value("crosswalk_slope");
        p.crosswalk_slope_sd = row("crosswalk_slope").number("sd");
        p.crosswalk_residual = value("crosswalk_residual");
        p.points_per_structure_step = value("points_per_structure_step");
        p.permeability_share = value("permeability_share");
        p.offset_tilled = value("offset_tilled");
        p.offset_reduced = value("offset_reduced");
        p.offset_no_till = value("offset_no_till");
        p.offset_sd = row("offset_no_till").number("sd");
        p.reference_sd = value("reference_sd");
        p.local_reference_sd = value("local_reference_sd");
        p.season_sd = value("season_sd");
        p.link_sd_least = value("link_sd_least");
        p.prior_sd = value("prior_sd");
        p.m_least = value("m_least");
        p.m_most = value("m_most");
        p.slump_holds = value("slump_holds");
        p.slump_partial = value("slump_partial");
        p.slump_slurry = value("slump_slurry");
        p.slump_sd = row("slump_partial").number("sd");
        p.mean_weight_diameter_sd = value("mean_weight_diameter_sd");
        p.water_stable_residual = value("water_stable_residual");
        p.one_spot_class_sd = value("one_spot_class_sd");
        p.one_spot_relative_sd = value("one_spot_relative_sd");
        return p;
    }();
    return loaded;
}

}  // namespace soilhold::structure
