#include "factors/pasture_range.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(PastureRange, BareGroundIsOnlyForLandLongUndisturbed) {
    // Read: .45 in the agency copies; the reprint of grass cover alone begins at 1.
    EXPECT_DOUBLE_EQ(pasture_cover_factor({0, 0, GroundCover::grass, 0}), 0.45);
    EXPECT_DOUBLE_EQ(grass_cover_curve(0), 1.0);
}

TEST(PastureRange, TheTwoGenerationsDifferInTheThirdDecimal) {
    // .090 in the copies (read), .091 in 1978 (from memory): weeds, no canopy, 60 %.
    EXPECT_NEAR(pasture_cover_factor({0, 0, GroundCover::weeds, 60}), 0.090, 1e-9);
    EXPECT_NEAR(pasture_cover_factor_1978({0, 0, GroundCover::weeds, 60}), 0.091, 1e-9);
}

TEST(PastureRange, MoreGroundCoverNeverMeansMoreLoss) {
    EXPECT_TRUE(rc::check("grass and weeds, any canopy of the table", [] {
        const double height = *rc::gen::element(0.5, 2.0, 4.0), canopy = *rc::gen::element(25.0, 50.0, 75.0);
        const auto kind = *rc::gen::element(GroundCover::grass, GroundCover::weeds);
        const double cover = *rc::gen::inRange(0, 99);
        RC_ASSERT(pasture_cover_factor({height, canopy, kind, cover + 1}) <=
                  pasture_cover_factor({height, canopy, kind, cover}));
        RC_ASSERT(grass_cover_curve(cover + 1) <= grass_cover_curve(cover));
    }));
}

TEST(PastureRange, CanopiesTheTableLacksAreErrors) {
    EXPECT_THROW(pasture_cover_factor({3, 50, GroundCover::grass, 50}), std::invalid_argument);
    EXPECT_THROW(pasture_cover_factor({0, 0, GroundCover::grass, 101}), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
