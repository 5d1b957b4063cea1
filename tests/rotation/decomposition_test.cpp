#include "rotation/decomposition.h"

#include <gtest/gtest.h>

namespace soilhold::rotation {
namespace {

TEST(Decomposition, StopsInFrostAndIsFastestAt32Degrees) {
    EXPECT_EQ(warmth_of_rot(-7.8), 0.0);
    EXPECT_NEAR(warmth_of_rot(32.0), 1.0, 1e-12);  // F(To) = 2 - 1
    EXPECT_LT(warmth_of_rot(10.0), warmth_of_rot(20.0));
    EXPECT_LT(warmth_of_rot(45.0), 1.0);
}

TEST(Decomposition, ByHandAt22Degrees) {
    // By hand: (29.8/39.8)^2 = 0.56062; 2 x 0.56062 - 0.56062^2 = 0.80695
    EXPECT_NEAR(warmth_of_rot(22.0), 0.80695, 2e-5);
    EXPECT_NEAR(moisture_of_rot(33.02), 0.5, 1e-12);  // half of 66.04 mm
    EXPECT_NEAR(rot_per_day(0.016, 22.0, 33.02), 0.008, 1e-12);
}

TEST(MassShareLeft, IsTheShareOfCoverWhereResidueIsThinAndLessWhereItIsThick) {
    EXPECT_NEAR(mass_share_left(1e-6, 0.7), 0.7, 1e-6);
    EXPECT_DOUBLE_EQ(mass_share_left(60, 1.0), 1.0);
    EXPECT_DOUBLE_EQ(mass_share_left(3, 0.0), 0.0);
    // By hand: x = 2, cover 0.86466; 0.7 x 0.86466 = 0.60527; -ln(1 - 0.60527)/2 = 0.46478
    EXPECT_NEAR(mass_share_left(2, 0.7), 0.46478, 1e-5);
    double last = 1;
    for (const double x : {0.1, 0.5, 1.0, 3.0, 9.0}) {
        EXPECT_LT(mass_share_left(x, 0.7), last);
        last = mass_share_left(x, 0.7);
    }
    EXPECT_THROW(mass_share_left(1, 1.1), std::invalid_argument);
}

TEST(Residues, CornCoversAsItsPrintedMassesSay) {
    // AH 703 Table 5-1, from memory: 950, 2400, 6050 lb/acre for 30, 60, 90 %
    EXPECT_NEAR(residue_of("corn").area_per_mass_acre_lb, 0.00038, 1e-9);
    EXPECT_THROW(residue_of("gold"), std::invalid_argument);
    for (const Residue& residue : all_residues()) EXPECT_GT(residue.rot_per_day, 0) << residue.name;
}

}  // namespace
}  // namespace soilhold::rotation
