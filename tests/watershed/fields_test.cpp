/// Fields of a watershed: tons worked by hand, gaps that stay gaps, practices on offer, delivery, and places.
#include "watershed/fields.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

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
