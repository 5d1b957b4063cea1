#include "watershed/slope_map.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <vector>

#include "program.h"
#include "raster/atomic_file.h"

namespace soilhold::watershed {
namespace {

TEST(MapSpread, CountsQuantilesWithoutSorting) {
    std::vector<float> values;
    for (int i = 0; i < 1000; ++i) values.push_back(static_cast<float>((i * 7919 % 1000 + 1) * 0.01));
    Tally tally;
    const double sum = tally.add(values.data(), 1000);
    const Spread spread = tally.spread(sum);  // 0.01 to 10, each once
    EXPECT_EQ(spread.cells, 1000);
    EXPECT_NEAR(spread.tenth, 1, 1.0 / 2048);
    EXPECT_NEAR(spread.middle, 5, 5.0 / 2048);
    EXPECT_NEAR(spread.nine_tenth, 9, 9.0 / 2048);
    EXPECT_NEAR(spread.mean, 5.005, 1e-5);
}

TEST(MapSpread, LeavesCellsWithoutValueOutOfQuantiles) {
    const float none = terrain::no_value;
    Tally tally;
    EXPECT_EQ(tally.add(std::vector<float>{none, -none, -1, INFINITY}.data(), 4), 0);
    EXPECT_EQ(tally.spread(0).cells, 0);
    EXPECT_EQ(tally.add(std::vector<float>{none, -0.0F}.data(), 2), 0);
    EXPECT_EQ(tally.spread(0).cells, 1);
    EXPECT_EQ(tally.spread(0).middle, 0);
}

TEST(MapSpread, JoinsWhatThreadsCounted) {
    Tally one, other;
    const std::vector<float> low{1, 1, 1}, high{3, 3};
    const double sum = one.add(low.data(), 3) + other.add(high.data(), 2);
    one.join(other);
    EXPECT_EQ(one.spread(sum).cells, 5);
    EXPECT_NEAR(one.spread(sum).middle, 1, 1.0 / 2048);
    EXPECT_NEAR(one.spread(sum).nine_tenth, 3, 3.0 / 2048);
    EXPECT_DOUBLE_EQ(one.spread(sum).mean, 9.0 / 5);
}

/// A plane of 5 m cells that falls 8 % southward, from row `first` of a larger one on.
std::string write_plane(const std::string& path, std::int64_t first, std::int64_t rows) {
    terrain::Grid<float> heights({8, rows, 5});
    for (std::int64_t row = 0; row < rows; ++row)
        for (float& height : heights.row(row)) height = 200 - 0.4F * static_cast<float>(first + row);
    raster::WriteOptions in_metres;
    in_metres.unit = "m";
    raster::write_values(path, heights,
                         {.west = 500000,
                          .north = 4400000 - 5 * static_cast<double>(first),
                          .cell_width = 5,
                          .cell_height = 5,
                          .columns = 8,
                          .rows = rows,
                          .crs = "EPSG:32617"},
                         in_metres);
    return path;
}

std::string feature(const std::string& geometry) {
    return R"({"type": "Feature", "properties": {}, "geometry": )" + geometry + "}";
}

std::string write_features(const std::string& path, const std::string& features) {
    std::ofstream(path) << R"({"type": "FeatureCollection", "crs": {"type": "name", "properties": {"name": )"
                        << R"("urn:ogc:def:crs:EPSG::32617"}}, "features": [)" << features << "]}";
    return path;
}

terrain::Grid<float> slope_factor_of(const std::string& path, const SlopeMapOptions& options,
                                     SlopeMapResult* result = nullptr) {
    terrain::Grid<float> LS;
    MapTakers takers;
    takers.placed = [&](const raster::Placement&, const terrain::Shape& shape) { LS = terrain::Grid<float>(shape); };
    takers.slope_factor = [&](std::int64_t row, const terrain::Grid<float>& strip) {
        std::copy(strip.values().begin(), strip.values().end(), &LS(row, 0));
    };
    const SlopeMapResult made = slope_map(path, options, takers);
    if (result != nullptr) *result = made;
    return LS;
}

/// Rows `first` on of one are the rows of the other.
void expect_lower_part(const terrain::Grid<float>& whole, const terrain::Grid<float>& alone, std::int64_t first) {
    for (std::int64_t row = 0; row < alone.rows(); ++row)
        for (std::int64_t column = 0; column < alone.columns(); ++column)
            EXPECT_NEAR(whole(first + row, column), alone(row, column), 1e-5) << row << ", " << column;
}

TEST(SlopeMap, AFieldSplitInTwoIsTwoFields) {
    const program::Folder folder;
    const std::string whole = write_plane(folder.path + "/whole.tif", 0, 20);
    const std::string lower = write_plane(folder.path + "/lower.tif", 8, 12);
    // Edge between row 7 and row 8, 40 m below the north edge; field two ends 10 m above the south edge of the grid.
    const std::string fields = write_features(
        folder.path + "/fields.json",
        feature(R"({"type": "Polygon", "coordinates": [[[500000, 4400000], [500040, 4400000], [500040, 4399960],
[500000, 4399960], [500000, 4400000]]]})") +
            "," +
            feature(R"({"type": "Polygon", "coordinates": [[[500000, 4399960], [500040, 4399960], [500040, 4399910],
[500000, 4399910], [500000, 4399960]]]})"));
    const terrain::Grid<float> open = slope_factor_of(whole, {});
    SlopeMapOptions options;
    options.fields = FieldGround{fields, ""};
    const terrain::Grid<float> split = slope_factor_of(whole, options);
    const terrain::Grid<float> alone = slope_factor_of(lower, {});
    for (std::int64_t row = 8; row < 18; ++row) {
        EXPECT_NEAR(split(row, 3), alone(row - 8, 3), 1e-5) << row;
        EXPECT_LT(split(row, 3), 0.9F * open(row, 3)) << row;
    }
    for (std::int64_t row = 0; row < 8; ++row) EXPECT_EQ(split(row, 3), open(row, 3)) << row;
    EXPECT_NEAR(split(18, 3), alone(0, 3), 1e-5);  // the ground below field two has none of its water
    options.routing = Routing::multiple;
    EXPECT_THROW(slope_factor_of(whole, options), std::invalid_argument);
}

