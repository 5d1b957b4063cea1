// soilhold-made-watershed FOLDER [SEED]: makes the demo watershed, maps and all, in a folder. The same seed gives the
// same bytes. The small texts beside the maps (watershed.yaml, soils.csv, classes.csv, soak-1.yaml to soak-4.yaml) are
// copied from data/demo/.
#include <fmt/format.h>

#include <charconv>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

#include "land.h"
#include "noise.h"
#include "parcels.h"
#include "raster/atomic_file.h"

namespace {

using namespace soilhold;

std::string coordinates(const raster::Ring& points) {
    std::string text;
    for (const raster::Point& point : points)
        text += fmt::format("{}[{:.2f},{:.2f}]", text.empty() ? "" : ",", point.x, point.y);
    return text;
}

/// A file of features in the map's coordinate system, which old GeoJSON could name and readers still understand.
void write_features(const std::filesystem::path& path, const std::string& features) {
    std::ofstream file(path, std::ios::binary);
    file << "{\"type\":\"FeatureCollection\",\n\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"urn:ogc:def:crs:"
            "EPSG::"
            "32617\"}},\n\"features\":[\n"
         << features << "\n]}\n";
    file.close();
    if (!file) throw std::runtime_error(fmt::format("'{}' could not be written.", path.string()));
}

std::string feature(const std::string& properties, const std::string& kind, const std::string& points) {
    return fmt::format(
        "{{\"type\":\"Feature\",\"properties\":{{{}}},\"geometry\":{{\"type\":\"{}\",\"coordinates\":{}}}}}",
        properties, kind, points);
}

std::string text_or_null(const std::string& text) { return text.empty() ? "null" : "\"" + text + "\""; }

void write_fields(const std::filesystem::path& folder, const std::vector<made::Parcel>& parcels) {
    std::string features;
    for (const made::Parcel& one : parcels)
        if (one.field)
            features += (features.empty() ? "" : ",\n") +
                        feature(fmt::format("\"name\":\"{}\",\"hectares\":{:.4f},\"P\":{:.2f},\"tillage\":\"{}\","
                                            "\"rotation\":{},\"soak\":{}",
                                            one.name, one.hectares, one.practice, one.tillage,
                                            text_or_null(one.rotation), text_or_null(one.soak)),
                                "Polygon", "[[" + coordinates(one.ring) + "]]");
    write_features(folder / "fields.geojson", features);
}

void write_soils(const std::filesystem::path& folder, std::uint64_t seed) {
    std::string features;
    for (const made::Soil& one : made::soils(seed))
        features += (features.empty() ? "" : ",\n") +
                    feature(fmt::format("\"unit\":\"{}\"", one.unit), "Polygon", "[[" + coordinates(one.ring) + "]]");
    write_features(folder / "soils.geojson", features);
}

/// A road on the north side of the stream, 400 m from it, and one across the valley.
void write_roads(const std::filesystem::path& folder, std::uint64_t seed) {
    const raster::Placement place = made::placement();
    raster::Ring along, across;
    for (double east = 0; east <= 16000; east += 200)
        along.push_back({place.west + east, place.south() + made::stream_north(seed, east) + 400});
    for (double north = 0; north <= 12500; north += 250)
        across.push_back({place.west + 7300 + 300 * made::noise(seed + 9, north / 3000, 0.5), place.south() + north});
    write_features(folder / "roads.geojson",
                   feature("\"name\":\"Valley Road\"", "LineString", "[" + coordinates(along) + "]") + ",\n" +
                       feature("\"name\":\"Cross Lane\"", "LineString", "[" + coordinates(across) + "]"));
}

/// The crop that covers most of each cell, one raster a year.
void write_crops(const std::filesystem::path& folder, const std::vector<made::Parcel>& parcels) {
    const raster::Placement place = made::placement();
    terrain::Grid<float> most(raster::shape_of(place), 0.0F);
    terrain::Grid<std::uint16_t> owner(raster::shape_of(place));
    for (std::size_t i = 0; i < parcels.size(); ++i)
        for (const raster::Share& share : raster::area_shares({{parcels[i].ring, {}}}, place))
            for (std::int64_t c = share.column; c < share.column + share.cells; ++c)
                if (const auto part = static_cast<float>(share.share); part > most(share.row, c)) {
                    most(share.row, c) = part;
                    owner(share.row, c) = static_cast<std::uint16_t>(i);
                }
    raster::WriteOptions options;
    options.no_class = 0;
    options.description = "crop";
    terrain::Grid<std::uint8_t> crops(raster::shape_of(place));
    for (std::size_t year = 0; year < made::years; ++year) {
        for (std::size_t cell = 0; cell < crops.values().size(); ++cell)
            crops.values()[cell] = static_cast<std::uint8_t>(parcels[owner.values()[cell]].crops[year]);
        raster::write_classes((folder / fmt::format("crop-{}.tif", 2023 + year)).string(), crops, place, options);
    }
}

void make(const std::filesystem::path& folder, std::uint64_t seed) {
    std::filesystem::create_directories(folder);
    for (const char* text :
         {"watershed.yaml", "soils.csv", "classes.csv", "soak-1.yaml", "soak-2.yaml", "soak-3.yaml", "soak-4.yaml"})
        std::filesystem::copy_file(std::filesystem::path(SOILHOLD_DEMO_WATERSHED) / text, folder / text,
                                   std::filesystem::copy_options::overwrite_existing);
    raster::WriteOptions options;
    options.unit = "m";
    options.description = "height";
    options.zstd_level = 3;
    raster::write_values((folder / "heights.tif").string(), made::heights(seed), made::placement(), options);
    std::vector<made::Parcel> parcels = made::parcels(seed);
    write_crops(folder, parcels);
    const std::vector<made::Parcel> awkward = made::awkward_parcels(parcels);
    parcels.insert(parcels.end(), awkward.begin(), awkward.end());
    write_fields(folder, parcels);
    write_soils(folder, seed);
    write_roads(folder, seed);
}

}  // namespace

int main(int count, char** words) {
    std::uint64_t seed = 1;
    bool good = count == 2 || count == 3;
    if (count == 3) {
        const std::string text = words[2];
        const auto read = std::from_chars(text.data(), text.data() + text.size(), seed);
        good = read.ec == std::errc() && read.ptr == text.data() + text.size();
    }
    if (!good) {
        std::fputs("soilhold-made-watershed FOLDER [SEED]\nMakes the demo watershed in the folder.\n", stderr);
        return 2;
    }
    try {
        make(words[1], seed);
    } catch (const std::exception& failure) {
        fmt::print(stderr, "The demo watershed was not made: {}\n", failure.what());
        return 1;
    }
    return 0;
}
