#include "input/watershed_layers.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

#include "input/figure.h"
#include "units/reading.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

using units::Kind;

std::string beside_path(const std::string& name, const std::string& beside) {
    std::filesystem::path target(name);
    if (target.is_relative() && beside != "-") target = std::filesystem::path(beside).parent_path() / target;
    return target.string();
}

/// A file named by a node; empty where it can't be had.
std::string found_file(const Reader& reader, const Node& node, std::string_view key, const std::string& beside,
                       const char* what = "Files lie beside this one") {
    const auto name = scalar_text(reader, node, key);
    if (!name) return "";
    if (name->starts_with("/vsi")) return *name;  // inside an archive; opened by those who can
    const std::string path = beside_path(*name, beside);
    std::error_code error;
    if (!std::filesystem::exists(path, error)) {
        reader.mistake(node.at, "no-file", fmt::format("There is no file '{}'. {}", path, what));
        return "";
    }
    return path;
}

MapFile named(const Section& section, const Node& node, const std::string& path, const source::Origin& origin) {
    const Document& document = section.reader().document;
    return {path, document.place(node.at), document.source_line(node.at.line), "", "", origin};
}

std::string column(const Section& section, std::string_view key) { return section.text(key).value_or(""); }

/// C or P in range.
std::optional<double> factor_in(const Section& section, std::string_view key, double most) {
    const auto figure = bare_figure(section, key);
    if (!figure) return std::nullopt;
    const double value = figure->stated.value;
    if (value >= 0 && value <= most) return value;
    section.reader().mistake(figure->at, "range",
                             fmt::format("'{}' of {:g} can't be right; it lies between 0 and {:g}", key, value, most));
    return std::nullopt;
}

std::optional<OneFigure> one_factor(const Section& section, std::string_view key, double most) {
    const auto value = factor_in(section, key, most);
    if (!value) return std::nullopt;
    return OneFigure{*value, section.origin(*section.find(key), key)};
}

void one_of(const Section& section, int ways, const char* what) {
    if (ways == 0) section.reader().mistake(section.at(), "missing", fmt::format("Give {}", what));
    if (ways > 1) section.reader().mistake(section.at(), "one-of", fmt::format("Give {}, and only one of them", what));
}

}  // namespace

std::optional<MapFile> map_file(const Section& section, std::string_view key, const std::string& beside) {
    const Node* node = section.find(key);
    if (node == nullptr) return std::nullopt;
    const std::string path = found_file(section.reader(), *node, key, beside);
    if (path.empty()) return std::nullopt;
    return named(section, *node, path, section.origin(*node, key));
}

std::vector<MapFile> map_files(const Section& section, std::string_view key, const std::string& beside) {
    std::vector<MapFile> files;
    const Node* node = section.find(key);
    if (node == nullptr) return files;
    if (!node->is_list()) {
        if (auto one = map_file(section, key, beside)) files.push_back(std::move(*one));
        return files;
    }
    if (node->items.empty() || node->items.size() > 100)
        section.reader().mistake(node->at, "not-a-list", fmt::format("'{}' is a list of 1 to 100 files", key));
    for (const Node& item : node->items) {
        const std::string path = found_file(section.reader(), item, key, beside);
        if (!path.empty()) files.push_back(named(section, item, path, section.origin(*node, key)));
    }
    return files;
}

namespace {

void read_pits(const Section& section, PitsGiven& pits) {
    const Reader& reader = section.reader();
    static constexpr auto words = std::to_array<std::string_view>({"fill", "breach"});
    pits.breach = section.word("pits", words) == "breach";
    const auto limit = [&](const char* key, double most_m, const char* range) -> std::optional<double> {
        const auto given = figure(section, key, Kind::length);
        if (!given) return std::nullopt;
        const double metres = given->stated.value;
        if (!pits.breach)
            reader.mistake(given->at, "missing",
                           fmt::format("'{}' holds for pits that are cut open: add 'pits: breach'", key));
        else if (!(metres > 0) || metres > most_m)
            reader.mistake(given->at, "range", range);
        return metres;
    };
    pits.longest_cut_m = limit("longest cut", 2000, "The longest cut lies above 0 and up to 2000 m; 100 m is usual");
    pits.deepest_cut_m = limit("deepest cut", 100, "The deepest cut lies above 0 and up to 100 m; 3 m is usual");
}

}  // namespace

