/// soilhold terrain as a user meets it: made ground in, rasters out.
#include <dirent.h>
#include <gmock/gmock.h>
#include <sys/resource.h>

#include <cmath>
#include <csignal>
#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>
#include <random>
#include <set>

#include "factors/slope_length.h"
#include "factors/slope_steepness.h"
#include "program.h"
#include "raster/atomic_file.h"
#include "raster/layer.h"

namespace soilhold::program {
namespace {

using raster::Layer;
using raster::Placement;
using testing::HasSubstr;
using testing::Not;

Placement place_of(std::int64_t side, double cell, const std::string& crs = "EPSG:32617") {
    return {.west = 500000,
            .north = 4400000,
            .cell_width = cell,
            .cell_height = cell,
            .columns = side,
            .rows = side,
            .crs = crs};
}

/// Writes heights z(x, y), x eastward and y southward in cells, as a raster that says its unit.
std::string make_ground(const std::string& path, const Placement& place, const std::function<double(double, double)>& z,
                        const std::string& unit = "m") {
    terrain::Grid<float> heights({place.columns, place.rows, place.cell_width});
    for (std::int64_t row = 0; row < place.rows; ++row)
        for (std::int64_t column = 0; column < place.columns; ++column)
            heights(row, column) = static_cast<float>(z(static_cast<double>(column), static_cast<double>(row)));
    raster::WriteOptions options;
    options.unit = unit;
    raster::write_values(path, heights, place, options);
    return path;
}

/// Falls to the south by 8 % of the cell's width a cell.
std::function<double(double, double)> south_plane(double cell) {
    return [cell](double, double y) { return 500 - 0.08 * cell * y; };
}

double waves(double x, double y) {
    return 300 + 9 * std::sin(x / 17) * std::cos(y / 23) + 0.4 * std::sin(x * 1.7 + y * 2.3) + 0.02 * (x + y);
}

std::set<std::string> entries(const std::string& path) {
    std::set<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(path)) names.insert(entry.path().filename());
    return names;
}

/// LS of Handbook 703 of a hillslope, by the formulas of factors/ (which have tests against the handbook).
double hillslope(double length_m, double gradient) {
    using factors::RillRatio;
    return factors::slope_length_factor(length_m, factors::length_exponent_703(gradient, RillRatio::moderate)) *
           factors::usual_steepness_factor_703(gradient, RillRatio::moderate);
}

TEST(Terrain, GivesAPlaneTheFactorOfItsHillslope) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5), south_plane(5));
    const Outcome outcome =
        run({"terrain", dem, "--out", folder.path + "/x", "--write", "ls,length,slope", "--longest", "300", "m"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    EXPECT_EQ(outcome.err, "");
    EXPECT_EQ(entries(folder.path), (std::set<std::string>{"dem.tif", "x-ls.tif", "x-length.tif", "x-slope.tif"}));
    const Layer factor(folder.path + "/x-ls.tif");
    const auto ls = factor.values();
    const auto length = Layer(folder.path + "/x-length.tif").values();
    const auto slope = Layer(folder.path + "/x-slope.tif").values();
    double mean = 0;
    for (std::int64_t row = 0; row < 20; ++row) mean += ls(row, 20) / 20;
    // Down a straight slope the mean of the cells' factors is the factor of the whole: 20 cells of 5 m.
    EXPECT_NEAR(mean, hillslope(100, 0.08), 1e-3 * mean);
    EXPECT_NEAR(length(19, 20), 100, 1e-3);
    EXPECT_NEAR(slope(19, 20), 8, 1e-3);
    EXPECT_EQ(factor.band(1).description, "slope factor LS");
    EXPECT_EQ(factor.band(1).nodata.has_value(), true);
    EXPECT_EQ(Layer(folder.path + "/x-length.tif").band(1).unit, "m");
}

TEST(Terrain, MeasuresSlopesThatFaceACornerAlongTheWayOfTheWater) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5),
                                        [](double x, double y) { return 500 - 0.08 * 5 * (x + y) / std::sqrt(2.0); });
    ASSERT_EQ(
        run({"terrain", dem, "--out", folder.path + "/x", "--write", "ls,length", "--longest", "300 m"}).exit_code, 0);
    const auto ls = Layer(folder.path + "/x-ls.tif").values();
    EXPECT_NEAR(Layer(folder.path + "/x-length.tif").values()(19, 19), 20 * 5 * std::sqrt(2.0), 1e-3);
    double mean = 0;
    for (std::int64_t i = 0; i < 20; ++i) mean += ls(i, i) / 20;
    EXPECT_NEAR(mean, hillslope(100 * std::sqrt(2.0), 0.08), 1e-3 * mean);
}

