#include "raster/shares.h"

#include <gmock/gmock.h>

#include <cmath>
#include <numbers>
#include <random>

namespace soilhold::raster {
namespace {

/// Cells of 10 x 10 with the corner far off, as in a national grid.
Placement far_grid(std::int64_t columns, std::int64_t rows) {
    return {.west = 543210,
            .north = 4321000,
            .cell_width = 10,
            .cell_height = 10,
            .columns = columns,
            .rows = rows,
            .crs = ""};
}

Ring rectangle(double west, double south, double east, double north) {
    return {{west, south}, {east, south}, {east, north}, {west, north}, {west, south}};
}

double sum_of(const std::vector<Share>& shares) {
    double sum = 0;
    for (const Share& share : shares) sum += static_cast<double>(share.cells) * share.share;
    return sum;
}

std::vector<std::vector<double>> spread_out(const std::vector<Share>& shares, const Placement& place) {
    std::vector<std::vector<double>> cells(static_cast<std::size_t>(place.rows),
                                           std::vector<double>(static_cast<std::size_t>(place.columns), 0.0));
    for (const Share& share : shares)
        for (std::int64_t i = 0; i < share.cells; ++i)
            cells.at(static_cast<std::size_t>(share.row)).at(static_cast<std::size_t>(share.column + i)) += share.share;
    return cells;
}

/// Another road to the same number: the ring clipped to each cell's four sides in turn, its area by the shoelace.
double clipped_area(Ring ring, double west, double south, double east, double north) {
    const auto clip = [](const Ring& ring, auto inside, auto cross) {
        Ring kept;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Point a = ring[i], b = ring[(i + 1) % ring.size()];
            if (inside(a)) kept.push_back(a);
            if (inside(a) != inside(b)) kept.push_back(cross(a, b));
        }
        return kept;
    };
    const auto at_x = [](double x) {
        return [x](Point a, Point b) { return Point{x, a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)}; };
    };
    const auto at_y = [](double y) {
        return [y](Point a, Point b) { return Point{a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y), y}; };
    };
    ring = clip(
        ring, [&](Point p) { return p.x >= west; }, at_x(west));
    ring = clip(
        ring, [&](Point p) { return p.x <= east; }, at_x(east));
    ring = clip(
        ring, [&](Point p) { return p.y >= south; }, at_y(south));
    ring = clip(
        ring, [&](Point p) { return p.y <= north; }, at_y(north));
    return ring_area(ring);
}

/// A star of many points around a middle: never crosses itself, far from convex.
Ring star(std::mt19937& chance, Point middle, double least, double most, int points) {
    std::uniform_real_distribution<double> radius(least, most);
    Ring ring;
    for (int i = 0; i < points; ++i) {
        const double angle = 2 * std::numbers::pi * i / points, r = radius(chance);
        ring.push_back({middle.x + r * std::cos(angle), middle.y + r * std::sin(angle)});
    }
    return ring;
}

TEST(Shares, OfARectangleAreThoseAReaderSees) {
    const Placement place{
        .west = 0, .north = 30, .cell_width = 10, .cell_height = 10, .columns = 4, .rows = 3, .crs = ""};
    const auto cells = spread_out(area_shares({{rectangle(5, 12, 40, 30), {}}}, place), place);
    EXPECT_EQ(cells[0], (std::vector<double>{0.5, 1, 1, 1}));
    EXPECT_THAT(cells[1], testing::ElementsAre(testing::DoubleNear(0.4, 1e-15), testing::DoubleNear(0.8, 1e-15),
                                               testing::DoubleNear(0.8, 1e-15), testing::DoubleNear(0.8, 1e-15)));
    EXPECT_EQ(cells[2], (std::vector<double>{0, 0, 0, 0}));
}

TEST(Shares, OfATriangleAreThoseAReaderSees) {
    const Placement place{.west = 0, .north = 2, .cell_width = 1, .cell_height = 1, .columns = 2, .rows = 2, .crs = ""};
    const auto cells = spread_out(area_shares({{{{0, 0}, {2, 0}, {0, 2}}, {}}}, place), place);
    EXPECT_EQ(cells[0], (std::vector<double>{0.5, 0}));
    EXPECT_EQ(cells[1], (std::vector<double>{1, 0.5}));
}

TEST(Shares, SumToThePolygonsArea) {
    std::mt19937 chance(7);
    const Placement place = far_grid(60, 50);
    for (int round = 0; round < 200; ++round) {
        const Point middle{place.west + 300, place.north - 250};
        const Part part{star(chance, middle, 60, 240, 3 + round), {}};
        const double sum = sum_of(area_shares({part}, place)) * 100;
        EXPECT_NEAR(sum / ring_area(part.outer), 1, 1e-9) << round;
    }
}

