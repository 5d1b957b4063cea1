/// Maps brought onto the grid of the heights: soils by polygon and by raster, covers by class and year, other cells
/// and other coordinate systems.
#include "watershed/layers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

#include "program.h"
#include "raster/layer.h"
#include "raster/made_rasters.h"
#include "raster/raster_error.h"
#include "units/unit.h"
#include "watershed/field_map.h"
#include "watershed/slope_map.h"

namespace soilhold::watershed {
namespace {

using raster::Made;
using testing::HasSubstr;

/// 4 x 4 cells of 10 m in UTM zone 17.
struct Maps : program::Folder {
    raster::Placement placement;
    Maps() {
        raster::make_raster(path + "/heights.tif", Made{4, std::vector<double>(16, 100)});
        placement = raster::Layer(path + "/heights.tif").placement();
        raster::make_features(path + "/soils.gpkg", {{box(500000, 4399960, 500020, 4400000), "A"},
                                                     {box(500020, 4399960, 500030, 4400000), "B"},
                                                     {box(500030, 4399960, 500040, 4400000), "Z"}});
        raster::make_features(path + "/fields.gpkg", {{box(500000, 4399980, 500040, 4400000), "north", 3},
                                                      {box(500000, 4399960, 500040, 4399980), "south"}});
        text("soils.csv", "key,erodibility SI,tolerance t/ha\nA,0.04,10\nB,0.02,\n7,0.03,5\n");
        text("classes.csv", "class,name,C\n1,maize,0.4\n5,soy,0.2\n");
    }
    static std::string box(double w, double s, double e, double n) {
        const auto point = [](double x, double y) { return std::to_string(x) + " " + std::to_string(y); };
        return "POLYGON((" + point(w, s) + "," + point(e, s) + "," + point(e, n) + "," + point(w, n) + "," +
               point(w, s) + "))";
    }
    void text(const std::string& name, const std::string& content) const {
        std::ofstream(path + "/" + name) << content;
    }
    input::WatershedFile file(const std::string& rest) const {
        return input::read_watershed("watershed: made\nelevation: {file: heights.tif}\n" + rest, path + "/w.yaml");
    }
    Layers layers(const input::WatershedFile& file) const {
        return read_layers(file, placement, terrain::Grid<float>(raster::shape_of(placement), 1));
    }
};

const std::string rain = "rain: {erosivity: 1000 SI}\n";
const std::string soils = "soils: {file: soils.gpkg, key: name, table: soils.csv, tolerance: 4 t/ha}\n";
const std::string fields = "fields: {file: fields.gpkg}\n";
const std::string cover = "cover: {factor: 0.2}\n";

std::string remarks_of(const Layers& layers) {
    std::string all;
    for (const source::Remark& remark : layers.remarks) all += remark.code + ": " + remark.text + "\n";
    return all;
}

TEST(Watersheds, AreCutLikeMapsWithoutFieldsWhereNothingIsSaid) {
    const input::WatershedFile file = Maps().file(rain + soils + fields + cover);
    const SlopeMapOptions usual;
    EXPECT_NEAR(10000 * file.channel_ha, usual.rules.channel_from_m2, 1e-9);
    EXPECT_NEAR(file.longest_m, usual.rules.longest_slope_m, 1e-9);
}

TEST(Layers, SoilsOfPolygonsByTheirKey) {
    const Maps maps;
    const Layers layers = maps.layers(maps.file(rain + soils + fields + cover));
    EXPECT_NEAR(cell_factors(layers, 0, 0).K, 0.04, 1e-7);
    EXPECT_NEAR(cell_factors(layers, 3, 2).K, 0.02, 1e-7);
    EXPECT_TRUE(std::isnan(cell_factors(layers, 3, 3).K));
    EXPECT_NEAR(cell_factors(layers, 0, 0).loss(), 1000 * 0.04 * 0.2, 1e-4);
    EXPECT_THAT(remarks_of(layers), HasSubstr("soil-not-in-table: Map unit 'Z' (0.04 ha here) is not in soils.csv"));
    EXPECT_EQ(layers.soils.list[static_cast<std::size_t>(layers.soils.at(0, 0))].tolerance, 10);
    EXPECT_EQ(layers.soils.list[static_cast<std::size_t>(layers.soils.at(0, 2))].tolerance, 4);  // the watershed's
    EXPECT_EQ(loss_map(layers).missing[1], 4);
}

TEST(Layers, SoilsOfARasterByTheirClass) {
    const Maps maps;
    Made made{2, {7, 7, 9, 7}};
    made.width = 20, made.height = -20, made.type = GDT_Int32;
    raster::make_raster(maps.path + "/soils.tif", made);
    const Layers layers =
        maps.layers(maps.file(rain + "soils: {file: soils.tif, table: soils.csv}\n" + fields + cover));
    EXPECT_NEAR(cell_factors(layers, 0, 3).K, 0.03, 1e-7);
    EXPECT_TRUE(std::isnan(cell_factors(layers, 3, 0).K));
    EXPECT_THAT(remarks_of(layers), HasSubstr("Map unit '9' (0.04 ha here) is not in soils.csv"));
}

TEST(Layers, RainOfARasterInItsUnit) {
    const Maps maps;
    Made made{40, std::vector<double>(1600, 100)};
    made.west -= 180, made.north += 180;
    raster::make_raster(maps.path + "/r.tif", made);
    const Layers layers = maps.layers(maps.file("rain: {raster: r.tif, unit: US}\n" + soils + fields + cover));
    EXPECT_NEAR(cell_factors(layers, 1, 1).R, 1702, 0.5);  // 17.02: Foster et al. 1981, from memory
}

TEST(Layers, CoversOfSeveralYearsAreAveraged) {
    const Maps maps;
    Made one{4, std::vector<double>(16, 1)}, two{4, std::vector<double>(16, 5)};
    one.type = two.type = GDT_Byte;
    one.nodata = two.nodata = 0;
    two.values[0] = 0;  // no class that year
    two.values[1] = 9;  // a class that the table lacks
    raster::make_raster(maps.path + "/c1.tif", one);
    raster::make_raster(maps.path + "/c2.tif", two);
    const Layers layers =
        maps.layers(maps.file(rain + soils + fields + "cover: {rasters: [c1.tif, c2.tif], classes: classes.csv}\n"));
    EXPECT_NEAR(cell_factors(layers, 2, 2).C, 0.3, 1e-6);
    EXPECT_NEAR(cell_factors(layers, 0, 0).C, 0.4, 1e-6);
    EXPECT_TRUE(std::isnan(cell_factors(layers, 0, 1).C));
    EXPECT_THAT(remarks_of(layers), HasSubstr("class-not-in-table: Class 9 (0.01 ha"));
    EXPECT_THAT(remarks_of(layers), HasSubstr("fewer-years: On 0.01 ha"));
}

TEST(Layers, RastersOfCAreAveragedOverYearsAndCells) {
    const Maps maps;
    Made fine{8, std::vector<double>(64, 0.1)}, year{4, std::vector<double>(16, 0.3)};
    fine.width = 5, fine.height = -5;
    for (std::size_t i = 0; i < 64; i += 2) fine.values[i] = 0.5;  // 0.3 on average
    year.values[5] = 0.7;
    year.nodata = -1, year.values[6] = -1;
    raster::make_raster(maps.path + "/c1.tif", fine);
    raster::make_raster(maps.path + "/c2.tif", year);
    const Layers layers = maps.layers(maps.file(rain + soils + fields + "cover: {rasters: [c1.tif, c2.tif]}\n"));
    EXPECT_NEAR(cell_factors(layers, 0, 0).C, 0.3, 1e-5);
    EXPECT_NEAR(cell_factors(layers, 1, 1).C, 0.5, 1e-5);
    EXPECT_NEAR(cell_factors(layers, 1, 2).C, 0.3, 1e-5);
}

TEST(Layers, MapsInAnotherCoordinateSystemAreBroughtHere) {
    const Maps maps;
    // Degrees around the grid at 81 W (the zone's middle meridian, x = 500000), 39.75 N.
    Made degrees{2, {0.25, 0.25, 0.25, 0.25}};
    degrees.crs = "EPSG:4326", degrees.west = -81.001, degrees.north = 39.76, degrees.width = 0.01,
    degrees.height = -0.01;
    raster::make_raster(maps.path + "/c.tif", degrees);
    const Layers layers = maps.layers(maps.file(rain + soils + fields + "cover: {raster: c.tif}\n"));
    EXPECT_NEAR(cell_factors(layers, 0, 0).C, 0.25, 1e-6);
}

TEST(Layers, ClassesTakenForCAreRefused) {
    const Maps maps;
    raster::make_raster(maps.path + "/c.tif", Made{4, std::vector<double>(16, 5)});
    const input::WatershedFile file = maps.file(rain + soils + fields + "cover: {raster: c.tif}\n");
    try {
        maps.layers(file);
        FAIL();
    } catch (const raster::RasterError& error) {
        EXPECT_EQ(error.code(), "factor-range");
        EXPECT_THAT(error.what(), HasSubstr("Does it hold classes"));
    }
}

TEST(Layers, FieldsWithTheirColumns) {
    const Maps maps;
    input::WatershedFile file = maps.file(rain + soils + "fields: {file: fields.gpkg, name: name}\n" + cover);
    file.fields.tolerance = "id";
    file.fields.tolerance_unit = 2;
    const FieldMap map = read_fields(file, maps.placement);
    ASSERT_EQ(map.fields.size(), 2U);
    EXPECT_EQ(map.fields[0].polygon.name, "north");
    EXPECT_EQ(map.fields[0].tolerance, 6.0);
    EXPECT_FALSE(map.fields[1].tolerance);
    EXPECT_FALSE(map.fields[0].C);
    file.fields.cover = "name";
    EXPECT_THROW(read_fields(file, maps.placement), raster::RasterError);  // 'north' is no C
    file.fields.cover = "c";
    try {
        read_fields(file, maps.placement);
        FAIL();
    } catch (const raster::RasterError& error) {
        EXPECT_EQ(error.code(), "no-such-column");
    }
}

}  // namespace
}  // namespace soilhold::watershed
