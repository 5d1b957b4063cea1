/// K by texture and organic carbon, where structure and permeability are not known.
///
/// K [US] = [0.2 + 0.3 exp(-0.0256 SAN (1 - SIL/100))] [SIL/(CLA + SIL)]^0.3
///          [1 - 0.25 C/(C + exp(3.72 - 2.95 C))] [1 - 0.7 SN/(SN + exp(-5.51 + 22.9 SN))], SN = 1 - SAN/100.
/// It takes organic carbon, not organic matter, and 0.0256, not 0.256.
/// @source Sharpley & Williams 1990, USDA Tech. Bull. 1768 (from memory; its variables read in a paper). Organic
///         matter = 1.72 carbon read there too; most texts print 1.724
#pragma once

namespace soilhold::factors {

/// @param sand_pct, silt_pct, clay_pct  shares that sum to 100 % within 0.5
/// @param organic_carbon_pct            >= 0
/// @throws std::invalid_argument otherwise
double texture_carbon_erodibility_us(double sand_pct, double silt_pct, double clay_pct, double organic_carbon_pct);

/// Organic matter % = 1.72 x organic carbon %.
double organic_matter_of_carbon_pct(double organic_carbon_pct);

}  // namespace soilhold::factors
