#include "factors/quantities.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include <set>

namespace soilhold::factors {
namespace {

using testing::HasSubstr;

double value(std::string_view name, std::string_view inputs) { return answer(name, inputs).value; }

std::string complaint(std::string_view name, std::string_view inputs) {
    try {
        answer(name, inputs);
    } catch (const std::invalid_argument& trouble) {
        return trouble.what();
    }
    return "";
}

TEST(Quantities, HaveNamesOfTheirOwnAndUnits) {
    std::set<std::string> names;
    for (const Quantity& one : all_quantities()) {
        EXPECT_TRUE(names.insert(one.name).second) << one.name;
        EXPECT_FALSE(one.unit.empty()) << one.name;
        EXPECT_FALSE(one.keys.empty()) << one.name;
    }
    EXPECT_GT(names.size(), 100U);
}

TEST(Quantities, AnUnknownNameIsToldItsNeighbours) {
    EXPECT_THAT(complaint("LS_ah", "slope_pct=5"), HasSubstr("LS_ah703"));
    EXPECT_THAT(complaint("zzz", ""), HasSubstr("no quantity 'zzz'"));
}

TEST(Quantities, SayWhichKeyIsMissingOrMeant) {
    EXPECT_THAT(complaint("LS_ah537", "slope_pct=5"), HasSubstr("needs 'length_ft'"));
    EXPECT_THAT(complaint("LS_ah537", "slope=5;length_ft=100"), HasSubstr("takes no 'slope'"));
    EXPECT_THAT(complaint("LS_ah537", "slope_pct=5;slope_pct=6;length_ft=100"), HasSubstr("given twice"));
    EXPECT_THAT(complaint("LS_ah537", "slope_pct;length_ft=100"), HasSubstr("key=value"));
}

TEST(Quantities, RefuseWhatCantBe) {
    EXPECT_THAT(complaint("LS_ah537", "slope_pct=-5;length_ft=100"), HasSubstr("must not be negative"));
    EXPECT_THAT(complaint("LS_ah537", "slope_pct=5;length_ft=0"), HasSubstr("must be above 0"));
    EXPECT_THAT(complaint("LS_ah537", "slope_pct=5 %;length_ft=100"), HasSubstr("no number"));
    EXPECT_THAT(complaint("LS_ah537", "slope_pct=nan;length_ft=100"), HasSubstr("no number"));
    EXPECT_THAT(complaint("K_nomograph", "silt_vfs_pct=65;clay_pct=40;om_pct=2;structure=2;permeability=4"),
                HasSubstr("shares"));
    EXPECT_THAT(complaint("K_structure_term", "structure=2.5"), HasSubstr("whole number"));
    EXPECT_THAT(complaint("P_off_grade_contour", "P_on_grade=0.5;furrow_grade_pct=9;land_slope_pct=8"),
                HasSubstr("steeper"));
    EXPECT_THAT(complaint("mod_fournier_index", "monthly_mm=1/2/3"), HasSubstr("twelve"));
    EXPECT_THAT(complaint("A_product", "R=1;K=1;LS=1;C=1;CP=1"), HasSubstr("not both"));
}

TEST(Quantities, ARangeOverTwoClassesHasNoAnswer) {
    EXPECT_THAT(complaint("P_contour", "slope_pct=1-5"), HasSubstr("more than one class"));
    EXPECT_THAT(complaint("T_lithic_bedrock", "depth_from_cm=40;to_cm=60"), HasSubstr("two classes"));
    EXPECT_THAT(complaint("permeability_code_from_ksat", "ksat_um_per_s_from=1;ksat_um_per_s_below=9"),
                HasSubstr("more than one"));
}

TEST(Quantities, EveryAnswerSaysWhereItComesFrom) {
    const Answer read =
        answer("C_pasture_range", "canopy_fall_height=none;canopy_pct=0;ground_cover_type=G;ground_cover_pct=30");
    EXPECT_EQ(read.way, Way::table);
    EXPECT_EQ(read.origin.standing, source::Standing::read_in_source);
    const Answer remembered = answer("LS_ah537", "slope_pct=6;length_ft=200");
    EXPECT_EQ(remembered.way, Way::equation);
    EXPECT_EQ(remembered.origin.standing, source::Standing::from_memory);
    EXPECT_FALSE(remembered.origin.from.empty());
    EXPECT_EQ(answer("SDR_textbook", "place=Indiana example").way, Way::reported);
}

TEST(Quantities, AnswerBetweenTheRowsOfTheTables) {
    // Halfway between 20 % (.20) and 40 % (.10) of the table read in USDA Agronomy Note 50.
    EXPECT_NEAR(
        value("C_pasture_range", "canopy_fall_height=none;canopy_pct=0;ground_cover_type=G;ground_cover_pct=30"), 0.15,
        1e-12);
    // Halfway between the factors .68 and .61 of 15 and 20 % (National Soil Survey Handbook 618.92, read).
    EXPECT_NEAR(value("rock_mulch_factor", "fragment_vol_pct=17.5"), 0.645, 1e-12);
}

TEST(Quantities, UsAndMetricInputsGiveTheSameLoss) {
    EXPECT_TRUE(rc::check("A in ton/acre times 2.2417 is A in t/ha", [] {
        const double R = *rc::gen::inRange(10, 500), K = *rc::gen::inRange(1, 70) / 100.0;
        const double LS = *rc::gen::inRange(1, 900) / 100.0;
        const auto product = [](double a, double b, double c) {
            return value("A_product",
                         "R=" + std::to_string(a) + ";K=" + std::to_string(b) + ";LS=" + std::to_string(c));
        };
        const double metric = product(R * value("R_us_to_si", ""), K * value("K_us_to_si", ""), LS);
        RC_ASSERT(std::abs(metric / (product(R, K, LS) * value("A_us_to_si", "")) - 1) < 1e-3);
    }));
}

TEST(Quantities, TwentyPercentOfCoverAboutHalvesTheLoss) {
    // University of Nebraska lesson, read.
    EXPECT_NEAR(value("SC_surface_cover", "cover_pct=20"), 0.5, 0.01);
}

TEST(Quantities, SmallTerraceFactorsAreSaidToBeSediment) {
    const Answer sediment = answer("P_terrace", "slope_pct=4;use=sediment yield graded channel sod outlet");
    ASSERT_EQ(sediment.remarks.size(), 1U);
    EXPECT_EQ(sediment.remarks[0].code, "terrace-sediment");
    EXPECT_TRUE(answer("P_terrace", "slope_pct=4;use=contour factor for interterrace loss").remarks.empty());
}

TEST(Quantities, NeverAnswerWithoutAFiniteNumberOrAPlainReason) {
    EXPECT_TRUE(rc::check("any text either has an answer or a reason", [] {
        const auto& all = all_quantities();
        const Quantity& one = all[*rc::gen::inRange<std::size_t>(0, all.size())];
        std::string inputs;
        for (std::string key : one.keys) {
            if (key.back() == '?') key.pop_back();
            const std::string cell =
                *rc::gen::oneOf(rc::gen::element<std::string>("0", "1", "5", "100", "1e300", "-3", "1-5", "<16", "all",
                                                              "", "none", "5/10", "low", "1e-300"),
                                rc::gen::map(rc::gen::string<std::string>(), [](std::string s) {
                                    std::erase(s, ';');
                                    return s;
                                }));
            inputs += (inputs.empty() ? "" : ";") + key + "=" + cell;
        }
        try {
            RC_ASSERT(std::isfinite(answer(one.name, inputs).value));
        } catch (const std::invalid_argument& reason) {
            RC_ASSERT(!std::string(reason.what()).empty());
        }
    }));
}

}  // namespace
}  // namespace soilhold::factors
