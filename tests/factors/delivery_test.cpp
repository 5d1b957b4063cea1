#include "factors/delivery.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Delivery, LargerBasinsDeliverLessAndNoneMoreThanAll) {
    EXPECT_TRUE(rc::check("all relations by area and by distance", [] {
        const double size = *rc::gen::inRange(1, 100000) / 1000.0;
        for (const auto relation :
             {delivery_ratio_vanoni, delivery_ratio_boyce, delivery_ratio_scs, delivery_ratio_by_distance}) {
            RC_ASSERT(relation(2 * size) <= relation(size));
            RC_ASSERT(relation(size) <= 1.0);
            RC_ASSERT(relation(size) > 0.0);
        }
    }));
}

TEST(Delivery, BothUnitsOfAreaAgree) {
    // Vanoni 1975, from memory: 0.42 A^-0.125 with A in square miles; a square mile is 2.59 km2.
    EXPECT_NEAR(delivery_ratio_vanoni(2.59), 0.42, 0.001);
    EXPECT_NEAR(delivery_ratio_scs(2.59), 0.51, 0.001);
}

TEST(Delivery, NeedsASize) { EXPECT_THROW(delivery_ratio_vanoni(0), std::invalid_argument); }

}  // namespace
}  // namespace soilhold::factors