TEST(SlopeMap, GroundBelowABarrierIsAGroundOfItsOwn) {
    const program::Folder folder;
    const std::string whole = write_plane(folder.path + "/whole.tif", 0, 20);
    const std::string lower = write_plane(folder.path + "/lower.tif", 8, 12);
    SlopeMapOptions options;
    options.barriers = {write_features(
        folder.path + "/terrace.json",
        feature(R"({"type": "LineString", "coordinates": [[499990, 4399957.5], [500050, 4399957.5]]})"))};
    for (const Routing routing : {Routing::d8, Routing::d_infinity, Routing::multiple}) {
        SlopeMapOptions none;
        none.routing = options.routing = routing;
        expect_lower_part(slope_factor_of(whole, options), slope_factor_of(lower, none), 8);
    }
}

TEST(SlopeMap, AChannelGoesOnPastABarrier) {
    const program::Folder folder;
    const std::string whole = write_plane(folder.path + "/whole.tif", 0, 20);
    SlopeMapOptions options;
    options.rules.channel_from_m2 = 6 * 25;
    options.barriers = {write_features(
        folder.path + "/road.json",
        feature(R"({"type": "LineString", "coordinates": [[499990, 4399957.5], [500050, 4399957.5]]})"))};
    SlopeMapResult result;
    const terrain::Grid<float> LS = slope_factor_of(whole, options, &result);
    EXPECT_FALSE(std::isnan(LS(4, 3)));
    EXPECT_TRUE(std::isnan(LS(5, 3)));
    EXPECT_TRUE(std::isnan(LS(9, 3)));  // just below the road
    EXPECT_EQ(result.channel_cells, 15 * 8);
    EXPECT_EQ(result.largest_basin_m2, 20 * 25);
}

TEST(SlopeMap, StopsAtAnyStepWhenAskedTo) {
    const program::Folder folder;
    terrain::Grid<float> heights({20, 20, 5});
    for (std::int64_t i = 0; i < 400; ++i) heights(i / 20, i % 20) = static_cast<float>(i);
    raster::WriteOptions in_metres;
    in_metres.unit = "m";
    const std::string path = folder.path + "/dem.tif";
    raster::write_values(path, heights,
                         {.west = 500000,
                          .north = 4400000,
                          .cell_width = 5,
                          .cell_height = 5,
                          .columns = 20,
                          .rows = 20,
                          .crs = "EPSG:32617"},
                         in_metres);
    std::vector<double> shares;
    slope_map(path, {}, {}, [&](double share) {
        shares.push_back(share);
        return true;
    });
    ASSERT_GE(shares.size(), 5U);
    EXPECT_EQ(shares.front(), 0);
    EXPECT_EQ(shares.back(), 1);
    for (std::size_t stop = 0; stop < shares.size(); ++stop) {
        std::size_t told = 0;
        EXPECT_THROW(slope_map(path, {}, {}, [&](double) { return told++ < stop; }), Stopped);
        EXPECT_EQ(told, stop + 1);
    }
}

}  // namespace
}  // namespace soilhold::watershed