TEST(Terrain, HoldsSlopesToTheLongest) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(81, 5), south_plane(5));
    ASSERT_EQ(run({"terrain", dem, "--out", folder.path + "/x", "--write", "length"}).exit_code, 0);
    const auto length = Layer(folder.path + "/x-length.tif").values();
    EXPECT_NEAR(length(10, 40), 55, 1e-3);
    EXPECT_NEAR(length(60, 40), 121.92, 1e-3);  // 400 ft
}

TEST(Terrain, EndsSlopesWhereAChannelBegins) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5), south_plane(5));
    // Each column drains by itself: the 20th cell down has 20 x 25 m2 = 500 m2.
    ASSERT_EQ(run({"terrain", dem, "--out", folder.path + "/x", "--channel", "0.05 ha"}).exit_code, 0);
    const auto ls = Layer(folder.path + "/x-ls.tif").values();
    EXPECT_TRUE(std::isfinite(ls(18, 20)));
    EXPECT_TRUE(std::isnan(ls(19, 20)));
}

TEST(Terrain, StopsSlopesAtLinesAndAtTheEdgesOfAreas) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5), south_plane(5));
    // A field from 50 m to 150 m below the north edge, in map coordinates.
    std::ofstream(folder.path + "/field.geojson") << R"({"type": "FeatureCollection",
"crs": {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32617"}},
"features": [{"type": "Feature", "properties": {}, "geometry": {"type": "Polygon", "coordinates":
[[[500052, 4399948], [500152, 4399948], [500152, 4399848], [500052, 4399848], [500052, 4399948]]]}}]})";
    const Outcome outcome = run({"terrain", dem, "--out", folder.path + "/x", "--write", "length", "--barriers",
                                 folder.path + "/field.geojson"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    EXPECT_THAT(outcome.out, HasSubstr("barriers"));
    const auto length = Layer(folder.path + "/x-length.tif").values();
    EXPECT_NEAR(length(9, 20), 50, 1e-3);   // above the field
    EXPECT_NEAR(length(10, 20), 5, 1e-3);   // its edge
    EXPECT_NEAR(length(20, 20), 55, 1e-3);  // inside, from its edge on
    EXPECT_NEAR(length(30, 20), 5, 1e-3);   // its lower edge
    EXPECT_NEAR(length(20, 5), 105, 1e-3);  // beside it
}

TEST(Terrain, RefusesDegreesWithTheProjectThatFixesThem) {
    Folder folder;
    Placement place = place_of(30, 0.0001, "EPSG:4326");
    place.west = -81.9;
    place.north = 40.3;
    const std::string dem = make_ground(folder.path + "/dem.tif", place, south_plane(10));
    const Outcome refused = run({"terrain", dem, "--out", folder.path + "/x"});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_THAT(refused.err, HasSubstr("--project EPSG:32617"));  // 84 W to 78 W
    EXPECT_THAT(refused.err, HasSubstr("[degrees]"));
    EXPECT_EQ(refused.out, "");
    EXPECT_EQ(entries(folder.path), std::set<std::string>{"dem.tif"});
    for (const char* project : {"auto", "EPSG:32617"}) {
        const Outcome taken = run({"terrain", dem, "--out", folder.path + "/x", "--project", project});
        EXPECT_EQ(taken.exit_code, 0) << taken.err;
        EXPECT_THAT(taken.out, HasSubstr("UTM zone 17N"));
        EXPECT_THAT(taken.out, HasSubstr("[projected]"));
    }
}

TEST(Terrain, RefusesAFileWithoutAMapUntilTheUnitIsGiven) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5, ""), south_plane(5));
    const Outcome refused = run({"terrain", dem, "--out", folder.path + "/x"});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_THAT(refused.err, HasSubstr("[no-crs]"));
    EXPECT_THAT(refused.err, HasSubstr("--cell-unit m or --cell-unit ft"));
    const Outcome taken =
        run({"terrain", dem, "--out", folder.path + "/x", "--cell-unit", "ft", "--height-unit", "ft"});
    EXPECT_EQ(taken.exit_code, 0) << taken.err;
    EXPECT_THAT(taken.out, HasSubstr("1.52 m (5.00 ft)"));
}

