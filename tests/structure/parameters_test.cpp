#include "structure/parameters.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "source/citation.h"
#include "source/reference_table.h"

namespace soilhold::structure {
namespace {

TEST(Parameters, OnlyPublishedOnesClaimASource) {
    const std::set<std::string> published = {"structure_step", "permeability_step", "unstable_slope", "m_least"};
    for (const source::Row& row : source::table("structure-parameters").rows) {
        const source::Standing expected =
            published.contains(row.text("name")) ? source::Standing::from_memory : source::Standing::our_assumption;
        EXPECT_EQ(source::standing_from(row.text("standing")), expected) << row.text("name");
        EXPECT_FALSE(row.empty("meaning")) << row.text("name");
    }
}

TEST(Parameters, ThePublishedStepsAreThoseOfTheNomograph) {
    // Nomograph equation, per code step: 3.25/100 and 2.5/100 US K; from memory
    EXPECT_DOUBLE_EQ(parameters().structure_step, 3.25 / 100.0);
    EXPECT_DOUBLE_EQ(parameters().permeability_step, 2.5 / 100.0);
    EXPECT_DOUBLE_EQ(parameters().unstable_slope, 0.00311);  // El-Swaify & Dangler 1976, from memory
}

}  // namespace
}  // namespace soilhold::structure