TEST(Shares, EqualThoseOfClippingCellByCell) {
    std::mt19937 chance(8);
    const Placement place{
        .west = 0, .north = 12, .cell_width = 1, .cell_height = 1, .columns = 12, .rows = 12, .crs = ""};
    for (int round = 0; round < 100; ++round) {
        const Ring ring = star(chance, {4 + round % 5 * 1.0, 6}, 0.5, 8, 5 + round % 20);  // some reach off the grid
        const auto cells = spread_out(area_shares({{ring, {}}}, place), place);
        for (int row = 0; row < 12; ++row)
            for (int column = 0; column < 12; ++column)
                ASSERT_NEAR(cells[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)],
                            clipped_area(ring, column, 11 - row, column + 1, 12 - row), 1e-12)
                    << round << ": " << row << ", " << column;
    }
}

TEST(Shares, LeaveHolesOutWhicheverWayTheirPointsRun) {
    const Placement place = far_grid(20, 20);
    const double w = place.west, n = place.north;
    Ring hole = rectangle(w + 33, n - 77, w + 88, n - 41);
    const Ring outer = rectangle(w + 11, n - 155, w + 144, n - 13);
    const double expected = (133.0 * 142 - 55 * 36) / 100;
    EXPECT_NEAR(sum_of(area_shares({{outer, {hole}}}, place)), expected, 1e-9 * expected);
    std::reverse(hole.begin(), hole.end());
    EXPECT_NEAR(sum_of(area_shares({{outer, {hole}}}, place)), expected, 1e-9 * expected);
    const auto cells = spread_out(area_shares({{outer, {hole}}}, place), place);
    EXPECT_EQ(cells[5][5], 0);
    EXPECT_EQ(cells[10][5], 1);
}

TEST(Shares, AddTheParts) {
    const Placement place = far_grid(20, 20);
    const double w = place.west, n = place.north;
    const Part one{rectangle(w + 1, n - 9, w + 4, n - 1), {}}, other{rectangle(w + 6, n - 9, w + 9, n - 1), {}};
    const auto shares = area_shares({one, other}, place);
    ASSERT_EQ(shares.size(), 1U);
    EXPECT_NEAR(shares[0].share, 0.48, 1e-9);
}

TEST(Shares, OfAPolygonWithinOneCellAreItsArea) {
    const Placement place = far_grid(3, 3);
    const Ring ring{
        {place.west + 12, place.north - 13}, {place.west + 15, place.north - 12}, {place.west + 13, place.north - 17}};
    const auto shares = area_shares({{ring, {}}}, place);
    ASSERT_EQ(shares.size(), 1U);
    EXPECT_EQ(shares[0].row, 1);
    EXPECT_EQ(shares[0].column, 1);
    EXPECT_NEAR(shares[0].share * 100 / 6.5, 1, 1e-9);  // (3*4 + 1*1)/2 by the cross product
}

TEST(Shares, LeaveOutWhatLiesBeyondTheGrid) {
    const Placement place{
        .west = 0, .north = 10, .cell_width = 1, .cell_height = 1, .columns = 10, .rows = 10, .crs = ""};
    EXPECT_NEAR(sum_of(area_shares({{rectangle(-5, -5, 3.5, 2.5), {}}}, place)), 3.5 * 2.5, 1e-12);
    EXPECT_NEAR(sum_of(area_shares({{rectangle(7.5, 8, 30, 30), {}}}, place)), 2.5 * 2, 1e-12);
    EXPECT_NEAR(sum_of(area_shares({{rectangle(-5, -5, 30, 30), {}}}, place)), 100, 1e-12);
    EXPECT_TRUE(area_shares({{rectangle(11, 0, 12, 5), {}}}, place).empty());
    EXPECT_TRUE(area_shares({{rectangle(-3, 0, -1, 5), {}}}, place).empty());
    // A diamond around the corner: the half of it that lies on the grid is a triangle of 2 x 2 / 2.
    EXPECT_NEAR(sum_of(area_shares({{{{-2, 10}, {0, 8}, {2, 10}, {0, 12}}, {}}}, place)), 2, 1e-12);
}

TEST(Shares, OfEdgesAlongCellBordersAreWhole) {
    const Placement place{.west = 0, .north = 4, .cell_width = 1, .cell_height = 1, .columns = 4, .rows = 4, .crs = ""};
    const auto shares = area_shares({{rectangle(1, 1, 3, 3), {}}}, place);
    for (const Share& share : shares) EXPECT_EQ(share.share, 1) << share.row << ", " << share.column;
    EXPECT_EQ(sum_of(shares), 4);
}

TEST(Shares, OfALargePolygonComeInRuns) {
    const Placement place = far_grid(2000, 2000);
    const double w = place.west, n = place.north;
    const auto shares = area_shares({{rectangle(w + 5, n - 19995, w + 19995, n - 5), {}}}, place);
    EXPECT_LT(shares.size(), 3U * 2000 + 1);
    EXPECT_NEAR(sum_of(shares), 1999.0 * 1999, 1e-3);
}

}  // namespace
}  // namespace soilhold::raster
