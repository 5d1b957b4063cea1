#include "factors/texture_class.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(TextureClass, ThePlainCasesAreWhatEverySoilBookSays) {
    // USDA texture triangle, from memory: a point well inside each class.
    EXPECT_EQ(texture_class(92, 5, 3), "sand");
    EXPECT_EQ(texture_class(82, 12, 6), "loamy sand");
    EXPECT_EQ(texture_class(65, 25, 10), "sandy loam");
    EXPECT_EQ(texture_class(40, 40, 20), "loam");
    EXPECT_EQ(texture_class(20, 65, 15), "silt loam");
    EXPECT_EQ(texture_class(7, 87, 6), "silt");
    EXPECT_EQ(texture_class(60, 13, 27), "sandy clay loam");
    EXPECT_EQ(texture_class(33, 33, 34), "clay loam");
    EXPECT_EQ(texture_class(10, 56, 34), "silty clay loam");
    EXPECT_EQ(texture_class(52, 6, 42), "sandy clay");
    EXPECT_EQ(texture_class(6, 47, 47), "silty clay");
    EXPECT_EQ(texture_class(20, 20, 60), "clay");
}

TEST(TextureClass, ItsEdgesAreTheTriangles) {
    // Soil Survey Manual, definitions of the classes, from memory.
    EXPECT_EQ(texture_class(20, 53, 27), "silty clay loam");
    EXPECT_EQ(texture_class(20, 53.1, 26.9), "silt loam");
    EXPECT_EQ(texture_class(20.1, 52.9, 27), "clay loam");
    EXPECT_EQ(texture_class(52, 38, 10), "loam");
    EXPECT_EQ(texture_class(52.1, 37.9, 10), "sandy loam");
    EXPECT_EQ(texture_class(8, 80, 12), "silt loam");
    EXPECT_EQ(texture_class(8.1, 80, 11.9), "silt");
}

TEST(TextureClass, MoreClayNeverLeadsBackToASand) {
    EXPECT_TRUE(rc::check([] {
        const double clay = *rc::gen::inRange(0, 1001) / 10.0;
        const double sand = *rc::gen::inRange(0, 1001) / 10.0 * (100 - clay) / 100;
        const auto name = texture_class(sand, 100 - clay - sand, clay);
        RC_ASSERT(!name.empty());
        if (clay >= 15) RC_ASSERT(name != "sand" && name != "loamy sand");
        if (clay >= 40) RC_ASSERT(name.find("clay") != std::string_view::npos);
        if (clay < 20) RC_ASSERT(name.find("clay") == std::string_view::npos);
    }));
}

TEST(TextureClass, SharesThatDoNotSumAreRefused) {
    EXPECT_THROW(texture_class(40, 40, 10), std::invalid_argument);
    EXPECT_THROW(texture_class(-1, 61, 40), std::invalid_argument);
    EXPECT_NO_THROW(texture_class(40.2, 40.2, 20));
}

}  // namespace
}  // namespace soilhold::factors
