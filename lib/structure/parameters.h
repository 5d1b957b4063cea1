/// The numbers of the structure factor, each a row of data/reference/structure-parameters.csv with its standing.
///
/// Most are this project's assumptions; those of published equations are from memory. They are passed by value where a
/// test or a what-if wants others.
/// @source data/reference/structure-parameters.csv, column `source`
#pragma once

namespace soilhold::structure {

struct Parameters {
    double structure_step;                   ///< US K for one structure code
    double permeability_step;                ///< US K for one permeability code
    double unstable_slope;                   ///< US K for 1 % of soil unstable at 0.25 mm
    double unstable_link_least_erodibility;  ///< US K
    double interrill_share;                  ///< 1
    double crosswalk_intercept, crosswalk_slope, crosswalk_slope_sd, crosswalk_residual;  ///< %, % per class
    double points_per_structure_step;                                                     ///< % of W
    double permeability_share;                                                            ///< 1
    double offset_tilled, offset_reduced, offset_no_till, offset_sd;                      ///< %
    double reference_sd, local_reference_sd;                                              ///< %
    double season_sd, link_sd_least, prior_sd;                                            ///< of ln m
    double m_least, m_most;
    double slump_holds, slump_partial, slump_slurry, slump_sd;  ///< %
    double mean_weight_diameter_sd, water_stable_residual;      ///< %
    double one_spot_class_sd;                                   ///< classes
    double one_spot_relative_sd;                                ///< 1
};

/// The parameters of the compiled table.
const Parameters& parameters();

}  // namespace soilhold::structure
