/// The nomograph equation: erodibility K from texture, organic matter, structure and permeability.
///
/// 100 K = 2.1e-4 M^1.14 (12 - a) + 3.25 (b - 2) + 2.5 (c - 3), US units, M = (silt + very fine sand) (100 - clay), all
/// in percent of the fine earth; a organic matter %, b structure code, c permeability code (6 is slowest). Meant for
/// silt + very fine sand up to 70 %; above that it overstates and the chart or the survey's K is better.
/// @source Wischmeier, Johnson & Cross 1971, J. Soil Water Conserv. 26:189-193; equation, codes and the 4 % cap on
/// organic
///         matter read in the National Soil Survey Handbook 618.59; the 70 % limit of AH 537 from memory
#pragma once

#include "source/remark.h"

namespace soilhold::factors {

struct NomographSoil {
    double silt_pct = 0.0;            ///< 0.002-0.05 mm
    double very_fine_sand_pct = 0.0;  ///< 0.05-0.10 mm
    double clay_pct = 0.0;            ///< < 0.002 mm
    double organic_matter_pct = 0.0;  ///< used up to 4 %
    int structure_code =
        2;  ///< 1 very fine granular, 2 fine granular, 3 medium or coarse granular, 4 blocky, platy, massive
    int permeability_code = 3;  ///< 1 rapid ... 6 very slow
};

/// M = (silt + very fine sand)(100 - clay), percent times percent.
double particle_size_parameter(double silt_and_very_fine_sand_pct, double clay_pct);

/// Organic matter counts up to here.
inline constexpr double largest_organic_matter_pct = 4.0;

/// 2.1e-6 M^1.14 (12 - a), US units: what texture and organic matter make of K.
double nomograph_texture_term_us(const NomographSoil& soil);

/// 3.25 (b - 2) / 100 and 2.5 (c - 3) / 100, US units: what the two codes add to K.
/// @throws std::invalid_argument for codes outside 1-4 and 1-6
double structure_term_us(int structure_code);
double permeability_term_us(int permeability_code);

/// K by the equation, US units, not below 0.
/// @throws std::invalid_argument for fractions outside 0-100 % or codes outside 1-4 and 1-6
double nomograph_erodibility_us(const NomographSoil& soil);

/// K in SI by the rounded coefficients that circulate (2.8e-7, 4.3e-3, 3.3e-3; from memory, one worked value read):
/// 1 to 2 % off the exact conversion. For checking others' figures; estimates use the equation above. t ha h/(ha MJ mm)
double nomograph_erodibility_rounded_si(const NomographSoil& soil);

/// What the method's limits say of this soil: organic matter above 4 %, silt and very fine sand above 70 %, a negative
/// result held at 0.
source::Remarks nomograph_remarks(const NomographSoil& soil);

}  // namespace soilhold::factors
