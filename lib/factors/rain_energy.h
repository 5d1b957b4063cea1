/// Unit energy of rain: the kinetic energy that a depth of rain brings at an intensity.
///
/// Two equations, kept apart by name: Handbook 537 stops growing at 3 in/h (76 mm/h), Brown & Foster's has no cap.
/// Mixing them moves R by several per cent. A later coefficient for Brown & Foster's form (0.082 for 0.05, McGregor et
/// al. 1995) is left out on purpose: R maps and erosivity tables rest on the two below.
/// @source AH 537 (1978) p. 6 and appendix: e = 916 + 331 log10 i, US units; 0.119 + 0.0873 log10 i, SI (from memory,
///         recomputed). Brown & Foster 1987, Trans. ASAE 30:379-386, used by AH 703 ch. 2 (from memory)
#pragma once

namespace soilhold::factors {

/// e = 916 + 331 log10 i, held at 1074 above 3 in/h and at 0 below, where the logarithm runs to minus infinity.
/// @param inches_per_hour  i, >= 0
/// @return                 ft tonf/(acre in)
double unit_energy_537_us(double inches_per_hour);

/// e = 0.119 + 0.0873 log10 i, held at 0.283 above 76 mm/h and at 0 below 0.043 mm/h.
/// @param mm_per_hour  i, >= 0
/// @return             MJ/(ha mm)
double unit_energy_537(double mm_per_hour);

/// e = 1099 [1 - 0.72 exp(-1.27 i)]. @param inches_per_hour  i, >= 0. @return  ft tonf/(acre in)
double unit_energy_brown_foster_us(double inches_per_hour);

/// e = 0.29 [1 - 0.72 exp(-0.05 i)]. @param mm_per_hour  i, >= 0. @return  MJ/(ha mm)
double unit_energy_brown_foster(double mm_per_hour);

}  // namespace soilhold::factors
