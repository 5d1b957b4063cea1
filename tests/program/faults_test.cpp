/// What the map commands leave behind when the disk is full, when they are killed, and what they say of files cut
/// short.
#include <gmock/gmock.h>
#include <signal.h>
#include <sys/mount.h>

#include <chrono>
#include <cmath>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <random>

#include "program.h"
#include "raster/atomic_file.h"

namespace soilhold::program {
namespace {

using testing::HasSubstr;

constexpr std::int64_t side = 200;

/// Hills of 200 x 200 cells with four square fields, and the classes of crops on them.
struct MadeHills : Folder {
    MadeHills() {
        raster::Placement place;
        place.west = 500000, place.north = 4400000, place.cell_width = place.cell_height = 10;
        place.columns = place.rows = side;
        place.crs = "EPSG:32617";
        terrain::Grid<float> heights({side, side, 10});
        terrain::Grid<std::uint8_t> crops({side, side, 10}, std::uint8_t{5});
        for (std::int64_t r = 0; r < side; ++r)
            for (std::int64_t c = 0; c < side; ++c)
                heights(r, c) =
                    static_cast<float>(300 - 0.3 * static_cast<double>(r) +
                                       6 * std::sin(static_cast<double>(c) / 9 + static_cast<double>(r) / 31));
        raster::WriteOptions options;
        options.unit = "m";
        raster::write_values(path + "/heights.tif", heights, place, options);
        raster::write_classes(path + "/crops.tif", crops, place);
        std::ofstream(path + "/classes.csv") << "class,name,C\n5,soy,0.2\n";
        std::string features;
        for (int i = 0; i < 4; ++i) {
            const int west = 500100 + 900 * (i % 2), south = 4398100 + 900 * (i / 2), east = west + 800;
            const int north = south + 800;
            features += (i > 0 ? "," : "") + std::string(R"({"type":"Feature","properties":{"name":")") +
                        std::to_string(i) + R"("},"geometry":{"type":"Polygon","coordinates":[[)";
            for (const auto& [x, y] : {std::pair{west, south}, {east, south}, {east, north}, {west, north}})
                features += "[" + std::to_string(x) + "," + std::to_string(y) + "],";
            features += "[" + std::to_string(west) + "," + std::to_string(south) + "]]]}}";
        }
        std::ofstream(path + "/fields.json")
            << R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::32617"}},)"
            << R"("features":[)" << features << "]}";
        write_erosivity("3000");
        std::filesystem::create_directory(path + "/out");
    }
    void write_erosivity(const std::string& erosivity) const {
        std::ofstream(path + "/hills.yaml")
            << "watershed: Made Hills\nelevation: {file: heights.tif}\nrain: {erosivity: " << erosivity
            << " SI, from: made}\nsoils: {erodibility: 0.04 SI, from: made}\n"
            << "fields: {file: fields.json, name: name}\n"
            << "cover: {rasters: [crops.tif], classes: classes.csv}\nvisits: 2\n";
    }
    std::vector<std::string> watershed(const std::string& out) const {
        return {"watershed", path + "/hills.yaml", "--out", out + "/x", "--map", out + "/x.svg", "--draws", "50",
                "--quiet"};
    }
};

std::map<std::string, std::string> contents(const std::string& path) {
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(path))
        files[entry.path().filename()] = slurp(entry.path());
    return files;
}

TEST(Faults, KilledWatershedsLeaveEachFileOldOrNewAndNothingElse) {
    const MadeHills made;
    const std::string out = made.path + "/out";
    if (!raster::written_unnamed(out + "/x")) GTEST_SKIP() << "the file system of /tmp has no files without names";
    ASSERT_EQ(run(made.watershed(out)).exit_code, 0);
    const auto before = contents(out);
    ASSERT_EQ(before.size(), 7U);
    made.write_erosivity("4000");
    const auto start = std::chrono::steady_clock::now();
    ASSERT_EQ(run(made.watershed(out)).exit_code, 0);
    const double took = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    const auto after = contents(out);
    ASSERT_NE(before.at("x-loss.tif"), after.at("x-loss.tif"));
    for (const auto& [name, bytes] : before) std::ofstream(out + "/" + name, std::ios::binary) << bytes;
    std::mt19937 draw(11);
    for (int i = 0; i < 20; ++i) {
        // The second half of a run is where files are written.
        const double moment = std::uniform_real_distribution<double>(i % 2 == 0 ? 0 : 0.6 * took, 1.05 * took)(draw);
        run_and_send(made.watershed(out), i % 4 == 3 ? SIGINT : SIGKILL, moment);
        const auto now = contents(out);
        ASSERT_EQ(now.size(), before.size()) << "at " << moment << " of " << took << " s";
        for (const auto& [name, bytes] : now)
            ASSERT_TRUE(bytes == before.at(name) || bytes == after.at(name)) << name << " at " << moment;
    }
}

/// A disk of two megabytes, where this user may have one.
class SmallDisk {
  public:
    explicit SmallDisk(const std::string& at) : path(at) {
        std::filesystem::create_directory(at);
        mounted = mount("none", at.c_str(), "tmpfs", 0, "size=2m") == 0;
    }
    ~SmallDisk() {
        if (mounted) umount(path.c_str());
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    /// Fills it up to so many bytes.
    void leave(std::uintmax_t bytes) const {
        std::filesystem::remove(path + "/filler");
        const std::uintmax_t room = std::filesystem::space(path).available;
        std::ofstream(path + "/filler", std::ios::binary) << std::string(room - std::min(room, bytes), 'x');
    }
    std::string path;
    bool mounted = false;
};

TEST(Faults, FullDisksLeaveTheOldFilesWhole) {
    const MadeHills made;
    const SmallDisk disk(made.path + "/disk");
    if (!disk.mounted) GTEST_SKIP() << "this user may not mount a small disk";
    const std::vector<std::string> terrain = {"terrain", made.path + "/heights.tif", "--out", disk.path + "/t",
                                              "--write", "slope,area,directions"};
    for (const auto& words : {made.watershed(disk.path), terrain}) {
        disk.leave(2'000'000);
        ASSERT_EQ(run(words).exit_code, 0);
        const auto old = contents(disk.path);
        std::uintmax_t all = 0;
        for (const auto& [name, bytes] : old)
            if (name[0] == (words == terrain ? 't' : 'x')) all += bytes.size();
        int full = 0;
        for (const double part : {0.0, 0.2, 0.4, 0.6, 0.8}) {
            disk.leave(static_cast<std::uintmax_t>(part * static_cast<double>(all)));
            const Outcome outcome = run(words);
            EXPECT_EQ(outcome.exit_code, 3) << words[0] << " " << part << outcome.err;
            EXPECT_EQ(outcome.out, "");
            EXPECT_THAT(outcome.err, HasSubstr(disk.path));
            full += outcome.exit_code == 3 ? 1 : 0;
            auto now = contents(disk.path);
            now["filler"] = old.count("filler") ? old.at("filler") : "";
            auto then = old;
            then["filler"] = now["filler"];
            EXPECT_TRUE(now == then) << words[0] << " " << part;
        }
        EXPECT_EQ(full, 5);
    }
}

TEST(Faults, MapsCutShortAreNamed) {
    const MadeHills made;
    for (const std::string name : {"heights.tif", "crops.tif", "fields.json"}) {
        const std::string file = made.path + "/" + name, whole = slurp(file);
        for (const std::size_t kept : {std::size_t{0}, std::size_t{8}, std::size_t{200}, whole.size() / 2}) {
            std::ofstream(file, std::ios::binary) << whole.substr(0, kept);
            const Outcome outcome = run(made.watershed(made.path + "/out"));
            EXPECT_EQ(outcome.exit_code, 2) << name << " " << kept;
            EXPECT_THAT(outcome.err, HasSubstr(name));
            EXPECT_EQ(outcome.out, "");
        }
        std::ofstream(file, std::ios::binary) << whole;
    }
    EXPECT_TRUE(std::filesystem::is_empty(made.path + "/out"));
}

TEST(Faults, OddRastersAreReadOrNamed) {
    if (std::system("command -v gdal_translate > /dev/null") != 0) GTEST_SKIP() << "gdal-bin is not installed";
    const MadeHills made;
    const std::string folder = made.path + "/Hügel & Täler";
    std::filesystem::create_directory(folder);
    const auto middle_of = [&](const std::string& options, const std::string& name) {
        const std::string file = folder + "/" + name;
        EXPECT_EQ(
            std::system(("gdal_translate -q " + options + " " + made.path + "/heights.tif '" + file + "'").c_str()), 0);
        const Outcome outcome = run({"terrain", file, "--out", folder + "/x", "--height-unit", "m", "--json"});
        EXPECT_EQ(outcome.exit_code, 0) << name << outcome.err;
        return nlohmann::json::parse(outcome.out);
    };
    const auto plain = middle_of("", "plain.tif");
    const double gradient = plain["gradient"]["p50"];
    EXPECT_EQ(middle_of("-of AAIGrid -co DECIMAL_PRECISION=6", "grid.asc")["gradient"]["p50"], gradient);
    EXPECT_EQ(middle_of("-of VRT", "wrapped.vrt")["gradient"]["p50"], gradient);
    EXPECT_NEAR(middle_of("-ot Float64 -a_scale 0.1 -a_offset 200", "scaled.tif")["gradient"]["p50"], gradient / 10,
                1e-3);
    const auto bands = middle_of("-b 1 -b 1", "bands.tif");
    EXPECT_THAT(bands["remarks"].dump(), HasSubstr("several-bands"));
    EXPECT_EQ(bands["gradient"]["p50"], gradient);
    EXPECT_EQ(middle_of("-srcwin 0 0 200 1", "row.tif")["rows"], 1);
    EXPECT_EQ(middle_of("-srcwin 0 0 1 200", "column.tif")["columns"], 1);
    EXPECT_EQ(middle_of("-srcwin 7 7 1 1", "cell.tif")["cells_with_height"], 1);
}

TEST(Faults, WhatIsReadIsNotWrittenOver) {
    const MadeHills made;
    std::filesystem::rename(made.path + "/classes.csv", made.path + "/x.csv");
    std::string text = slurp(made.path + "/hills.yaml");
    text.replace(text.find("classes.csv"), 11, "x.csv");
    std::ofstream(made.path + "/hills.yaml") << text;
    const Outcome outcome = run(made.watershed(made.path));
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_THAT(outcome.err, HasSubstr("x.csv is read by this ranking"));
    EXPECT_THAT(slurp(made.path + "/x.csv"), HasSubstr("soy"));
}

}  // namespace
}  // namespace soilhold::program
