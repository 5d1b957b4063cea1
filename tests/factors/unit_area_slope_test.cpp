#include "factors/unit_area_slope.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(UnitAreaSlope, TheUnitPlotHasAFactorOfOne) {
    // As = 22.13 m2/m at 9 %: by definition of both brackets.
    EXPECT_NEAR(unit_area_slope_factor(22.13, 0.09), 1.0, 0.002);
}

TEST(UnitAreaSlope, TakesTheSineOverItsConstantNotTheSineOfTheQuotient) {
    // sin 10 deg = 0.17365: (100/22.13)^0.4 (0.17365/0.0896)^1.3 = 4.321 by hand.
    EXPECT_NEAR(unit_area_slope_factor(100, std::tan(10 * std::numbers::pi / 180)), 4.321, 0.001);
}

TEST(UnitAreaSlope, ACellWithoutInflowHasTheLengthOfItsOwnWidth) {
    // A = 0: D^(2m+2) / (D^(m+2) 22.13^m) = (D/22.13)^m.
    EXPECT_NEAR(grid_cell_length_factor(0, 10, 0.5, 0), std::sqrt(10 / 22.13), 1e-9);
}

TEST(UnitAreaSlope, FlowAcrossTheDiagonalHasMoreWidth) {
    EXPECT_LT(grid_cell_length_factor(1000, 10, 0.5, std::numbers::pi / 4), grid_cell_length_factor(1000, 10, 0.5, 0));
}

TEST(UnitAreaSlope, ImpossibleCellsAreErrors) {
    EXPECT_THROW(unit_area_slope_factor(0, 0.1), std::invalid_argument);
    EXPECT_THROW(grid_cell_length_factor(0, 0, 0.5, 0), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
