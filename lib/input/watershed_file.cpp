#include "input/watershed_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <tuple>

#include "input/figure.h"
#include "input/file_text.h"
#include "input/watershed_layers.h"
#include "input/watershed_rotations.h"
#include "input/watershed_tests.h"

namespace soilhold::input {

namespace {

using units::Kind;

// Those of a map without fields (watershed/slope_map.h).
constexpr double usual_channel_ha = 2;
constexpr double usual_longest_m = 121.92;  // 400 ft
constexpr double most_longest_m = 304.8;    // 1000 ft

void read_rules(const Section& top, WatershedFile& file) {
    const Reader& reader = top.reader();
    file.channel_ha = usual_channel_ha;
    file.longest_m = usual_longest_m;
    if (const auto channel = figure(top, "channel", Kind::area)) {
        file.channel_ha = channel->stated.value;
        if (!(file.channel_ha > 0) || file.channel_ha > 10000)
            reader.mistake(channel->at, "range",
                           "The ground from which water gathers into a channel lies above 0 and up to 10000 ha; 1 to "
                           "20 ha is usual");
    }
    if (const auto longest = figure(top, "longest", Kind::length)) {
        file.longest_m = longest->stated.value;
        if (!(file.longest_m > 0) || file.longest_m > most_longest_m + 1e-9)
            reader.mistake(longest->at, "range",
                           "The longest slope lies above 0 and up to 1000 ft (304.8 m); 400 ft (122 m) is usual");
    }
    if (const auto visits = bare_figure(top, "visits")) {
        const double count = visits->stated.value;
        if (!(count >= 1) || count > 100000 || std::floor(count) != count)
            reader.mistake(visits->at, "range",
                           "'visits' is how many fields someone can go and see: a whole number from 1");
        else
            file.visits = static_cast<std::size_t>(count);
    }
    static constexpr auto relations = std::to_array<std::string_view>({"distance", "vanoni", "boyce", "scs"});
    if (const auto word = top.word("delivery", relations))
        file.delivery = static_cast<DeliverBy>(std::ranges::find(relations, *word) - relations.begin());
    static constexpr auto words =
        std::to_array<std::string_view>({"loss", "tons", "times t", "avoidable", "delivered"});
    if (const auto word = top.word("rank by", words)) {
        for (std::size_t i = 0; i < words.size(); ++i)
            if (words[i] == *word) file.rank_by = static_cast<RankBy>(i);
        if ((file.rank_by == RankBy::avoidable || file.rank_by == RankBy::delivered) && !top.has("offered"))
            reader.mistake(top.find("rank by")->at, "missing",
                           "What can be avoided needs practices on offer: add 'offered'");
    }
}

void read_sections(const Section& top, const Node& root, WatershedFile& file) {
    const Reader& reader = top.reader();
    const auto section = [&](std::string_view key, std::string_view name, auto read, const char* what) {
        if (const Node* node = top.find(key))
            read(Section(reader, name, node), file);
        else if (what != nullptr && !top.has(key))
            reader.mistake(top.at(), "missing", fmt::format("The watershed has no '{}': {}", key, what));
    };
    section("elevation", "elevation", read_elevation, "the raster of heights, {file: heights.tif}");
    if (const Entry* entry = entry_of(&root, "elevation")) {
        file.elevation.map.named_at = reader.document.place(entry->at);
        file.elevation.map.source_line = reader.document.source_line(entry->at.line);
    }
    section("rain", "rain of a watershed", read_watershed_rain, "R, {erosivity: 175 US} or {raster: ...}");
    section("soils", "soils", read_soils, "{file, key, table} of the soil survey, or one 'erodibility'");
    section("fields", "fields of a watershed", read_field_map, "the outlines of the fields, {file: fields.gpkg}");
    section("cover", "cover of a watershed", read_cover_map, nullptr);
    section("practice", "practice of a watershed", read_practice_map, nullptr);
    if (const Node* offered = top.find("offered")) read_offered(reader, *offered, file);
    read_watershed_rotations(top, file);
    read_watershed_tests(top, file);
    read_barriers(top, file);
    if (!top.has("cover") && file.fields.cover.empty() && file.fields.rotation.empty())
        reader.mistake(top.at(), "missing",
                       "The watershed has no cover factor C: give 'cover' ({factor: 0.2}, or rasters with classes), or "
                       "the column of the fields that holds it, 'cover' or 'rotation' in 'fields'");
}

}  // namespace

WatershedFile read_watershed(std::string_view yaml, const std::string& path) {
    WatershedFile file;
    file.path = path;
    Document document(yaml, name_of_file(path));
    const Node& root = document.root();
    if (!root.is_mapping() || entry_of(&root, "watershed") == nullptr) {
        document.mistake(root.at, "missing",
                         "This is no watershed file: it begins with 'watershed: NAME' and names its maps");
        throw InputError(document.mistakes());
    }
    const Reader reader{
        document, path == "-" ? "watershed file" : "watershed file " + std::filesystem::path(path).filename().string(),
        file.remarks};
    const Section top(reader, "watershed", &root);
    file.name = top.text("watershed").value_or("");
    read_rules(top, file);
    read_sections(top, root, file);
    if (!document.mistakes().empty()) {
        std::vector<Diagnostic> found = document.mistakes();
        std::ranges::stable_sort(found, [](const Diagnostic& a, const Diagnostic& b) {
            return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
        });
        throw InputError(std::move(found));
    }
    return file;
}

std::vector<Diagnostic> told_at_their_lines(const WatershedFile& file, std::vector<Diagnostic> mistakes) {
    std::vector<const MapFile*> maps = {&file.elevation.map, &file.fields.map};
    for (const auto* one : {&file.rain.raster, &file.soils.map, &file.practice.raster})
        if (*one) maps.push_back(&**one);
    for (const auto* list : {&file.cover.rasters, &file.barriers})
        for (const MapFile& map : *list) maps.push_back(&map);
    for (Diagnostic& one : mistakes)
        for (const MapFile* map : maps) {
            if (one.place.file != map->path || map->named_at.line == 0) continue;
            one.text = fmt::format("{}: {}", map->path, one.text);
            one.place = map->named_at;
            one.source_line = map->source_line;
            break;
        }
    return mistakes;
}

WatershedFile read_watershed_file(const std::string& path) { return read_watershed(text_of_file(path), path); }

}  // namespace soilhold::input
