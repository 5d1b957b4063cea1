#include "factors/soil_depth.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(SoilDepth, ThirteenTonnesAreAMillimetre) { EXPECT_NEAR(depth_of_loss_mm(13, 1.3), 1.0, 1e-12); }

TEST(SoilDepth, AgreesWithTheExtensionRule) {
    // University of Missouri Extension G1650, read: 10 tons/acre is about 0.07 in.
    EXPECT_NEAR(depth_of_loss_mm(10 * 2.242, 1.26) / 25.4, 0.07, 0.005);
}

TEST(SoilDepth, AndMassAreInverse) {
    EXPECT_TRUE(rc::check("any loss and density", [] {
        const double loss = *rc::gen::inRange(0, 1000), density = *rc::gen::inRange(8, 20) / 10.0;
        RC_ASSERT(std::abs(mass_of_layer(depth_of_loss_mm(loss, density), density) - loss) < 1e-9);
    }));
}

TEST(SoilDepth, NeedsADensity) { EXPECT_THROW(depth_of_loss_mm(10, 0), std::invalid_argument); }

}  // namespace
}  // namespace soilhold::factors