TEST(Terrain, ShowsBothReadingsOfHeightsWithoutUnit) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5), south_plane(5), "");
    const Outcome refused = run({"terrain", dem, "--out", folder.path + "/x"});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_THAT(refused.err, HasSubstr("Read as metres, the ground in its middle has heights of 484 to 500 m and a "
                                       "mean slope of 8 %"));
    EXPECT_THAT(refused.err, HasSubstr("read as feet, heights of 148 to 152 m and a mean slope of 2.4 %"));
    const Outcome taken =
        run({"terrain", dem, "--out", folder.path + "/x", "--height-unit", "ft", "--write", "slope", "--json"});
    ASSERT_EQ(taken.exit_code, 0) << taken.err;
    EXPECT_NEAR(nlohmann::json::parse(taken.out)["gradient"]["p50"].get<double>(), 0.08 * 0.3048, 1e-4);
}

TEST(Terrain, RefusesAFileCutShort) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(300, 5), waves);
    std::filesystem::resize_file(dem, std::filesystem::file_size(dem) / 2);
    const Outcome refused = run({"terrain", dem, "--out", folder.path + "/x"});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_THAT(refused.err, HasSubstr("[unreadable-raster]"));
    EXPECT_EQ(entries(folder.path), std::set<std::string>{"dem.tif"});
}

TEST(Terrain, CutsABankThroughInsteadOfFillingTheGroundAboveIt) {
    // A valley that falls to the south by 0.1 m a cell, and across it a bank 2 m high and two cells wide.
    const auto valley = [](double x, double y) {
        const bool bank = y == 20 || y == 21;
        return 100 + 0.5 * std::abs(x - 20) - 0.1 * y + (bank ? std::max(0.0, 2 - 0.1 * std::abs(x - 20)) : 0.0);
    };
    const Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5), valley);
    const auto said = [&](const std::vector<std::string>& options) {
        std::vector<std::string> all{"terrain", dem, "--out", folder.path + "/x", "--json"};
        all.insert(all.end(), options.begin(), options.end());
        const Outcome outcome = run(all);
        EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
        return nlohmann::json::parse(outcome.out);
    };
    const auto filled = said({});
    EXPECT_EQ(filled["pits"], "fill");
    EXPECT_FALSE(filled.contains("cut_open"));
    EXPECT_GT(filled["filled"]["cells_raised"], 10);
    const auto cut = said({"--pits", "breach", "--write", "filled"});
    EXPECT_EQ(cut["cut_open"]["pits"], 1);
    EXPECT_EQ(cut["cut_open"]["pits_left"], 0);
    EXPECT_EQ(cut["cut_open"]["cells_lowered"], 2);
    EXPECT_NEAR(cut["cut_open"]["deepest_m"], 1.9, 1e-4);  // 2 m of bank on ground that is 0.1 m lower already
    EXPECT_EQ(cut["cut_open"]["longest_m"], 15);
    EXPECT_EQ(cut["filled"]["cells_raised"], 0);
    EXPECT_EQ(cut["gradient"], filled["gradient"]);  // of the ground as surveyed
    EXPECT_NEAR(Layer(folder.path + "/x-filled.tif").values()(21, 20), 98.1, 1e-4);
    const auto shallow = said({"--pits", "breach", "--deepest-cut", "1.5", "m"});
    EXPECT_EQ(shallow["cut_open"]["pits"], 0);
    EXPECT_EQ(shallow["filled"], filled["filled"]);
}

