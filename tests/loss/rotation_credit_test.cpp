// What a calendar of cover credits, the soak tests must not credit again.
#include <gtest/gtest.h>

#include <cmath>

#include "loss/annual_loss.h"
#include "loss/draws.h"
#include "loss/made_field.h"
#include "rotation/short_forms.h"

namespace soilhold::loss {
namespace {

/// Months of a humid cornland, made up.
rotation::Weather made_weather() {
    rotation::Weather weather;
    weather.month_temperature_C = rotation::ByMonth{-6, -4, 3, 10, 16, 21, 23, 22, 18, 11, 4, -3};
    weather.month_rain_mm = rotation::ByMonth{25, 25, 55, 90, 110, 115, 105, 105, 85, 70, 55, 35};
    return weather;
}

Field farmed(const char* words, const Spots& spots) {
    Field field = tested(made_field(words, 0.3), spots);
    field.cover.factor.reset();
    field.rotation = RotationGiven{rotation::rotation_of_words(words), {}};
    field.weather = made_weather();
    return field;
}

FieldEstimate estimated(const Field& field) {
    const FieldInputs inputs = inputs_of(field);
    return estimate_field(field, inputs, draw({inputs}, {}).front());
}

TEST(RestAlreadyCredited, MovesWhatTheTestsAreJudgedAgainst) {
    const FieldEstimate tilled = estimated(farmed("corn-soybean, fall plow", held));
    const FieldEstimate rested = estimated(farmed("corn-soybean, no-till", held));
    // offsets of the expectation: -12 points for tilled ground, 0 for no-till, straight between (our assumption)
    const double shares = rested.calendar->calendar.credited_share - tilled.calendar->calendar.credited_share;
    EXPECT_GT(shares, 0.3);
    EXPECT_NEAR(rested.structure.assessment->W_ref - tilled.structure.assessment->W_ref, 12 * shares, 1e-9);
}

TEST(RestAlreadyCredited, IsNotMultipliedByTheSameClods) {
    // The same evidence, crumbs that hold after years of rest, may lower C (its consolidation) or m (its crumbs). With
    // the rest in C, m must give back most of what it would have taken against tilled ground.
    const Field field = farmed("corn-soybean, no-till", held);
    const FieldInputs inputs = inputs_of(field);
    const double C = inputs.now.C.central, m = inputs.structure.m();
    const structure::Soil soil{field.soil.clay_pct, field.soil.organic_matter_pct, 0.37, field.texture_class};
    const auto against = [&](double rest) {
        return structure::structure_factor(inputs.tests, soil, structure::Credited::tilled,
                                           structure::CountingMode::credited, {}, rest)
            .m();
    };
    rotation::Weather weather = field.weather;
    weather.erosivity = inputs.R.central;
    rotation::Adjustments no_rest;
    no_rest.consolidation = 0;
    const double C_without =
        rotation::cover_calendar(field.rotation->rotation, rotation::climate_of(weather), no_rest).C;
    ASSERT_LT(C, 0.8 * C_without) << "C credits rest";
    ASSERT_LT(against(0), 1) << "the clods hold better than tilled ground's";
    EXPECT_GT(C * m, C * against(0)) << "against tilled ground the rest would count twice";
    // Credited once: no lower than either credit alone, times what the clods show beyond the rest.
    EXPECT_GE(C * m, std::min(C, C_without * against(0)) * std::min(1.0, m) - 1e-12);
    // And the more of the rest C has, the less of it m takes, all the way.
    double before = against(0);
    for (const double share : {0.25, 0.5, 0.75, 1.0}) {
        EXPECT_GT(against(share), before);
        before = against(share);
    }
}

TEST(RestAlreadyCredited, ClodsAsExpectedOfRestedGroundChangeNothing) {
    // Ground whose crumbs are just those that its rest should give has m = 1, and C alone says what rest does.
    const Field field = farmed("corn-soybean, no-till", held);
    const FieldInputs inputs = inputs_of(field);
    Field as_expected = field;
    as_expected.tests.slake_spots.clear();
    const double W_ref = inputs.structure.assessment->W_ref;
    as_expected.tests.water_stable_pct = {W_ref, W_ref, W_ref};
    EXPECT_NEAR(inputs_of(as_expected).structure.m(), 1.0, 1e-9);
}

TEST(Alternatives, OfOneRotationShareTheDoubtOfTheCalendar) {
    Field field = farmed("corn-soybean, fall plow", fell_apart);
    Change change;
    change.name = "chisel";
    change.rotation = rotation::chisel_instead_of_plow(field.rotation->rotation);
    field.changes.push_back(change);
    const FieldEstimate result = estimated(field);
    const ChangeResult& chisel = result.changes.at(0);
    EXPECT_LT(chisel.ratio.central, 0.9);
    // independent doubts would make the ratio about as wide as both C together
    const auto width = [](const spread::Interval& value) { return std::log(value.high / value.low); };
    const double both = std::hypot(width(result.factor("C").value), width(chisel.C.value));
    EXPECT_LT(width(chisel.ratio), 0.6 * both);
}

}  // namespace
}  // namespace soilhold::loss