void read_elevation(const Section& section, WatershedFile& file) {
    const Reader& reader = section.reader();
    ElevationGiven& given = file.elevation;
    if (auto map = map_file(section, "file", file.path))
        given.map = std::move(*map);
    else if (!section.has("file"))
        reader.mistake(section.at(), "missing", "'elevation' names no 'file'");
    given.map.crs = column(section, "crs");
    given.project = column(section, "project");
    given.height_unit = column(section, "heights");
    given.cell_unit = column(section, "cells");
    if (const auto cell = figure(section, "cell", Kind::length)) {
        given.cell_m = cell->stated.value;
        if (!(*given.cell_m > 0) || *given.cell_m > 1000)
            reader.mistake(cell->at, "range", "The working cell lies above 0 and up to 1000 m");
    }
    if (const auto nodata = bare_figure(section, "nodata")) given.nodata = nodata->stated.value;
    if (const auto band = bare_figure(section, "band")) {
        given.band = static_cast<int>(band->stated.value);
        if (!(band->stated.value >= 1) || band->stated.value > 1000 ||
            std::floor(band->stated.value) != band->stated.value)
            reader.mistake(band->at, "range", "'band' is a whole number from 1");
    }
    read_pits(section, given.pits);
}

void read_watershed_rain(const Section& section, WatershedFile& file) {
    const Reader& reader = section.reader();
    one_of(section, int(section.has("erosivity")) + int(section.has("raster")),
           "R as 'erosivity', like 175 US, or a 'raster' of it");
    if (const auto R = figure(section, "erosivity", Kind::erosivity)) {
        file.rain.erosivity = OneFigure{R->stated.value, R->stated.origin};
        const double us = R->stated.value / units::erosivity_si_per_us;
        if (!(us > 0))
            reader.mistake(R->at, "range", "R is above 0");
        else if (us > 700 && !R->confirmed)
            reader.mistake(
                R->at, "erosivity-high",
                fmt::format("R of {:.0f} US is more than almost any farmland has. Correct the unit, or write "
                            "{{value: ..., confirmed: yes}} if it is right",
                            us));
    }
    if (auto raster = map_file(section, "raster", file.path)) {
        raster->crs = column(section, "crs");
        file.rain.raster = std::move(raster);
    }
    if (!section.has("raster")) return;
    static constexpr auto words = std::to_array<std::string_view>({"us", "si"});
    if (const auto unit = section.word("unit", words))
        file.rain.raster_unit = *unit == "us" ? units::erosivity_si_per_us : 1.0;
    else if (!section.has("unit"))
        reader.mistake(section.at(), "no-unit",
                       "The raster of R needs its 'unit': US (hundreds of foot-tons inch/(acre hour year)) or SI (MJ "
                       "mm/(ha h yr)); 1 US is 17.02 SI");
}