TEST(Terrain, RefusesArgumentsItCanNotRead) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(9, 5), south_plane(5));
    const std::vector<std::pair<std::vector<std::string>, std::string>> rows{
        {{"--longest", "200"}, "write 200 ft"},
        {{"--longest", "2000", "ft"}, "at most 304.8 m"},
        {{"--channel", "0 ha"}, "more than nothing"},
        {{"--write", "slope,LS"}, "--write LS: there are"},
        {{"--write", "loss"}, "a loss needs --rain"},
        {{"--rain", "175 US", "--cover", "0.2"}, "--soil is missing"},
        {{"--rain", "175", "--soil", "0.3 US", "--cover", "0.2"}, "175 US (2980 SI) or 175 SI (10.3 US)"},
        {{"--rain", "175 US", "--soil", "3 US", "--cover", "0.2"}, "K lies between"},
        {{"--rain", "175 US", "--soil", "0.3 US", "--cover", "20"}, "between 0 and 1.2"},
        {{"--cell", "5 ha"}, "--cell 5 ha"},
        {{"--nodata", "none"}, "no number"},
        {{"--longest-cut", "50 m"}, "add --pits breach"},
        {{"--pits", "breach", "--deepest-cut", "101", "m"}, "at most 100 m"},
        {{"--pits", "breach", "--longest-cut", "2001 m"}, "at most 2000 m"},
        {{"--height-unit", "cubits"}, "no such unit"},
        {{"--memory", "2"}, "Give \"2 GB\" or \"2 MB\""},
        {{"--memory", "2 TB"}, "There are MB, GB, MiB and GiB"},
        {{"--memory", "-1 GB"}, "looks like this"},
        {{"--routing", "d4"}, "d4 not in"},
        {{"--out", folder.path + "/no/x"}, "can't be written"},
    };
    for (const auto& [arguments, said] : rows) {
        std::vector<std::string> all{"terrain", dem, "--out", folder.path + "/x"};
        if (arguments.front() == "--out") all.resize(2);
        all.insert(all.end(), arguments.begin(), arguments.end());
        const Outcome refused = run(all);
        EXPECT_EQ(refused.exit_code, arguments.front() == "--out" ? 3 : 2);
        EXPECT_THAT(refused.err, HasSubstr(said));
        EXPECT_EQ(refused.out, "");
    }
    std::filesystem::copy(dem, folder.path + "/y-ls.tif");
    const Outcome own = run({"terrain", folder.path + "/y-ls.tif", "--out", folder.path + "/y"});
    EXPECT_EQ(own.exit_code, 2);
    EXPECT_THAT(own.err, HasSubstr("is the raster of heights itself"));
    EXPECT_EQ(slurp(dem), slurp(folder.path + "/y-ls.tif"));
}

TEST(Terrain, WritesTheSameBytesOnAnyNumberOfThreadsAndInAnyYear) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(600, 5), waves);
    for (const char* routing : {"d8", "multiple", "d-infinity"}) {
        std::vector<std::string> first;
        for (const char* threads : {"1", "2"}) {
            const std::string stem = folder.path + "/x";
            setenv("TZ", threads[0] == '1' ? "UTC" : "America/Chicago", 1);
            const Outcome outcome = run({"terrain", dem, "--out", stem, "--threads", threads, "--routing", routing,
                                         "--write", "ls,slope,area,filled,directions,length"});
            unsetenv("TZ");
            ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
            std::vector<std::string> bytes{outcome.out};
            for (const char* output : {"ls", "slope", "area", "filled", "directions", "length"})
                bytes.push_back(slurp(stem + "-" + output + ".tif"));
            if (first.empty()) first = bytes;
            EXPECT_TRUE(first == bytes) << routing;
        }
    }
}

