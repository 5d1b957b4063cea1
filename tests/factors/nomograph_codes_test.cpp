#include "factors/nomograph_codes.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(NomographCodes, SlowerSoilHasTheHigherCode) {
    // National Soil Survey Handbook 618.59 D(4), read: limits 0.30, 1.20, 4.80, 15 and 30 micrometres a second.
    EXPECT_EQ(permeability_code(0.29), 6);
    EXPECT_EQ(permeability_code(0.30), 5);
    EXPECT_EQ(permeability_code(4.79), 4);
    EXPECT_EQ(permeability_code(14), 3);
    EXPECT_EQ(permeability_code(15), 2);
    EXPECT_EQ(permeability_code(30), 1);
    EXPECT_EQ(permeability_code(5000), 1);
    EXPECT_EQ(permeability_code_of_texture("clay"), 6);
    EXPECT_EQ(permeability_code_of_texture("sand"), 1);
}

TEST(NomographCodes, StructureGoesBySizeOfGranule) {
    EXPECT_EQ(structure_code("very fine granular"), 1);
    EXPECT_EQ(structure_code("medium or coarse granular"), 3);
}

TEST(NomographCodes, UnknownWordsAreErrors) {
    EXPECT_THROW(structure_code("stable crumb"), std::invalid_argument);
    EXPECT_THROW(permeability_code_of_texture("peat"), std::invalid_argument);
    EXPECT_THROW(permeability_code(-1), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
