/// What the map commands write against other people's tools: numpy, and GRASS where it is installed
/// (ground_by_numpy.py). Without them these tests skip themselves, saying so.
#include <gmock/gmock.h>

#include <cmath>
#include <filesystem>
#include <functional>
#include <random>

#include "program.h"
#include "raster/atomic_file.h"

namespace soilhold::program {
namespace {

constexpr std::int64_t side = 300;

void make_ground(const std::string& path, const std::function<double(double, double)>& height) {
    raster::Placement place;
    place.west = 500000, place.north = 4400000, place.cell_width = place.cell_height = 5;
    place.columns = place.rows = side;
    place.crs = "EPSG:32617";
    terrain::Grid<float> heights({side, side, 5});
    for (std::int64_t r = 0; r < side; ++r)
        for (std::int64_t c = 0; c < side; ++c)
            heights(r, c) = static_cast<float>(height(static_cast<double>(c), static_cast<double>(r)));
    raster::WriteOptions options;
    options.unit = "m";
    raster::write_values(path, heights, place, options);
}

/// "" where no Python has numpy or gdal_translate is missing: a python3 put before the system's often lacks numpy.
std::string python() {
    if (std::system("command -v gdal_translate > /dev/null && command -v gdalinfo > /dev/null") != 0) return "";
    for (const std::string name : {"python3", "/usr/bin/python3"})
        if (std::system((name + " -c 'import numpy' > /dev/null 2>&1").c_str()) == 0) return name;
    return "";
}

/// Whether the script found both roads the same; what it said goes to `words`.
bool agrees(const Folder& folder, const std::string& mode, const std::vector<std::string>& names, std::string& words) {
    std::string command = python() + " '" SOILHOLD_ROOT "/tests/program/ground_by_numpy.py' " + mode;
    for (const std::string& name : names) command += " '" + folder.path + "/" + name + "'";
    const int code = std::system((command + " > " + folder.path + "/said 2>&1").c_str());
    words = slurp(folder.path + "/said");
    return code == 0;
}

TEST(SecondRoad, PlainPythonFillsAndGathersTheSameGround) {
    if (python().empty()) GTEST_SKIP() << "python3 with numpy, or gdal-bin, is not here: nothing was worked again";
    const Folder folder;
    std::mt19937 engine(3);
    std::uniform_real_distribution<double> rough(0, 2);
    // Tenths of a metre make ties; a lake's floor lies below its banks; a corner has no heights.
    make_ground(folder.path + "/h.tif", [&](double x, double y) {
        const double height = std::round(10 * (500 - 0.2 * y + rough(engine))) / 10;
        if (x > 230 && y < 40 + 0.3 * x) return std::nan("");
        return x > 30 && x < 80 && y > 140 && y < 160 ? 440.0 : height;
    });
    const Outcome outcome = run({"terrain", folder.path + "/h.tif", "--out", folder.path + "/h", "--write",
                                 "filled,directions,area", "--quiet"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    std::string words;
    EXPECT_TRUE(agrees(folder, "ground", {"h.tif", "h-filled.tif", "h-directions.tif", "h-area.tif"}, words)) << words;
    EXPECT_FALSE(agrees(folder, "ground", {"h.tif", "h-filled.tif", "h-directions.tif", "h-filled.tif"}, words));
    EXPECT_THAT(words, testing::HasSubstr("drained ground parts"));
}

TEST(SecondRoad, GrassGathersTheSameGround) {
    if (python().empty()) GTEST_SKIP() << "python3 with numpy, or gdal-bin, is not here: nothing was worked again";
    if (std::system("command -v grass > /dev/null") != 0) GTEST_SKIP() << "GRASS is not installed";
    const Folder folder;
    make_ground(folder.path + "/g.tif", [](double x, double y) {
        return 500 - 0.35 * y - 0.13 * x + 9 * std::sin(x / 37) * std::cos(y / 41) +
               0.9 * std::sin(x * 0.17 + y * 0.083);
    });
    ASSERT_EQ(run({"terrain", folder.path + "/g.tif", "--out", folder.path + "/g", "--write", "filled,directions,area",
                   "--quiet"})
                  .exit_code,
              0);
    std::ofstream(folder.path + "/steps.sh")
        << "set -e\ncd " << folder.path << "\n"
        << "r.in.gdal --quiet -o input=g-filled.tif output=heights\ng.region raster=heights\n"
        << "r.watershed --quiet -s elevation=heights accumulation=cells drainage=ways threshold=1000\n"
        << "r.out.gdal --quiet -f -c input=cells output=cells.tif type=Float64\n"
        << "r.out.gdal --quiet -f -c input=ways output=ways.tif type=Int16\n";
    ASSERT_EQ(std::system(("HOME=" + folder.path + " grass --tmp-location EPSG:32617 --exec sh " + folder.path +
                           "/steps.sh > " + folder.path + "/said 2>&1")
                              .c_str()),
              0)
        << slurp(folder.path + "/said");
    std::string words;
    EXPECT_TRUE(
        agrees(folder, "grass", {"g-filled.tif", "g-directions.tif", "g-area.tif", "ways.tif", "cells.tif"}, words))
        << words;
}

TEST(SecondRoad, PointsInFieldsCountTheTonsOfTheExactShares) {
    if (python().empty()) GTEST_SKIP() << "python3 with numpy, or gdal-bin, is not here: nothing was worked again";
    const Folder folder;
    make_ground(folder.path + "/h.tif",
                [](double x, double y) { return 300 - 0.3 * y + 8 * std::sin(x / 13) * std::cos(y / 19); });
    std::string features;
    for (int i = 0; i < 4; ++i) {  // bent outlines, of 9 to 30 cells across
        std::string ring, first;
        for (int k = 0; k <= 40; ++k) {
            const double turn = 2 * 3.14159265358979 * (k % 40) / 40,
                         radius = (25 + 18 * i) * (1 + 0.3 * std::cos(5 * turn));
            ring += (k > 0 ? ",[" : "[") + std::to_string(500300.5 + 290 * i + radius * std::cos(turn)) + "," +
                    std::to_string(4399301.3 - 37 * i + radius * std::sin(turn)) + "]";
        }
        features += (i > 0 ? "," : "") + std::string(R"({"type":"Feature","properties":{"name":"f)") +
                    std::to_string(i) + R"("},"geometry":{"type":"Polygon","coordinates":[[)" + ring + "]]}}";
    }
    std::ofstream(folder.path + "/f.json")
        << R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::32617"}},)"
        << R"("features":[)" << features << "]}";
    std::ofstream(folder.path + "/w.yaml")
        << "watershed: Bent Fields\nelevation: {file: h.tif}\nrain: {erosivity: 3000 SI, from: made}\n"
        << "soils: {erodibility: 0.04 SI, from: made}\nfields: {file: f.json, name: name}\n"
        << "cover: {factor: 0.2, from: made}\nchannel: 2 ha\n";
    const Outcome outcome =
        run({"watershed", folder.path + "/w.yaml", "--out", folder.path + "/w", "--draws", "10", "--json", "--quiet"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    std::ofstream(folder.path + "/w.result") << outcome.out;
    std::string words;
    EXPECT_TRUE(agrees(folder, "zones", {"w-loss.tif", "f.json", "w.result"}, words)) << words;
    EXPECT_FALSE(agrees(folder, "zones", {"w-ls.tif", "f.json", "w.result"}, words));
}

}  // namespace
}  // namespace soilhold::program
