/// Fields of a watershed: tons worked by hand, gaps that stay gaps, practices on offer, delivery, and places.
#include "watershed/fields.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "soiltest/summary.h"

namespace soilhold::watershed {
namespace {

constexpr float none = terrain::no_value;

/// 4 x 4 cells of 100 m, 1 ha each: R 1000, K 0.04 in the western half and 0.02 in the eastern, LS 1, C 0.2, P 1.
/// Loss: 8 t/ha in the west, 4 in the east.
Layers made_layers() {
    Layers layers{terrain::Grid<float>({4, 4, 100}, 1), {}, {}, {}, {}, {}};
    layers.R = {"R", {}, 1000, {}};
    layers.C = {"C", {}, 0.2F, {}};
    layers.P = {"P", {}, 1, {}};
    layers.soils.list = {{"west", 0.04F, 8}, {"east", 0.02F, none}};
    layers.soils.grid = terrain::Grid<std::int32_t>({4, 4, 100}, 0);
    for (std::int64_t row = 0; row < 4; ++row)
        for (std::int64_t column = 2; column < 4; ++column) (*layers.soils.grid)(row, column) = 1;
    return layers;
}

raster::Placement made_place() {
    return {.west = 0,
            .north = 400,
            .cell_width = 100,
            .cell_height = 100,
            .columns = 4,
            .rows = 4,
            .crs = "",
            .unit_m = 1};
}

FieldGiven box(const std::string& name, double west, double south, double east, double north) {
    FieldGiven field;
    field.polygon.name = name;
    field.polygon.parts = {{{{west, south}, {east, south}, {east, north}, {west, north}}, {}}};
    field.polygon.area_m2 = (east - west) * (north - south);
    return field;
}

struct Worked {
    Layers layers = made_layers();
    Ways ways{terrain::Grid<float>({4, 4, 100}, none), 0};
    FieldSettings settings;
    LossMap map;
    Fields work(const std::vector<FieldGiven>& given) {
        map = loss_map(layers);
        return work_fields(layers, ways, made_place(), given, settings, map);
    }
};

TEST(Fields, TonsAreSummedByExactArea) {
    Worked worked;
    // 1.5 cells of 8 t/ha and 0.5 of 4 in each of two rows: 2 x (12 + 2) = 28 t on 4 ha.
    const Fields fields = worked.work({box("a", 50, 0, 250, 200)});
    ASSERT_EQ(fields.fields.size(), 1U);
    const FieldResult& a = fields.fields[0];
    EXPECT_NEAR(a.on_grid.area_ha, 4, 1e-9);
    EXPECT_NEAR(a.on_grid.total_t, 28, 1e-4);
    EXPECT_NEAR(a.on_grid.mean, 7, 1e-5);
    EXPECT_EQ(a.main_soil, "west");
    EXPECT_NEAR(*a.tolerance, 8, 1e-6);  // the soil that has one
    EXPECT_NEAR(*a.times_T, 7.0 / 8, 1e-5);
    EXPECT_NEAR(a.K, (3 * 0.04 + 1 * 0.02) / 4, 1e-8);
}

TEST(Fields, AFieldsOwnFactorsMixWithNoNeighbours) {
    Worked worked;
    // Two fields share the western column, half each: each counts its half cells with its own C.
    FieldGiven one = box("one", 0, 0, 50, 400), other = box("other", 50, 0, 100, 400);
    one.C = 0.1;
    other.C = 0.4;
    other.P = 0.5;
    other.tolerance = 2;
    const Fields fields = worked.work({one, other});
    EXPECT_NEAR(fields.fields[0].on_grid.mean, 1000 * 0.04 * 0.1, 1e-5);
    EXPECT_NEAR(fields.fields[1].on_grid.mean, 1000 * 0.04 * 0.4 * 0.5, 1e-5);
    EXPECT_NEAR(*fields.fields[1].times_T, 4, 1e-5);
    // C 0.7 to 1.3 and LS 0.8 to 1.25 hold 95 %: 3.92 standard deviations each.
    EXPECT_NEAR(fields.fields[0].own_log_sd, std::hypot(std::log(1.3 / 0.7), std::log(1.25 / 0.8)) / 3.92, 0.002);
}

TEST(Fields, TheMapShowsAFieldsOwnFactorsWhereItHoldsHalfACell) {
    Worked worked;
    FieldGiven one = box("one", 0, 300, 140, 400);
    one.C = 0.1;
    worked.work({one});
    EXPECT_NEAR(worked.map.loss(0, 0), 4, 1e-5);
    EXPECT_NEAR(worked.map.loss(0, 1), 8, 1e-5);
    EXPECT_NEAR(worked.map.loss(1, 0), 8, 1e-5);
}

TEST(Fields, WhatIsMissingIsAGapWithItsReason) {
    Worked worked;
    worked.layers.LS(0, 0) = none;
    (*worked.layers.soils.grid)(0, 1) = -1;
    for (std::int64_t column = 0; column < 4; ++column) (*worked.layers.soils.grid)(3, column) = -1;
    const Fields fields = worked.work({box("north", 0, 300, 400, 400), box("south", 0, 0, 400, 100)});
    ASSERT_EQ(fields.fields.size(), 1U);
    EXPECT_NEAR(fields.fields[0].on_grid.gap_share, 0.5, 1e-9);
    EXPECT_NEAR(fields.fields[0].on_grid.mean, 4, 1e-5);
    EXPECT_NEAR(fields.fields[0].missing[1], 0.25, 1e-9);  // soil
    EXPECT_NEAR(fields.fields[0].missing[2], 0.25, 1e-9);  // slope
    ASSERT_EQ(fields.left_out.size(), 1U);
    EXPECT_EQ(fields.left_out[0].name, "south");
    EXPECT_THAT(fields.left_out[0].why, testing::HasSubstr("soil on 100 %"));
    EXPECT_EQ(worked.map.missing[1], 5);
}

TEST(Fields, TheBestPracticeOnOfferSaysWhatCanBeAvoided) {
    Worked worked;
    worked.settings.offered = {
        {"no-till", {}, 0.5, {}, {}}, {"cover crop", 0.05, {}, {}, {}}, {"contouring", {}, {}, 0.6, {}}};
    FieldGiven good = box("good", 0, 0, 100, 100);
    good.C = 0.04;
    const Fields fields = worked.work({box("usual", 0, 300, 200, 400), good});
    // 16 t; C 0.2 to 0.05 leaves a quarter.
    EXPECT_EQ(fields.fields[0].best_practice, "cover crop");
    EXPECT_NEAR(*fields.fields[0].avoidable_t, 12, 1e-4);
    // 1.6 t; the cover crop would raise C, no-till halves it.
    EXPECT_EQ(fields.fields[1].best_practice, "no-till");
    EXPECT_NEAR(*fields.fields[1].avoidable_t, 0.8, 1e-5);
}

TEST(Fields, APracticeFactorReplacesP) {
    Worked worked;
    worked.layers.P.value = 0.8F;
    worked.settings.offered = {{"strips", 0.1, {}, 0.4, {}}};
    const Fields fields = worked.work({box("a", 0, 300, 100, 400)});
    // 6.4 t at C 0.2 and P 0.8; 1.6 t at 0.1 and 0.4.
    EXPECT_NEAR(*fields.fields[0].avoidable_t, 6.4 - 1.6, 1e-4);
}

TEST(Fields, NothingOnOfferThatHelpsAvoidsNothing) {
    Worked worked;
    worked.settings.offered = {{"clearing", 0.9, {}, {}, {}}};
    const Fields fields = worked.work({box("a", 0, 300, 100, 400)});
    EXPECT_EQ(fields.fields[0].best_practice, "");
    EXPECT_EQ(fields.fields[0].avoidable_t, 0.0);
}

TEST(Fields, TheWayToAChannelSaysWhatReachesIt) {
    Worked worked;
    worked.ways.to_channel_m(0, 0) = 100;
    worked.ways.to_channel_m(0, 1) = 400;
    worked.ways.largest_basin_km2 = 2;
    const Fields fields = worked.work({box("near", 0, 300, 200, 400), box("none", 200, 0, 400, 100)});
    // exp(1.10 - 0.34 ln D): 0.6275 at 100, 0.3917 at 400 (Reckhow et al. 1988, by calculator); 8 t from each cell.
    EXPECT_NEAR(*fields.fields[0].delivered_t, 8 * (0.6275 + 0.3917), 0.01);
    EXPECT_NEAR(*fields.fields[0].way_m, 250, 1e-6);
    // By area, 2 km2: Boyce 0.41 x 2^-0.3 = 0.333, Vanoni 0.433, SCS 0.524: of 16 t 5.3 to 8.4.
    EXPECT_NEAR(fields.fields[0].delivered_low_t, 16 * 0.333, 0.02);
    EXPECT_NEAR(fields.fields[0].delivered_high_t, 16 * 0.524, 0.02);
    EXPECT_FALSE(fields.fields[1].delivered_t);
    EXPECT_EQ(fields.fields[1].remarks.back().code, "no-channel");
    EXPECT_NEAR(*fields.fields[0].delivery[0], (0.6275 + 0.3917) / 2, 1e-3);
    EXPECT_FALSE(fields.fields[1].delivery[0]);
    EXPECT_NEAR(*fields.fields[1].delivery[2], 0.333, 1e-3);
}

TEST(Fields, AnyRelationOfDeliveryCanRankThem) {
    Worked worked;
    worked.ways.to_channel_m(0, 0) = 100;
    worked.ways.largest_basin_km2 = 2;
    worked.settings.offered = {{"no-till", {}, 0.5, {}, {}}};
    worked.settings.delivery = Delivery::boyce;
    const Fields fields = worked.work({box("near", 0, 300, 100, 400), box("none", 200, 0, 400, 100)});
    // 0.41 x 2^-0.3 = 0.333 (Boyce 1975, from memory, by calculator) of 8 t each, half of it avoidable.
    for (const FieldResult& field : fields.fields) {
        EXPECT_NEAR(*field.delivered_t, 8 * 0.333, 0.01);
        EXPECT_NEAR(*field.delivered_avoidable_t, 4 * 0.333, 0.01);
        EXPECT_TRUE(field.ranks[static_cast<std::size_t>(Criterion::delivered)]);
    }
}

TEST(Fields, TheShareThatReachesAChannelHasADoubtOfItsOwn) {
    Worked worked;
    for (float& way : worked.ways.to_channel_m.values()) way = 100;
    worked.settings.offered = {{"no-till", {}, 0.5, {}, {}}};
    worked.settings.top = 1;
    // One soil, one C: 12 t against 8 t, 3 and 2 cells.
    const Fields fields = worked.work({box("large", 0, 100, 100, 400), box("small", 100, 200, 200, 400)});
    const auto& ranks = fields.fields[0].ranks;
    // ln share of half to twice, 19 times in 20: ln 4 / 3.92.
    EXPECT_NEAR(fields.fields[0].delivery_log_sd, std::log(4) / 3.92, 1e-3);
    // P(larger) = Phi(ln 1.5 / (sd sqrt 2)): sd 0.167 (C 0.7 to 1.3, LS 0.8 to 1.25) gives 0.957, with 0.354 beside it
    // 0.391 gives 0.768 (tables of the normal distribution).
    const double sd = fields.fields[0].own_log_sd;
    const auto chance = [](double ratio, double one) { return 0.5 * std::erfc(-std::log(ratio) / (2 * one)); };
    EXPECT_NEAR(ranks[static_cast<std::size_t>(Criterion::avoidable)]->chance_in_top, chance(1.5, sd), 0.04);
    EXPECT_NEAR(ranks[static_cast<std::size_t>(Criterion::delivered)]->chance_in_top,
                chance(1.5, std::hypot(sd, std::log(4) / 3.92)), 0.05);
}

TEST(Fields, PlacesAreByEachCriterion) {
    Worked worked;
    worked.settings.top = 1;
    // Small and steep: 8 t/ha on 1 ha; large and gentle: 4 t/ha on 4 ha.
    const Fields fields = worked.work({box("small", 0, 300, 100, 400), box("large", 200, 0, 400, 200)});
    const auto place = [&](std::size_t field, Criterion by) {
        return fields.fields[field].ranks[static_cast<std::size_t>(by)]->place;
    };
    EXPECT_EQ(place(0, Criterion::loss), 1U);
    EXPECT_EQ(place(1, Criterion::loss), 2U);
    EXPECT_EQ(place(1, Criterion::tons), 1U);
    EXPECT_FALSE(fields.fields[1].ranks[static_cast<std::size_t>(Criterion::times_T)]);  // no T
    EXPECT_FALSE(fields.fields[0].ranks[static_cast<std::size_t>(Criterion::avoidable)]);
    const double sum = fields.fields[0].ranks[0]->chance_in_top + fields.fields[1].ranks[0]->chance_in_top;
    EXPECT_NEAR(sum, 1, 1e-9);
}

/// A rotation as its calendar leaves it: C, and one part of the calendar that moves ln C by 0.3 either way.
RotationWorked made_rotation(const std::string& name, double C) {
    RotationWorked one;
    one.name = name;
    one.cover.C = {C, C * std::exp(-0.3), C * std::exp(0.3), spread::Shape::lognormal, 0, 1.2, {}, {}, {}, {}};
    one.cover.calendar.C = C;
    one.doubts = {{0, -0.3, 0.3}};
    return one;
}

/// Aggregates of two spots in water, % stable.
input::TestedField made_tests(const std::string& soil, double stable) {
    input::TestedField tests;
    tests.file = "tests.yaml";
    tests.soil = soil;
    tests.record.water_stable_pct = {stable, stable};
    return tests;
}

TEST(Fields, OneOfARotationHasItsCAndItsDoubt) {
    Worked worked;
    worked.settings.rotations = {made_rotation("ploughed", 0.3), made_rotation("no-till", 0.05)};
    FieldGiven north = box("north", 0, 300, 200, 400), south = box("south", 0, 0, 200, 100);
    north.rotation = 0;
    south.rotation = 1;
    const Fields fields = worked.work({north, south, box("by the map", 200, 0, 400, 100)});
    // R 1000 x K 0.04 x LS 1 = 40: 12 t/ha at C 0.3 and 2 at 0.05, on 2 ha.
    EXPECT_NEAR(fields.fields[0].on_grid.total_t, 24, 1e-4);
    EXPECT_NEAR(fields.fields[1].on_grid.total_t, 4, 1e-5);
    EXPECT_NEAR(fields.fields[2].on_grid.mean, 1000 * 0.02 * 0.2, 1e-5);
    EXPECT_EQ(fields.fields[0].rotation, "ploughed");
    EXPECT_NEAR(worked.map.loss(0, 0), 12, 1e-4);
    // Its own doubt is that of LS alone, 0.8 to 1.25; that of C stands with the calendar.
    EXPECT_NEAR(fields.fields[0].own_log_sd, std::log(1.25 / 0.8) / 3.92, 0.002);
    EXPECT_NEAR(fields.fields[0].rotation_log_sd, 0.6 / 3.92, 0.002);
    EXPECT_EQ(fields.fields[2].rotation_log_sd, 0);
}

TEST(Fields, APracticeOnOfferMayBeARotation) {
    Worked worked;
    worked.settings.rotations = {made_rotation("ploughed", 0.3), made_rotation("no-till", 0.05)};
    worked.settings.offered = {{"stop ploughing", 0.05, {}, {}, {}, 1}};
    FieldGiven north = box("north", 0, 300, 200, 400), south = box("south", 0, 0, 200, 100);
    north.rotation = 0;
    south.rotation = 1;
    const Fields fields = worked.work({north, south});
    EXPECT_EQ(fields.fields[0].best_practice, "stop ploughing");
    EXPECT_NEAR(*fields.fields[0].avoidable_t, 24 - 4, 1e-4);
    EXPECT_NEAR(fields.fields[0].taken->value, 4, 1e-5);
    // A field gains nothing by the rotation that it has.
    EXPECT_EQ(fields.fields[1].best_practice, "");
    EXPECT_EQ(fields.fields[1].avoidable_t, 0.0);
}

TEST(Fields, SoilTestsMultiplyTheLossByM) {
    Worked worked;
    worked.layers.soils.list[0].words = {25.0, 3.0, "silt loam"};
    worked.settings.offered = {{"no-till", {}, 0.5, {}, {}, {}}};
    FieldGiven weak = box("weak", 0, 300, 200, 400);
    weak.tests = made_tests("", 20);
    const Fields fields = worked.work({weak, box("untested", 0, 0, 200, 100)});
    const FieldResult& tested = fields.fields[0];
    ASSERT_TRUE(tested.structure);
    // The same soil and the same tests by the function that an estimate of one field uses.
    soiltest::Record record = weak.tests->record;
    const auto alone = structure::structure_factor(soiltest::summarise(record, "silt loam"),
                                                   {25.0, 3.0, static_cast<double>(0.04F) / 0.1317, "silt loam"},
                                                   structure::Credited::tilled, structure::CountingMode::credited, {});
    EXPECT_NEAR(tested.structure->m, alone.m(), 1e-4);
    EXPECT_GT(tested.structure->m, 1.05);  // 20 % stable where more than 50 are expected
    EXPECT_LT(tested.structure->low_80, tested.structure->m);
    const double m = tested.structure->m;
    EXPECT_NEAR(tested.on_grid.total_t, 16 * m, 1e-4);
    EXPECT_NEAR(*tested.avoidable_t, 8 * m, 1e-4);
    EXPECT_NEAR(*tested.times_T, 8 * m / 8, 1e-5);
    EXPECT_NEAR(worked.map.loss(0, 0), 8 * m, 1e-4);
    EXPECT_NEAR(tested.K, 0.04, 1e-8);  // the survey's
    EXPECT_NEAR(tested.own_log_sd, std::hypot(fields.fields[1].own_log_sd, tested.structure->log_sd), 1e-9);
    EXPECT_FALSE(fields.fields[1].structure);
}

TEST(Fields, TestsOfAnotherSoilAreSaid) {
    Worked worked;
    for (Soil& soil : worked.layers.soils.list) soil.words = {25.0, 3.0, "silt loam"};
    FieldGiven mixed = box("mixed", 100, 300, 400, 400), none_of_it = box("none of it", 0, 0, 100, 100);
    mixed.tests = made_tests("west", 20);  // a third of it
    none_of_it.tests = made_tests("east", 20);
    const Fields fields = worked.work({mixed, none_of_it});
    EXPECT_EQ(fields.fields[0].structure->soil, "west");
    EXPECT_EQ(fields.fields[0].structure->remarks.back().code, "test-other-soil");
    EXPECT_THAT(fields.fields[0].structure->remarks.back().text, testing::HasSubstr("33 % of its ground"));
    EXPECT_EQ(fields.fields[1].structure->m, 1);
    EXPECT_THAT(fields.fields[1].structure->why_not, testing::HasSubstr("'east', of which this field has none"));
    EXPECT_NEAR(fields.fields[1].on_grid.total_t, 8, 1e-5);
}

TEST(Fields, WhatARotationCreditsIsNotCountedAgainByTheTests) {
    Worked worked;
    for (Soil& soil : worked.layers.soils.list) soil.words = {25.0, 3.0, "silt loam"};
    RotationWorked tilled = made_rotation("tilled", 0.2), rested = made_rotation("rested", 0.2);
    rested.cover.calendar.credited_share = 1;
    worked.settings.rotations = {tilled, rested};
    std::vector<FieldGiven> given = {box("a", 0, 300, 100, 400), box("b", 0, 200, 100, 300), box("c", 0, 0, 100, 100)};
    given[0].rotation = 0;
    given[1].rotation = 1;
    for (FieldGiven& field : given) field.tests = made_tests("", 60);
    const Fields fields = worked.work(given);
    // More is expected of rested ground (12 points, our assumption), so the same tests earn less; a C that was given
    // counts as that of tilled ground.
    EXPECT_NEAR(*fields.fields[1].structure->W_ref - *fields.fields[0].structure->W_ref, 12, 1e-9);
    EXPECT_GT(fields.fields[1].structure->m, fields.fields[0].structure->m);
    EXPECT_EQ(fields.fields[2].structure->m, fields.fields[0].structure->m);
    EXPECT_EQ(fields.fields[2].structure->remarks.back().code, "credits-unsaid");
}

TEST(Fields, ThatPartTheMapShareItsTons) {
    EXPECT_TRUE(rc::check("any cross of two cuts", [] {
        Worked worked;
        const double x = *rc::gen::inRange(1, 400), y = *rc::gen::inRange(1, 400);
        for (float& value : worked.layers.LS.values()) value = static_cast<float>(*rc::gen::inRange(1, 100)) / 10;
        const Fields fields = worked.work(
            {box("a", 0, 0, x, y), box("b", x, 0, 400, y), box("c", 0, y, x, 400), box("d", x, y, 400, 400)});
        double parts = 0, whole = 0;
        for (const FieldResult& field : fields.fields) parts += field.on_grid.total_t;
        for (const float loss : worked.map.loss.values()) whole += static_cast<double>(loss);
        RC_ASSERT(std::abs(parts - whole) < 1e-6 * whole);
    }));
}

TEST(Fields, AreTheSameOnAnyNumberOfThreads) {
    Worked one, two;
    one.settings.threads = 1;
    two.settings.threads = 2;
    std::vector<FieldGiven> given;
    for (int i = 0; i < 12; ++i) given.push_back(box(std::to_string(i), 30 * i, 10 * i, 30 * i + 60, 10 * i + 90));
    const Fields a = one.work(given), b = two.work(given);
    ASSERT_EQ(a.fields.size(), b.fields.size());
    for (std::size_t i = 0; i < a.fields.size(); ++i) {
        EXPECT_EQ(a.fields[i].on_grid.total_t, b.fields[i].on_grid.total_t);
        EXPECT_EQ(a.fields[i].ranks[1]->chance_in_top, b.fields[i].ranks[1]->chance_in_top);
    }
}

}  // namespace
}  // namespace soilhold::watershed