TEST(Terrain, WorksAMapLargerThanItsMemoryFromTheDiskAndSaysSo) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(2400, 5), waves);
    const Outcome small = run({"terrain", dem, "--out", folder.path + "/x", "--memory", "250", "MB", "--json"});
    ASSERT_EQ(small.exit_code, 0) << small.err;
    EXPECT_THAT(small.out, HasSubstr("worked-from-disk"));
    EXPECT_EQ(entries(folder.path), (std::set<std::string>{"dem.tif", "x-ls.tif"}));
    const std::string bytes = slurp(folder.path + "/x-ls.tif");
    const Outcome large = run({"terrain", dem, "--out", folder.path + "/x", "--memory", "4 GB", "--json"});
    EXPECT_THAT(large.out, Not(HasSubstr("worked-from-disk")));
    EXPECT_TRUE(slurp(folder.path + "/x-ls.tif") == bytes);
    const Outcome none = run({"terrain", dem, "--out", folder.path + "/x", "--memory", "100 MB"});
    EXPECT_EQ(none.exit_code, 2);
    EXPECT_THAT(none.err, HasSubstr("[too-little-memory]"));
}

TEST(Terrain, LeavesNothingOnAFullDisk) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(600, 5), waves);
    ASSERT_GT(std::filesystem::file_size(dem), 300'000U);
    // No file may grow past a size: a full disk without a disk. Program and limit are inherited by what is run.
    rlimit old{};
    getrlimit(RLIMIT_FSIZE, &old);
    const rlimit small{100'000, old.rlim_max};
    auto* const handler = std::signal(SIGXFSZ, SIG_IGN);
    if (setrlimit(RLIMIT_FSIZE, &small) != 0) GTEST_SKIP() << "this machine lets no limit be set";
    const Outcome outcome = run({"terrain", dem, "--out", folder.path + "/x", "--write", "ls,filled"});
    setrlimit(RLIMIT_FSIZE, &old);
    std::signal(SIGXFSZ, handler);
    EXPECT_EQ(outcome.exit_code, 3);
    EXPECT_THAT(outcome.err, HasSubstr("could not be written whole"));
    EXPECT_EQ(outcome.out, "");
    EXPECT_EQ(entries(folder.path), std::set<std::string>{"dem.tif"});
}

TEST(Terrain, KilledAtAnyMomentLeavesTheOldFilesOrTheNew) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(600, 5), waves);
    if (!raster::written_unnamed(folder.path + "/x"))
        GTEST_SKIP() << "the file system of /tmp has no files without names";
    const std::vector<std::string> before{"terrain", dem, "--out", folder.path + "/x", "--write", "ls,filled"};
    std::vector<std::string> after = before;
    after.insert(after.end(), {"--longest", "50 m"});
    const auto bytes = [&] {
        return std::pair{slurp(folder.path + "/x-ls.tif"), slurp(folder.path + "/x-filled.tif")};
    };
    const auto start = std::chrono::steady_clock::now();
    ASSERT_EQ(run(after).exit_code, 0);
    const double took = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    const auto new_bytes = bytes();
    ASSERT_EQ(run(before).exit_code, 0);
    const auto old_bytes = bytes();
    ASSERT_NE(old_bytes.first, new_bytes.first);
    const std::set<std::string> names = entries(folder.path);
    std::mt19937 draw(7);
    int killed = 0;
    for (int i = 0; i < 20; ++i) {
        const double moment = std::uniform_real_distribution<double>(0, 1.1 * took)(draw);
        const int signal = i % 3 == 0 ? SIGINT : i % 3 == 1 ? SIGTERM : SIGKILL;
        killed += run_and_send(after, signal, moment) ? 1 : 0;
        const auto now = bytes();
        EXPECT_TRUE(now.first == old_bytes.first || now.first == new_bytes.first) << "at " << moment << " s";
        EXPECT_TRUE(now.second == old_bytes.second || now.second == new_bytes.second) << "at " << moment << " s";
        EXPECT_EQ(entries(folder.path), names);
    }
    EXPECT_GT(killed, 0);
}

