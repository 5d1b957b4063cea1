/// soilhold watershed on a made watershed whose tons are worked by hand.
///
/// 40 x 40 cells of 10 m on a plane that falls 10 % southward. The longest slope is a cell, so that each is one of its
/// own: sin a = 0.099504, S = 16.8 sin a - 0.5 = 1.17166 (AH 703), beta = (0.099504 / 0.0896) / (3 x 0.15786 + 0.56)
/// = 1.07446, m = 0.51795, L = (10 / 22.128)^m = 0.66273, LS = 0.77649 (pocket calculator, handbook equations).
/// R = 3000, C = 0.2: 18.636 t/ha on soil A (K 0.04), 9.318 on soil B (0.02). A column of 34.5 cells makes a channel,
/// so the six southern rows are channels.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "program.h"

namespace soilhold {
namespace {

using nlohmann::json;
using program::Outcome;
using testing::HasSubstr;

constexpr double on_A = 18.636, on_B = 9.318;

using Ring = std::vector<std::pair<double, double>>;

/// x eastward and y southward of the north-west corner.
Ring box(double west, double north, double east, double south) {
    return {{west, north}, {east, north}, {east, south}, {west, south}, {west, north}};
}

std::string geojson(const std::string& column, const std::vector<std::pair<std::string, Ring>>& features) {
    json all = {{"type", "FeatureCollection"},
                {"crs", {{"type", "name"}, {"properties", {{"name", "urn:ogc:def:crs:EPSG::32617"}}}}},
                {"features", json::array()}};
    for (const auto& [name, ring] : features) {
        json points = json::array();
        for (const auto& [x, y] : ring) points.push_back({500000 + x, 4400000 - y});
        all["features"].push_back({{"type", "Feature"},
                                   {"properties", {{column, name}}},
                                   {"geometry", {{"type", "Polygon"}, {"coordinates", json::array({points})}}}});
    }
    return all.dump();
}

struct MadeRun : program::Folder {
    MadeRun() {
        std::string heights = "ncols 40\nnrows 40\nxllcorner 500000\nyllcorner 4399600\ncellsize 10\n";
        for (int row = 0; row < 40; ++row) {
            for (int column = 0; column < 40; ++column) heights += std::to_string(200 - row) + " ";
            heights += "\n";
        }
        write("heights.asc", heights);
        // Cells of a hundredth of a degree around the grid, which lies at 81 W, 39.75 N.
        write("cover.asc",
              "ncols 3\nnrows 3\nxllcorner -81.01\nyllcorner 39.73\ncellsize 0.01\nNODATA_value 0\n5 5 5\n5 5 5\n5 5 "
              "5\n");
        write("classes.csv", "class,name,C\n5,soy,0.2\n");
        write("soils.csv", "key,share,erodibility SI,tolerance t/ha\nA,70,0.04,10\nA,30,0.01,5\nB,100,0.02,8\n");
        write("soils.json", geojson("unit", {{"A", box(0, 0, 200, 400)},
                                             {"B", box(200, 0, 400, 200)},
                                             {"B", box(200, 200, 300, 300)},
                                             {"B", box(200, 300, 400, 400)},
                                             {"Z", box(300, 200, 400, 300)}}));
        write("fields.json", geojson("name", {{"west", box(0, 0, 200, 200)},
                                              {"east", box(200, 0, 400, 100)},
                                              {"mid", box(180, 0, 220, 100)},
                                              {"bow tie", {{0, 210}, {100, 310}, {100, 210}, {0, 310}, {0, 210}}},
                                              {"by the stream", box(200, 300, 300, 400)},
                                              {"far off", box(9000, 0, 9100, 100)},
                                              {"on Z", box(300, 200, 400, 300)}}));
        write("made.yaml", text);
    }
    void write(const std::string& name, const std::string& content) const {
        std::ofstream(path + "/" + name) << content;
    }
    Outcome run(std::vector<std::string> more) const {
        more.insert(more.begin(), {"watershed", path + "/made.yaml"});
        return program::run(more);
    }
    const std::string text =
        "watershed: Made Run\n"
        "elevation: {file: heights.asc, crs: 'EPSG:32617', heights: m}\n"
        "rain: {erosivity: 3000 SI, from: county sheet}\n"
        "soils: {file: soils.json, key: unit, table: soils.csv}\n"
        "fields: {file: fields.json, name: name}\n"
        "cover: {rasters: [cover.asc], classes: classes.csv, crs: 'EPSG:4326'}\n"
        "offered:\n"
        "  - {practice: no-till, times: 0.4}\n"
        "  - {practice: cover crop, cover factor: 0.1}\n"
        "channel: 0.345 ha\n"
        "longest: 10 m\n"
        "visits: 2\n";
};

const json& named(const json& list, const std::string& name) {
    for (const json& one : list)
        if (one["name"] == name) return one;
    static const json none;
    return none;
}

TEST(Watershed, TonsAreThoseWorkedByHand) {
    const MadeRun made;
    const Outcome outcome = made.run({"--json"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    const json result = json::parse(outcome.out);
    const json& fields = result["fields"];
    ASSERT_EQ(fields.size(), 5U);
    EXPECT_NEAR(named(fields, "west")["tons"], 4 * on_A, 0.01);
    EXPECT_NEAR(named(fields, "east")["tons"], 2 * on_B, 0.01);
    EXPECT_NEAR(named(fields, "mid")["tons"], 0.2 * on_A + 0.2 * on_B, 0.01);
    EXPECT_NEAR(named(fields, "bow tie")["tons"], 0.5 * on_A, 0.02);  // two triangles of a quarter hectare
    EXPECT_NEAR(named(fields, "by the stream")["tons"], 1 * on_B, 0.01);
    EXPECT_NEAR(named(fields, "by the stream")["gap_share"], 0.6, 1e-9);
    EXPECT_NEAR(named(fields, "west")["times_T"], on_A / 10, 1e-3);
    EXPECT_NEAR(named(fields, "mid")["tolerance"], 9, 1e-6);  // by area
    EXPECT_NEAR(named(fields, "west")["avoidable"], 0.6 * 4 * on_A, 0.01);
    EXPECT_NEAR(named(fields, "west")["delivered"]["way_m"], 245, 1e-3);  // 340 m down to 150
    EXPECT_EQ(fields[0]["name"], "west");
    EXPECT_EQ(result["grid"]["channel_cells"], 6 * 40);
    EXPECT_EQ(result["grid"]["cells_missing"]["soil"], 100);
}

TEST(Watershed, EveryFieldOfTheFileIsAccountedFor) {
    const MadeRun made;
    const json result = json::parse(made.run({"--json"}).out);
    EXPECT_EQ(result["fields"].size() + result["left_out"].size(), 7U);
    EXPECT_THAT(named(result["left_out"], "far off")["why"], HasSubstr("outside"));
    EXPECT_THAT(named(result["left_out"], "on Z")["why"], HasSubstr("soil on 100 %"));
    ASSERT_EQ(result["overlaps"].size(), 2U);
    EXPECT_NEAR(result["overlaps"][0]["area_ha"], 0.2, 1e-6);
    EXPECT_EQ(named(result["fields"], "bow tie")["remarks"][0]["code"], "polygon-repaired");
}

TEST(Watershed, TextBeginsWithWhatTheTopFifthCarries) {
    const MadeRun made;
    const Outcome outcome = made.run({"--units", "metric"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    // 74.54 of 74.54 + 18.64 + 5.59 + 9.32 + 9.32 = 117.4 t
    EXPECT_TRUE(outcome.out.starts_with("The top fifth of the fields (1 of 5) carry 63 % of the tons.\n"));
    EXPECT_THAT(outcome.out, HasSubstr("'on Z' is not ranked"));
    EXPECT_THAT(outcome.out, HasSubstr("Map unit 'Z' (1 ha here) is not in soils.csv"));
    EXPECT_THAT(outcome.out, HasSubstr("'bow tie' was not valid"));
    EXPECT_THAT(outcome.out, HasSubstr("rain (R): county sheet (your figure)"));
    EXPECT_THAT(outcome.out, HasSubstr("It is a planning aid"));
    EXPECT_THAT(outcome.out, testing::Not(HasSubstr("wrote")));
}

TEST(Watershed, CsvHasARowAFieldAndACellAColumn) {
    const MadeRun made;
    const Outcome outcome = made.run({"--csv", "--units", "metric"});
    std::istringstream rows(outcome.out);
    std::vector<std::size_t> cells;
    for (std::string row; std::getline(rows, row);) {
        bool quoted = false;
        std::size_t count = 1;
        for (const char c : row) {
            if (c == '"') quoted = !quoted;
            if (c == ',' && !quoted) ++count;
        }
        cells.push_back(count);
    }
    ASSERT_EQ(cells.size(), 8U);
    for (const std::size_t count : cells) EXPECT_EQ(count, cells[0]);
}

TEST(Watershed, FilesAreWrittenWholeOrNotAtAll) {
    const MadeRun made;
    const std::string folder = made.path + "/out";
    std::filesystem::create_directory(folder);
    ASSERT_EQ(made.run({"--out", folder + "/x", "--quiet"}).exit_code, 0);
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) names.push_back(entry.path().filename());
    EXPECT_THAT(names,
                testing::UnorderedElementsAre("x-loss.tif", "x-ls.tif", "x-classes.tif", "x.gpkg", "x.csv", "x.json"));
    EXPECT_EQ(program::slurp(folder + "/x.csv"), made.run({"--csv"}).out);
    // A folder stands where the GeoPackage should go: nothing at all is written.
    std::filesystem::create_directory(folder + "/y.gpkg");
    const Outcome refused = made.run({"--out", folder + "/y"});
    EXPECT_EQ(refused.exit_code, 3);
    EXPECT_FALSE(std::filesystem::exists(folder + "/y.csv"));
    EXPECT_FALSE(std::filesystem::exists(folder + "/y-loss.tif"));
    EXPECT_EQ(made.run({"--out", folder + "/none/x"}).exit_code, 3);
}

/// The rows of the GeoPackage by field.
std::map<std::string, json> layer_in(const std::string& path) {
    EXPECT_EQ(std::system(("ogr2ogr -f GeoJSON '" + path + ".json' '" + path + "' fields 2>/dev/null").c_str()), 0);
    std::map<std::string, json> rows;
    const json all = json::parse(program::slurp(path + ".json"));
    for (const json& feature : all["features"]) rows[feature["properties"]["name"]] = feature;
    return rows;
}

TEST(Watershed, WhatIsWrongWithAFieldStandsWithItEverywhere) {
    const MadeRun made;
    json fields = json::parse(program::slurp(made.path + "/fields.json"));
    const auto add = [&](const std::string& name, const json& geometry) {
        fields["features"].push_back({{"type", "Feature"}, {"properties", {{"name", name}}}, {"geometry", geometry}});
    };
    const auto square = [](double west, double south, double east, double north) {
        return json{{"type", "Polygon"},
                    {"coordinates",
                     {{{500000 + west, 4400000 - north},
                       {500000 + east, 4400000 - north},
                       {500000 + east, 4400000 - south},
                       {500000 + west, 4400000 - south},
                       {500000 + west, 4400000 - north}}}}};
    };
    add("thin", square(20, 20, 20.5, 190));
    add("half off", square(-50, 20, 50, 40));
    add("nowhere", nullptr);
    made.write("fields.json", fields.dump());
    ASSERT_EQ(made.run({"--out", made.path + "/x", "--quiet"}).exit_code, 0);
    const json result = json::parse(program::slurp(made.path + "/x.json"));
    const std::string csv = program::slurp(made.path + "/x.csv");
    std::map<std::string, json> layer = layer_in(made.path + "/x.gpkg");
    const auto row = [&](const std::string& name) {
        const std::size_t at = csv.find("," + name + ",");
        return at == std::string::npos
                   ? ""
                   : csv.substr(csv.rfind('\n', at) + 1, csv.find('\n', at) - csv.rfind('\n', at) - 1);
    };
    const auto coded = [&](const std::string& name, const std::string& code) {
        for (const json& remark : named(result["fields"], name)["remarks"])
            if (remark["code"] == code) return true;
        return false;
    };
    const std::vector<std::array<std::string, 3>> wrong = {{"bow tie", "polygon-repaired", "was not valid"},
                                                           {"thin", "sliver", "m wide on average"},
                                                           {"half off", "partly-outside", "lies on the raster"},
                                                           {"mid", "overlap", "overlap by"},
                                                           {"west", "overlap", "overlap by"}};
    for (const auto& [name, code, words] : wrong) {
        EXPECT_TRUE(coded(name, code)) << name;
        EXPECT_THAT(row(name), HasSubstr(words));
        EXPECT_THAT(std::string(layer[name]["properties"]["remarks"]), HasSubstr(words));
    }
    // A gap says of what; a channel has no slope.
    EXPECT_THAT(row("by the stream"), HasSubstr("slope on 60 %"));
    EXPECT_EQ(layer["by the stream"]["properties"]["lacks"], "slope on 60 %");
    EXPECT_TRUE(layer["by the stream"]["properties"]["left_out"].is_null());
    // Left out, with the reason, and an outline where there is one.
    const auto why = [&](const std::string& name) { return std::string(layer[name]["properties"]["left_out"]); };
    EXPECT_THAT(why("on Z"), HasSubstr("soil on 100 %"));
    EXPECT_THAT(why("far off"), HasSubstr("outside the raster"));
    EXPECT_THAT(why("nowhere"), HasSubstr("no outline"));
    EXPECT_TRUE(layer["far off"]["properties"]["place"].is_null());
    EXPECT_FALSE(layer["far off"]["geometry"].is_null());
    EXPECT_TRUE(layer["nowhere"]["geometry"].is_null());
    EXPECT_EQ(layer.size(), 10U);
    EXPECT_EQ(named(result["left_out"], "far off")["has_outline"], true);
    EXPECT_EQ(named(result["left_out"], "nowhere")["has_outline"], false);
    EXPECT_THAT(row("nowhere"), HasSubstr("no outline"));
}

TEST(Watershed, EveryFileSaysTheSameOfAField) {
    const MadeRun made;
    ASSERT_EQ(made.run({"--out", made.path + "/x", "--units", "metric", "--quiet"}).exit_code, 0);
    const json result = json::parse(program::slurp(made.path + "/x.json"));
    const json& mid = named(result["fields"], "mid");
    std::istringstream csv(program::slurp(made.path + "/x.csv"));
    std::map<std::string, std::string> cells;  // of the row of 'mid', which holds no comma but in its last cell
    std::string heads, row;
    std::getline(csv, heads);
    while (std::getline(csv, row) && row.find(",mid,") == std::string::npos) {
    }
    std::istringstream head(heads), cell(row);
    for (std::string h, c; std::getline(head, h, ',') && std::getline(cell, c, ',');) cells[h] = c;
    const json row_of_layer = layer_in(made.path + "/x.gpkg")["mid"]["properties"];
    const auto same = [&](const std::string& heading, const std::string& column, const json& value) {
        const double figure = value;
        EXPECT_NEAR(std::strtod(cells[heading].c_str(), nullptr), figure, 1e-4 * std::abs(figure) + 1e-9) << heading;
        EXPECT_NEAR(double(row_of_layer[column]), figure, 1e-9 * std::abs(figure)) << column;
    };
    same("loss_t_ha", "loss_t_ha", mid["loss"]);
    same("tonnes", "loss_t", mid["tons"]);
    same("times_T", "times_T", mid["times_T"]);
    same("share_above_T", "above_T", mid["share_above_T"]);
    same("share_above_2T", "above_2T", mid["share_above_2T"]);
    same("worst_tenth_t_ha", "worst_t_ha", mid["worst_tenth"]["loss"]);
    same("worst_tenth_x", "worst_x", mid["worst_tenth"]["x"]);
    same("avoidable_tonnes", "avoidable_t", mid["avoidable"]);
    same("delivered_tonnes", "delivered_t", mid["delivered"]["tons"]);
    for (const std::string by : {"loss", "tons", "times_T", "avoidable", "delivered"}) {
        same("place_by_" + by, "place_" + by, mid["ranks"][by]["place"]);
        same("chance_in_top_2_by_" + by, "chance_" + by, mid["ranks"][by]["chance_in_top"]);
        same("tie_group_by_" + by, "tie_" + by, mid["ranks"][by]["tie_group"]);
    }
    // Units stand in the schema tables of the GeoPackage.
    const std::string ask = "ogr2ogr -f CSV '" + made.path + "/columns.csv' '" + made.path +
                            "/x.gpkg' -sql 'SELECT column_name, title FROM gpkg_data_columns'";
    ASSERT_EQ(std::system(ask.c_str()), 0);
    EXPECT_THAT(program::slurp(made.path + "/columns.csv"), HasSubstr("loss_t_ha,\"mean yearly loss, t/(ha yr)\""));
    // Its western half lies on soil A, which loses twice as much, all of it the same: the upper western part is first.
    EXPECT_EQ(mid["worst_tenth"]["part"], "north-west");
    EXPECT_EQ(cells["worst_tenth_part"], "north-west");
    EXPECT_THAT(made.run({"--units", "metric"}).out, HasSubstr("Their worst tenths"));
}

TEST(Watershed, TheGridOfClassesHasTheColoursOfTheLegend) {
    const MadeRun made;
    ASSERT_EQ(made.run({"--out", made.path + "/x", "--quiet"}).exit_code, 0);
    const std::string info = made.path + "/info.txt";
    ASSERT_EQ(std::system(("gdalinfo '" + made.path + "/x-classes.tif' > '" + info + "'").c_str()), 0);
    const std::string said = program::slurp(info);
    EXPECT_THAT(said, HasSubstr("LAYOUT=COG"));
    EXPECT_THAT(said, HasSubstr("class_3=1 to 2 times T"));
    EXPECT_THAT(said, HasSubstr("1: 255,250,232,255"));
    EXPECT_THAT(said, HasSubstr("STATISTICS_MAXIMUM=3"));  // 18.6 t/ha on T 10, 9.3 on T 8
}

TEST(Watershed, FieldEdgesKeepEachFieldsGroundItsOwn) {
    const MadeRun made;
    std::string text = made.text;
    text.replace(text.find("longest: 10 m"), 13, "longest: 100 m");
    const auto tons = [&](const std::string& more) {
        made.write("made.yaml", text + more);
        const Outcome outcome = made.run({"--json"});
        EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
        const json result = json::parse(outcome.out);
        EXPECT_EQ(result["grid"]["channel_cells"], 6 * 40);
        return std::pair(double(named(result["fields"], "west")["loss"]),
                         double(named(result["fields"], "by the stream")["loss"]));
    };
    const auto [west, lower] = tons("");
    const auto [west_alone, lower_alone] = tons("barriers: [field edges]\n");
    EXPECT_NEAR(west_alone, west, 0.02 * west);  // it begins at the north edge of the map, but for 'mid' on its side
    EXPECT_LT(lower_alone, 0.8 * lower);         // 300 m of slope above it held back
}

TEST(Watershed, IsTheSameForAnyNumberOfThreadsAndFollowsTheSeed) {
    const MadeRun made;
    const std::string one = made.run({"--json", "--threads", "1"}).out;
    EXPECT_EQ(one, made.run({"--json", "--threads", "2"}).out);
    EXPECT_NE(one, made.run({"--json", "--seed", "2"}).out);
    EXPECT_EQ(json::parse(made.run({"--json", "--top", "4"}).out)["visits"], 4);
}

TEST(Watershed, WhatCannotBeUsedEndsWithTwo) {
    const MadeRun made;
    made.write("made.yaml", made.text + "vists: 3\n");
    Outcome outcome = made.run({});
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_THAT(outcome.err, HasSubstr("did you mean 'visits'?"));
    made.write("made.yaml", made.text);
    made.write("fields.json", "{}");
    outcome = made.run({});
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_THAT(outcome.err, HasSubstr("fields.json"));
    EXPECT_TRUE(outcome.out.empty());
    EXPECT_EQ(made.run({"--draws", "0"}).exit_code, 2);
}

TEST(Watershed, WhatHeightsLackIsAskedForByTheKeyOfTheFile) {
    const MadeRun made;
    const auto asked = [&](const std::string& keys) {
        std::string text = made.text;
        text.replace(text.find("{file: heights.asc, crs: 'EPSG:32617', heights: m}"), 50, keys);
        made.write("made.yaml", text);
        const Outcome outcome = made.run({});
        EXPECT_EQ(outcome.exit_code, 2);
        EXPECT_THAT(outcome.err, HasSubstr("made.yaml:2:1: "));
        EXPECT_THAT(outcome.err, HasSubstr("    2 | elevation: "));
        EXPECT_THAT(outcome.err, testing::Not(HasSubstr("--")));
        return outcome.err;
    };
    EXPECT_THAT(asked("{file: heights.asc, crs: 'EPSG:32617'}"),
                HasSubstr("Give 'heights: m' or 'heights: ft' under 'elevation'."));
    EXPECT_THAT(asked("{file: heights.asc}"), HasSubstr("Give 'crs' under 'elevation'"));
    EXPECT_THAT(asked("{file: heights.asc, crs: 'EPSG:4326', heights: m}"), HasSubstr("'project: auto'"));
    EXPECT_THAT(asked("{file: heights.asc, crs: 'EPSG:32617', heights: m, cell: 5 m}"),
                HasSubstr("leave 'cell' out under 'elevation'"));
}

TEST(Watershed, TooLittleMemoryIsToldAtOnceWithTheCellThatWouldFit) {
    const MadeRun made;
    // 400 million cells of 10 m, of which not one is stored.
    ASSERT_EQ(std::system(("gdal_create -q -outsize 20000 20000 -ot Float32 -a_srs EPSG:32617 -a_ullr 500000 4600000 "
                           "700000 4400000 -co SPARSE_OK=TRUE '" +
                           made.path + "/large.tif'")
                              .c_str()),
              0);
    std::string text = made.text;
    text.replace(text.find("heights.asc"), 11, "large.tif");
    made.write("made.yaml", text);
    const Outcome outcome = made.run({"--memory", "2", "GB"});
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_THAT(outcome.err, HasSubstr("made.yaml:2:1: "));
    EXPECT_THAT(outcome.err, HasSubstr("400 million cells of 10 m"));
    EXPECT_THAT(outcome.err, HasSubstr("2.0 GB is allowed. Give wider cells, 'cell: 29 m'"));
    EXPECT_EQ(made.run({"--memory", "2"}).exit_code, 2);
}

TEST(Watershed, HeightsOnAMapInFeetGiveTheSameTons) {
    const MadeRun made;
    // The same ground in US survey feet: a metre is 3937/1200 of them.
    std::string heights =
        "ncols 40\nnrows 40\nxllcorner 1640416.666667\nyllcorner 14434354.333333\ncellsize 32.808333333\n";
    for (int row = 0; row < 40; ++row) {
        for (int column = 0; column < 40; ++column) heights += std::to_string((200 - row) / 0.3048) + " ";
        heights += "\n";
    }
    made.write("feet.asc", heights);
    std::string text = made.text;
    text.replace(text.find("{file: heights.asc"), text.find("}\n") - text.find("{file: heights.asc"),
                 "{file: feet.asc, crs: '+proj=utm +zone=17 +datum=WGS84 +units=us-ft', heights: ft");
    made.write("made.yaml", text);
    const Outcome outcome = made.run({"--json"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    const json result = json::parse(outcome.out);
    EXPECT_NEAR(result["grid"]["cell_m"], 10, 1e-6);
    EXPECT_NEAR(named(result["fields"], "west")["tons"], 4 * on_A, 0.02);
    EXPECT_NEAR(named(result["fields"], "west")["area_ha"], 4, 1e-4);
    EXPECT_NEAR(named(result["fields"], "bow tie")["tons"], 0.5 * on_A, 0.02);
}

TEST(Watershed, FieldsTakeCAndPFromTheirColumns) {
    const MadeRun made;
    json fields = json::parse(program::slurp(made.path + "/fields.json"));
    fields["features"][0]["properties"] = {{"name", "west"}, {"c", 0.05}, {"p", 0.5}, {"tilled", "spring"}};
    fields["features"][1]["properties"] = {{"name", "east"}, {"c", nullptr}, {"p", nullptr}, {"tilled", nullptr}};
    made.write("fields.json", fields.dump());
    std::string text = made.text;
    text.replace(text.find("name: name}"), 11, "name: name, cover: c, practice: p, tillage: tilled}");
    text += "rank by: avoidable\n";
    made.write("made.yaml", text);
    const Outcome outcome = made.run({"--json"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    const json result = json::parse(outcome.out);
    const json& west = named(result["fields"], "west");
    EXPECT_NEAR(west["tons"], 4 * on_A / 8, 0.01);  // a quarter of C, half of P
    EXPECT_EQ(west["tillage"], "spring");
    EXPECT_NEAR(named(result["fields"], "east")["tons"], 2 * on_B, 0.01);  // the map's C where the column is blank
    EXPECT_EQ(result["fields"][0]["name"], "east");
    EXPECT_EQ(west["best_practice"], "no-till");  // the cover crop's 0.1 is above its 0.05
}

TEST(Watershed, FieldsWithoutAPlaceAreCounted) {
    const MadeRun made;
    made.write("soils.csv", "key,erodibility SI,tolerance t/ha\nA,0.04,10\nB,0.02,\n");
    made.write("made.yaml", made.text + "rank by: times T\n");
    const Outcome outcome = made.run({});
    EXPECT_THAT(outcome.out, HasSubstr("2 fields have no place by times T: no T is known there."));
}

TEST(Watershed, MistakesComeInTheOrderOfTheFile) {
    const MadeRun made;
    std::string text = made.text;
    text.replace(text.find("soils.csv"), 9, "soil.csv");
    text.replace(text.find("visits: 2"), 9, "visits: two");
    made.write("made.yaml", text);
    const Outcome outcome = made.run({});
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_LT(outcome.err.find("There is no file"), outcome.err.find("'two' is not a number"));
    EXPECT_NE(outcome.err.find("2 mistakes"), std::string::npos);
}

TEST(Watershed, JsonFitsItsSchema) {
    const MadeRun made;
    const auto fits = program::fits_schema(made.run({"--json"}).out, "watershed-report.schema.json");
    if (!fits) GTEST_SKIP() << "python3 lacks jsonschema";
    EXPECT_TRUE(*fits);
}

}  // namespace
}  // namespace soilhold
