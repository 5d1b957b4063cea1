#include "soiltest/mean_weight_diameter.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "handbook/row_file.h"

namespace soilhold::soiltest {
namespace {

/// aggregate-mwd-classes.csv: Le Bissonnais 1996 and ISO 10930:2012, from memory.
class DiameterRow : public testing::TestWithParam<rows::Row> {};

TEST_P(DiameterRow, TheClassHoldsFromItsLowerLimitToItsUpper) {
    const rows::Row& row = GetParam();
    const double least = row.value("mwd_min_mm");
    const double most = row.empty("mwd_max_mm") ? 5.0 : row.value("mwd_max_mm");
    EXPECT_EQ(diameter_class(least).stability, row.text("stability"));
    EXPECT_EQ(diameter_class(0.5 * (least + most)).stability, row.text("stability"));
    EXPECT_EQ(diameter_class(std::nextafter(most, 0.0)).stability, row.text("stability"));
}

INSTANTIATE_TEST_SUITE_P(Rows, DiameterRow, testing::ValuesIn(rows::read("aggregate-mwd-classes.csv")),
                         rows::name_of<testing::TestParamInfo<rows::Row>>);

TEST(MeanWeightDiameter, CrustsAndRiskComeWithTheClass) {
    EXPECT_EQ(diameter_class(1.5).crusting, "rare");
    EXPECT_EQ(diameter_class(3.0).risk, "very low");
}

TEST(MeanWeightDiameter, ANegativeSizeIsRefused) {
    EXPECT_THROW(diameter_class(-0.1), std::invalid_argument);
    EXPECT_THROW(diameter_class(std::nan("")), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::soiltest