TEST(Terrain, TakesTheSlopeThatGdaldemTakes) {
    if (std::system("command -v gdaldem >/dev/null") != 0) GTEST_SKIP() << "gdaldem is not installed";
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(120, 5), waves);
    ASSERT_EQ(run({"terrain", dem, "--out", folder.path + "/x", "--write", "slope"}).exit_code, 0);
    const std::string theirs = folder.path + "/theirs.tif";
    ASSERT_EQ(std::system(("gdaldem slope -q -p " + dem + " " + theirs).c_str()), 0);
    const auto ours = Layer(folder.path + "/x-slope.tif").values(), other = Layer(theirs).values();
    double steepest = 0;
    for (std::int64_t row = 1; row < 119; ++row)
        for (std::int64_t column = 1; column < 119; ++column) {
            ASSERT_NEAR(ours(row, column), other(row, column), 1e-3) << row << ", " << column;
            steepest = std::max<double>(steepest, ours(row, column));
        }
    EXPECT_GT(steepest, 10);
}

TEST(Terrain, SaysFiguresThatAddUp) {
    Folder folder;
    // A plane with one pit of a single cell, 2 m deep below its lowest neighbour's height.
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(21, 5), [](double x, double y) {
        return x == 10 && y == 10 ? 500 - 0.08 * 5 * 11 - 2 : 500 - 0.08 * 5 * y;
    });
    const Outcome outcome = run({"terrain", dem, "--out", folder.path + "/x", "--json"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    const auto json = nlohmann::json::parse(outcome.out);
    EXPECT_EQ(json["filled"]["pits"], 1);
    EXPECT_EQ(json["filled"]["cells_raised"], 1);
    EXPECT_NEAR(json["filled"]["deepest_m"].get<double>(), 2, 1e-4);
    EXPECT_NEAR(json["filled"]["volume_m3"].get<double>(), 2 * 25, 1e-2);
    EXPECT_EQ(json["cells_with_height"], 441);
    EXPECT_EQ(json["slope_factor"]["cells"], 441);
    EXPECT_EQ(json["written"][0], folder.path + "/x-ls.tif");
    EXPECT_THAT(run({"terrain", dem, "--out", folder.path + "/x"}).out,
                HasSubstr("pits filled     1; the deepest 2.00 m; 1 cells raised, 50.0 m3"));
    const std::string bytes = slurp(folder.path + "/x-ls.tif");
    EXPECT_THAT(bytes, HasSubstr("SOILHOLD_METHOD"));
    EXPECT_THAT(bytes, HasSubstr("--longest 121.92 m --channel 2 ha --rills moderate --routing d8"));
}

/// A raster of one factor: `one` plus `step` for each row.
std::string make_factor(const std::string& path, const Placement& place, double one, double step) {
    return make_ground(
        path, place, [=](double, double y) { return one + step * y; }, "");
}

TEST(Terrain, WritesTheLossOfRastersAndFigures) {
    Folder folder;
    const Placement place = place_of(300, 5);
    const std::string dem = make_ground(folder.path + "/dem.tif", place, waves);
    const std::string rain = make_factor(folder.path + "/r.tif", place, 150, 0.01);
    const std::string cover = make_factor(folder.path + "/c.tif", place, 0.1, 0.001);
    const Outcome outcome = run({"terrain", dem, "--out", folder.path + "/x", "--rain", rain, "US", "--soil", "0.04 SI",
                                 "--cover", cover, "--practice", "0.5", "--json"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    const auto LS = Layer(folder.path + "/x-ls.tif").values(), loss = Layer(folder.path + "/x-loss.tif").values();
    double sum = 0, cells = 0;
    for (std::int64_t row = 0; row < 300; ++row)
        for (std::int64_t column = 0; column < 300; column += 7) {
            const auto y = static_cast<double>(row);
            // 1 US of R is 17.02 MJ mm/(ha h yr).
            const double expected = (150 + 0.01 * y) * 17.02 * 0.04 * LS(row, column) * (0.1 + 0.001 * y) * 0.5;
            ASSERT_EQ(std::isnan(expected), std::isnan(loss(row, column)));
            if (!std::isnan(expected)) {
                ASSERT_NEAR(loss(row, column), expected, 2e-4 * expected);
            }
        }
    for (const float value : loss.values())
        if (!std::isnan(value)) sum += value, cells += 1;
    const auto json = nlohmann::json::parse(outcome.out);
    EXPECT_EQ(json["loss"]["cells"].get<double>(), cells);
    EXPECT_NEAR(json["loss"]["mean"].get<double>(), sum / cells, 1e-6 * sum / cells);
    EXPECT_EQ(Layer(folder.path + "/x-loss.tif").band(1).unit, "t/(ha*yr)");
    EXPECT_THAT(slurp(folder.path + "/x-loss.tif"), HasSubstr("K 0.04 SI; C " + cover + "; P 0.5"));
    EXPECT_THAT(outcome.out, HasSubstr("It is a planning aid to talk over."));
}

TEST(Terrain, WritesTheLossAloneAndSaysThatPracticeIsOne) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5), south_plane(5));
    const Outcome outcome = run({"terrain", dem, "--out", folder.path + "/x", "--rain", "175 US", "--soil", "0.3", "US",
                                 "--cover", "0.2", "--write", "loss"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    EXPECT_EQ(entries(folder.path), (std::set<std::string>{"dem.tif", "x-loss.tif"}));
    EXPECT_THAT(outcome.out, HasSubstr("[no-practice]"));
    EXPECT_THAT(outcome.out, HasSubstr("the yearly loss is"));
    EXPECT_THAT(outcome.out, HasSubstr("It is soil moved on the slope, not soil in the creek."));
}

TEST(Terrain, ShowsBothReadingsOfARasterWithoutUnit) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5), south_plane(5));
    const std::string rain = make_factor(folder.path + "/r.tif", place_of(41, 5), 175, 0);
    const Outcome refused =
        run({"terrain", dem, "--out", folder.path + "/x", "--rain", rain, "--soil", "0.3 US", "--cover", "0.2"});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_THAT(refused.err, HasSubstr("In its middle they are about 175 US (2980 SI) or 175 SI (10.3 US)"));
    EXPECT_EQ(entries(folder.path), (std::set<std::string>{"dem.tif", "r.tif"}));
}

