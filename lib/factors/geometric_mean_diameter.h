/// K by the geometric mean diameter Dg of the soil's grains: a texture-only relation for soils far from the
/// nomograph's.
///
/// K = 0.0034 + 0.0405 exp{-1/2 [(log10 Dg + 1.659)/0.7101]^2}, already SI; Dg = exp(0.01 sum f_i ln m_i) mm. The log
/// is to base 10 outside and natural inside. Fitted to means of classes of 225 soils with less than 10 % rock.
/// @source AH 703 (1997) ch. 3, Roemkens et al. (from memory; the form for United States soils less surely)
#pragma once

#include <span>

namespace soilhold::factors {

struct GrainClass {
    double share_pct = 0.0;  ///< of the fine earth
    double from_mm = 0.0;    ///< limits of the class; their mean stands for it
    double to_mm = 0.0;
};

/// Dg, mm. @throws std::invalid_argument unless the shares are none negative and sum to 100 % within 0.5
double geometric_mean_diameter_mm(std::span<const GrainClass> classes);

/// K of the world set, t ha h/(ha MJ mm). @param diameter_mm  > 0
double erodibility_from_diameter(double diameter_mm);

/// K of the United States set: 0.0017 + 0.0494 exp{-1/2 [(log10 Dg + 1.675)/0.6986]^2}.
double erodibility_from_diameter_us_soils(double diameter_mm);

}  // namespace soilhold::factors