void read_soils(const Section& section, WatershedFile& file) {
    const Reader& reader = section.reader();
    SoilsGiven& soils = file.soils;
    one_of(section, int(section.has("file")) + int(section.has("erodibility")),
           "the 'file' of a soil map with its 'table', or one 'erodibility' for the whole watershed");
    if (auto map = map_file(section, "file", file.path)) {
        map->layer = column(section, "layer");
        map->crs = column(section, "crs");
        soils.map = std::move(map);
    }
    soils.key = column(section, "key");
    static constexpr auto ways = std::to_array<std::string_view>({"dominant", "weighted"});
    if (section.word("components", ways) == "weighted") soils.components = Components::weighted;
    static constexpr auto unit_words = std::to_array<std::string_view>({"us", "si"});
    const std::string unit = section.word("unit", unit_words).value_or("");
    if (const auto K = figure(section, "erodibility", Kind::erodibility)) {
        soils.erodibility = OneFigure{K->stated.value, K->stated.origin};
        if (!(K->stated.value > 0) || K->stated.value > units::erodibility_si_per_us)
            reader.mistake(K->at, "range", "K lies between 0.02 and 0.7 US (0.003 and 0.09 SI)");
    }
    if (const auto T = figure(section, "tolerance", Kind::soil_loss)) {
        soils.tolerance = OneFigure{T->stated.value, T->stated.origin};
        if (!(T->stated.value > 0) || T->stated.value > 50)
            reader.mistake(T->at, "range", "T lies between 1 and 5 t/ac (2 and 11 t/ha)");
    }
    for (const auto& [key, to] :
         {std::pair{"clay", &soils.whole.clay_pct}, std::pair{"organic matter", &soils.whole.organic_matter_pct}})
        *to = percent(section, key);
    soils.whole.texture = column(section, "texture");
    if (section.has("file"))
        for (const std::string_view key : {"clay", "organic matter", "texture"})
            if (const Node* node = section.find(key))
                reader.mistake(node->at, "one-of", fmt::format("With a soil map, '{}' is a column of its table", key));
    if (!section.has("file")) return;
    const auto table = map_file(section, "table", file.path);
    if (!section.has("table"))
        reader.mistake(section.at(), "missing",
                       "The soil map needs a 'table': a CSV with the columns key, erodibility US (or SI), and if there "
                       "are several soils to a map unit, share");
    if (!table) return;
    soils.table_path = table->path;
    try {
        const std::string symbol = unit == "us" ? "US" : unit == "si" ? "SI" : "";
        soils.table = read_soil_table(table->path, symbol, soils.components);
        file.remarks.insert(file.remarks.end(), soils.table.remarks.begin(), soils.table.remarks.end());
    } catch (const InputError& error) {
        reader.document.adopt(error.diagnostics);
    }
}

void read_field_map(const Section& section, WatershedFile& file) {
    const Reader& reader = section.reader();
    FieldsGiven& fields = file.fields;
    if (auto map = map_file(section, "file", file.path))
        fields.map = std::move(*map);
    else if (!section.has("file"))
        reader.mistake(section.at(), "missing", "'fields' names no 'file' of outlines");
    fields.map.layer = column(section, "layer");
    fields.name = column(section, "name");
    fields.cover = column(section, "cover");
    fields.rotation = column(section, "rotation");
    fields.practice = column(section, "practice");
    fields.tillage = column(section, "tillage");
    fields.tolerance = column(section, "tolerance");
    fields.tests = column(section, "soil tests");
    const Node* unit = section.find("tolerance unit");
    if (unit != nullptr) {
        const auto symbol = scalar_text(reader, *unit, "tolerance unit");
        const units::Unit* known = symbol ? units::find_unit(Kind::soil_loss, *symbol) : nullptr;
        if (known != nullptr)
            fields.tolerance_unit = known->factor;
        else if (symbol)
            reader.mistake(unit->at, "unknown-unit", fmt::format("'{}' is no unit of T; write t/ac or t/ha", *symbol));
    } else if (!fields.tolerance.empty() && !section.has("tolerance unit")) {
        reader.mistake(section.find("tolerance")->at, "no-unit",
                       "The column of T needs its 'tolerance unit': t/ac or t/ha");
    }
}

