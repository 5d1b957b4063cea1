/// C of permanent pasture, range and idle land, by canopy and by cover on the ground; and of undisturbed forest beside
/// it.
///
/// The 0.45 of bare ground holds only for land left undisturbed for years: freshly broken ground is 1. Two printed
/// generations differ in the third decimal; each has its own function.
/// @source AH 537 (1978) Table 10: an earlier copy read in USDA Agronomy Note 50 (data/reference/pasture-range.csv);
/// the
///         cells that the print of 1978 changed from memory (pasture-range-1978.csv). An extension reprint's curve of
///         grass cover that begins at 1 for bare ground, read (pasture-cover-curve.csv)
#pragma once

#include <utility>

#include "source/citation.h"

namespace soilhold::factors {

/// Grass, grass-like plants, decaying duff or litter; or mostly broadleaf herbs with little root mat near the surface.
enum class GroundCover { grass, weeds };

struct PastureGround {
    double fall_height_m = 0.0;  ///< of the canopy: 0 (none), 0.5, 2 or 4 m
    double canopy_pct = 0.0;     ///< 0 without canopy; 25, 50, 75
    GroundCover cover = GroundCover::grass;
    double ground_cover_pct = 0.0;  ///< 0 to 100; straight between the columns 0, 20, 40, 60, 80, 95
};

/// One cell of the table, with the print that it was taken from.
struct PastureCell {
    double ground_cover_pct = 0.0;
    double C = 0.0;
    source::Origin origin;
};

/// The cells on either side of a ground cover; twice the same where one holds it. @throws as pasture_cover_factor
std::pair<PastureCell, PastureCell> pasture_cells(const PastureGround& ground, bool print_of_1978);

/// Straight between the two, which is this project's reading.
double between_cells(const PastureCell& from, const PastureCell& to, double ground_cover_pct);

/// @throws std::invalid_argument for a height or canopy without a line in the table, or cover outside 0-100 %
double pasture_cover_factor(const PastureGround& ground);

/// The same with the digits of the print of 1978.
double pasture_cover_factor_1978(const PastureGround& ground);

/// C by grass cover alone, 1 on bare ground; straight between tens of per cent.
double grass_cover_curve(double cover_pct);

}  // namespace soilhold::factors