TEST(Terrain, RefusesARasterThatCanNotBeTheFactor) {
    Folder folder;
    const std::string dem = make_ground(folder.path + "/dem.tif", place_of(41, 5), south_plane(5));
    const std::string cover = make_factor(folder.path + "/c.tif", place_of(41, 5), 20, 0);  // percent
    const Outcome refused =
        run({"terrain", dem, "--out", folder.path + "/x", "--rain", "175 US", "--soil", "0.3 US", "--cover", cover});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_THAT(refused.err, HasSubstr("[factor-range]"));
    EXPECT_EQ(entries(folder.path), (std::set<std::string>{"c.tif", "dem.tif"}));
}

TEST(Terrain, SaysWhenTheProgramForMapsIsMissing) {
    Folder folder;
    std::filesystem::copy(SOILHOLD_PROGRAM, folder.path + "/soilhold");
    const std::string err = folder.path + "/err";
    const int status = std::system((folder.path + "/soilhold terrain x.tif 2> " + err).c_str());
    EXPECT_EQ(WEXITSTATUS(status), 3);
    EXPECT_THAT(slurp(err), HasSubstr(folder.path + "/soilhold-maps can't be started"));
    EXPECT_THAT(run({"--help"}).out, HasSubstr("terrain "));
}

}  // namespace
}  // namespace soilhold::program