void read_cover_map(const Section& section, WatershedFile& file) {
    CoverGiven& cover = file.cover;
    one_of(section, int(section.has("factor")) + int(section.has("raster")) + int(section.has("rasters")),
           "C as 'factor', as one 'raster', or as 'rasters' of several years");
    cover.factor = one_factor(section, "factor", 1.2);
    cover.rasters = map_files(section, section.has("rasters") ? "rasters" : "raster", file.path);
    for (MapFile& raster : cover.rasters) raster.crs = column(section, "crs");
    static constexpr auto credits = std::to_array<std::string_view>({"tilled", "reduced", "no-till"});
    if (const auto word = section.word("credits", credits))
        cover.credits = static_cast<structure::Credited>(std::ranges::find(credits, *word) - credits.begin());
    const auto classes = map_file(section, "classes", file.path);
    if (!classes) return;
    cover.classes_path = classes->path;
    try {
        cover.classes = read_cover_classes(classes->path);
    } catch (const InputError& error) {
        section.reader().document.adopt(error.diagnostics);
    }
}

void read_practice_map(const Section& section, WatershedFile& file) {
    one_of(section, int(section.has("factor")) + int(section.has("raster")), "P as 'factor' or as a 'raster' of it");
    file.practice.factor = one_factor(section, "factor", 1);
    if (auto raster = map_file(section, "raster", file.path)) {
        raster->crs = column(section, "crs");
        file.practice.raster = std::move(raster);
    }
}

void read_barriers(const Section& top, WatershedFile& file) {
    const Node* node = top.find("barriers");
    if (node == nullptr) return;
    const auto take = [&](const Node& item) {
        if (item.is_scalar() && lower_case(item.text) == "field edges") {
            file.field_edges = true;
            return;
        }
        const std::string path =
            found_file(top.reader(), item, "barriers", file.path,
                       "A barrier is a file of lines or areas beside this one, or the words 'field edges'");
        if (!path.empty()) file.barriers.push_back(named(top, item, path, top.origin(item, "barriers")));
    };
    if (!node->is_list()) return take(*node);
    if (node->items.empty() || node->items.size() > 100)
        top.reader().mistake(node->at, "not-a-list", "'barriers' is a list of 1 to 100: files, or 'field edges'");
    for (const Node& item : node->items) take(item);
}

void read_offered(const Reader& reader, const Node& list, WatershedFile& file) {
    if (!list.is_list() || list.items.empty() || list.items.size() > 50) {
        reader.mistake(list.at, "not-a-list", "'offered' is a list of 1 to 50 practices, each '- practice: NAME'");
        return;
    }
    for (const Node& item : list.items) {
        const Section section(reader, "practice on offer", &item);
        if (!item.is_mapping()) continue;
        Offered one;
        one.name = section.text("practice").value_or("");
        if (!section.has("practice"))
            reader.mistake(item.at, "missing", "This practice has no name: begin it with 'practice: ...'");
        if (int(section.has("cover factor")) + int(section.has("times")) + int(section.has("rotation")) > 1)
            reader.mistake(item.at, "one-of",
                           "Give the 'cover factor' that it has, the 'times' it makes of C, or its 'rotation'; one of "
                           "them");
        one.cover_factor = factor_in(section, "cover factor", 1.2);
        one.times = factor_in(section, "times", 10);
        one.rotation = section.text("rotation").value_or("");
        if (!one.rotation.empty()) one.rotation_at = section.find("rotation")->at;
        one.practice_factor = factor_in(section, "practice factor", 1);
        if (!section.has("cover factor") && !section.has("times") && !section.has("rotation") &&
            !section.has("practice factor"))
            reader.mistake(item.at, "missing",
                           "Say what it does: 'cover factor' (C with it), 'times' (C times this), 'rotation' (one of "
                           "the list) or 'practice factor' (P with it)");
        one.origin = {reader.default_from, "", source::Standing::users_figure};
        if (const auto from = section.text("from")) one.origin.from = *from;
        for (const Offered& other : file.offered)
            if (!one.name.empty() && other.name == one.name)
                reader.mistake(item.at, "same-name", fmt::format("A practice '{}' is on offer already", one.name));
        file.offered.push_back(std::move(one));
    }
}

}  // namespace soilhold::input
