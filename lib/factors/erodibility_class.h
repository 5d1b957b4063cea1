/// The fourteen values of K that soil surveys print (US units), 0.02 to 0.64, and the nearest of them to a K.
/// @source National Soil Survey Handbook 618.59 B (read): data/reference/erodibility-classes.csv
#pragma once

namespace soilhold::factors {

/// The class nearest to a K; of two equally near the higher.
/// @param erodibility_us  K, US units, 0 to 1
/// @throws std::invalid_argument outside
double erodibility_class_us(double erodibility_us);

}  // namespace soilhold::factors
