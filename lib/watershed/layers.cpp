#include "watershed/layers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

#include "raster/layer.h"
#include "raster/onto.h"
#include "raster/raster_error.h"
#include "raster/shares.h"
#include "watershed/field_map.h"

namespace soilhold::watershed {

namespace {

using raster::Placement;
using terrain::Grid;

std::string short_name(const std::string& path) { return std::filesystem::path(path).filename().string(); }

void add(source::Remarks& to, const source::Remarks& more) { to.insert(to.end(), more.begin(), more.end()); }

void caution(source::Remarks& to, const char* code, const std::string& text, const std::string& place) {
    to.push_back({source::Weight::caution, code, text, place});
}

double cell_ha(const Placement& placement) {
    const double cell_m = raster::shape_of(placement).cell_m;
    return cell_m * cell_m / 10000;
}

Grid<float> values(const input::MapFile& map, const Placement& placement, raster::Between how,
                   source::Remarks& remarks) {
    raster::OntoOptions options;
    options.crs = map.crs;
    raster::Values read = raster::values_onto(map.path, placement, how, options);
    add(remarks, read.remarks);
    return std::move(read.grid);
}

Factor rain(const input::RainGiven& given, const Placement& placement, source::Remarks& remarks) {
    Factor R{"R", {}, terrain::no_value, {}};
    if (given.erosivity) {
        R.value = static_cast<float>(given.erosivity->value);
        R.origin = given.erosivity->origin;
        return R;
    }
    R.origin = given.raster->origin;
    R.grid = values(*given.raster, placement, raster::Between::bilinear, remarks);
    for (float& value : R.grid->values()) value *= static_cast<float>(given.raster_unit);
    return R;
}

/// The soils' table as a list, and the place of each key in it.
struct SoilList {
    std::vector<Soil> list;
    std::map<std::string, std::int32_t> place;
    std::map<std::string, double> unknown_ha;  ///< by key that the table lacks
    std::int32_t of(const std::string& key) const {
        const auto found = place.find(key);
        return found == place.end() ? -1 : found->second;
    }
};

SoilList listed(const input::SoilsGiven& given) {
    SoilList soils;
    for (const auto& [key, unit] : given.table.units) {
        soils.place[key] = static_cast<std::int32_t>(soils.list.size());
        soils.list.push_back({key, static_cast<float>(unit.K),
                              unit.tolerance ? static_cast<float>(*unit.tolerance) : terrain::no_value, unit.words});
    }
    return soils;
}

/// Each cell gets the map unit that covers most of it; of equal ones the first in the file.
Grid<std::int32_t> soils_of_polygons(const input::SoilsGiven& given, const Placement& placement, SoilList& soils,
                                     source::Remarks& remarks) {
    raster::PolygonOptions options;
    options.layer = given.map->layer;
    options.name_column = given.key;
    options.sliver_m = 0;
    options.compare = false;
    const raster::Polygons map = raster::read_polygons(given.map->path, placement, options);
    const terrain::Shape shape = raster::shape_of(placement);
    Grid<std::int32_t> grid(shape, -1);
    Grid<float> most(shape, 0);
    for (const raster::Polygon& polygon : map.polygons) {
        for (const source::Remark& remark : polygon.remarks)
            if (remark.code == "polygon-repaired") remarks.push_back(remark);
        const auto attribute = polygon.attributes.find(given.key);
        const std::string key = attribute == polygon.attributes.end() ? "" : text_of(attribute->second);
        const std::int32_t soil = soils.of(key);
        double area = 0;
        for (const raster::Share& run : raster::area_shares(polygon.parts, placement)) {
            area += run.share * static_cast<double>(run.cells);
            for (std::int64_t i = 0; i < run.cells; ++i) {
                float& before = most(run.row, run.column + i);
                if (static_cast<float>(run.share) <= before) continue;
                before = static_cast<float>(run.share);
                grid(run.row, run.column + i) = soil;
            }
        }
        if (soil < 0) soils.unknown_ha[key.empty() ? "(blank)" : key] += area * cell_ha(placement);
    }
    return grid;
}

Grid<std::int32_t> soils_of_raster(const input::SoilsGiven& given, const Placement& placement, SoilList& soils,
                                   source::Remarks& remarks) {
    raster::OntoOptions options;
    options.crs = given.map->crs;
    raster::Classes read = raster::classes_onto(given.map->path, placement, options);
    add(remarks, read.remarks);
    std::map<std::int32_t, std::int32_t> places;
    std::map<std::int32_t, std::int64_t> unknown;
    for (std::int32_t& value : read.grid.values()) {
        if (value == raster::no_class) {
            value = -1;
            continue;
        }
        auto [found, fresh] = places.try_emplace(value, -1);
        if (fresh) found->second = soils.of(std::to_string(value));
        if (found->second < 0) ++unknown[value];
        value = found->second;
    }
    for (const auto& [key, cells] : unknown)
        soils.unknown_ha[std::to_string(key)] = static_cast<double>(cells) * cell_ha(placement);
    return std::move(read.grid);
}

void say_unknown_soils(const input::SoilsGiven& given, const SoilList& soils, source::Remarks& remarks) {
    for (const auto& [key, area] : soils.unknown_ha) {
        const bool blank = std::ranges::find(given.table.without_K, key) != given.table.without_K.end();
        remarks.push_back(
            {blank ? source::Weight::note : source::Weight::caution, blank ? "soil-without-k" : "soil-not-in-table",
             blank ? fmt::format("Map unit '{}' ({:.3g} ha here) has no erodibility in {}: no loss is worked there.",
                                 key, area, short_name(given.table_path))
                   : fmt::format("Map unit '{}' ({:.3g} ha here) is not in {}: no loss is worked there.", key, area,
                                 short_name(given.table_path)),
             given.map->path});
    }
}

Soils soils(const input::SoilsGiven& given, const Placement& placement, source::Remarks& remarks) {
    Soils result;
    if (given.erodibility) {
        result.list.push_back({"", static_cast<float>(given.erodibility->value),
                               given.tolerance ? static_cast<float>(given.tolerance->value) : terrain::no_value,
                               given.whole});
        result.origin = given.erodibility->origin;
        return result;
    }
    SoilList list = listed(given);
    result.origin = given.map->origin;
    result.grid = given.key.empty() ? soils_of_raster(given, placement, list, remarks)
                                    : soils_of_polygons(given, placement, list, remarks);
    say_unknown_soils(given, list, remarks);
    result.list = std::move(list.list);
    for (Soil& soil : result.list)
        if (given.tolerance && std::isnan(soil.tolerance)) soil.tolerance = static_cast<float>(given.tolerance->value);
    return result;
}

/// C of each year by its class, averaged over the years that have one. A class that the table lacks leaves a gap.
Grid<float> cover_by_class(const input::CoverGiven& given, const Placement& placement, source::Remarks& remarks) {
    const terrain::Shape shape = raster::shape_of(placement);
    Grid<float> sum(shape, 0);
    Grid<std::uint8_t> years(shape, 0);
    std::map<std::int32_t, std::int64_t> unknown;
    for (const input::MapFile& map : given.rasters) {
        raster::OntoOptions options;
        options.crs = map.crs;
        const raster::Classes read = raster::classes_onto(map.path, placement, options);
        add(remarks, read.remarks);
        for (std::size_t i = 0; i < sum.values().size(); ++i) {
            const std::int32_t klass = read.grid.values()[i];
            if (klass == raster::no_class) continue;
            const auto found = given.classes.find(klass);
            if (found == given.classes.end()) {
                ++unknown[klass];
                sum.values()[i] = terrain::no_value;
                continue;
            }
            sum.values()[i] += static_cast<float>(found->second.C);
            ++years.values()[i];
        }
    }
    std::int64_t fewer = 0;
    for (std::size_t i = 0; i < sum.values().size(); ++i) {
        const std::uint8_t count = years.values()[i];
        sum.values()[i] = count > 0 ? sum.values()[i] / static_cast<float>(count) : terrain::no_value;
        if (!std::isnan(sum.values()[i]) && count < given.rasters.size()) ++fewer;
    }
    for (const auto& [klass, cells] : unknown)
        caution(remarks, "class-not-in-table",
                fmt::format("Class {} ({:.3g} ha, all years) is not in {}: no loss is worked there.", klass,
                            static_cast<double>(cells) * cell_ha(placement), short_name(given.classes_path)),
                given.classes_path);
    if (fewer > 0)
        caution(remarks, "fewer-years",
                fmt::format("On {:.3g} ha a year or more has no class; C is the mean of the years that have one.",
                            static_cast<double>(fewer) * cell_ha(placement)),
                given.rasters.front().path);
    return sum;
}

/// The mean of rasters that hold C itself, over the years that have a value.
Grid<float> cover_values(const input::CoverGiven& given, const Placement& placement, source::Remarks& remarks) {
    Grid<float> sum = values(given.rasters.front(), placement, raster::Between::average, remarks);
    if (given.rasters.size() == 1) return sum;
    Grid<std::uint8_t> years(sum.shape(), 0);
    for (std::size_t year = 0; year < given.rasters.size(); ++year) {
        const Grid<float> one =
            year == 0 ? sum : values(given.rasters[year], placement, raster::Between::average, remarks);
        for (std::size_t i = 0; i < sum.values().size(); ++i) {
            if (year == 0 && std::isnan(sum.values()[i])) sum.values()[i] = 0;
            if (std::isnan(one.values()[i])) continue;
            if (year > 0) sum.values()[i] += one.values()[i];
            ++years.values()[i];
        }
    }
    for (std::size_t i = 0; i < sum.values().size(); ++i)
        sum.values()[i] =
            years.values()[i] > 0 ? sum.values()[i] / static_cast<float>(years.values()[i]) : terrain::no_value;
    return sum;
}

Factor cover(const input::WatershedFile& file, const Placement& placement, source::Remarks& remarks) {
    Factor C{"C", {}, terrain::no_value, {}};
    const input::CoverGiven& given = file.cover;
    if (given.factor) {
        C.value = static_cast<float>(given.factor->value);
        C.origin = given.factor->origin;
    } else if (!given.rasters.empty()) {
        C.origin = given.rasters.front().origin;
        C.grid =
            given.classes.empty() ? cover_values(given, placement, remarks) : cover_by_class(given, placement, remarks);
    } else {
        C.origin = file.fields.map.origin;
    }
    return C;
}

Factor practice(const input::PracticeGiven& given, const Placement& placement, source::Remarks& remarks) {
    Factor P{"P", {}, 1, {"no practice given: 1", "", source::Standing::our_assumption}};
    if (given.factor) {
        P.value = static_cast<float>(given.factor->value);
        P.origin = given.factor->origin;
    } else if (given.raster) {
        P.grid = values(*given.raster, placement, raster::Between::average, remarks);
        P.origin = given.raster->origin;
    }
    return P;
}

/// A raster whose values can't be the factor is most often one of classes, or in percent.
void check_range(const Factor& factor, double most, const std::string& path) {
    if (!factor.grid) return;
    for (const float value : factor.grid->values())
        if (value < 0 || static_cast<double>(value) > most)
            throw raster::RasterError(
                path, "factor-range",
                fmt::format("it holds {:g}, and {} lies between 0 and {:g}. Does it hold classes, "
                            "percent or another unit?",
                            value, factor.symbol, most));
}

}  // namespace

Layers read_layers(const input::WatershedFile& file, const Placement& placement, Grid<float> LS) {
    Layers layers{std::move(LS), {}, {}, {}, {}, {}};
    layers.R = rain(file.rain, placement, layers.remarks);
    layers.soils = soils(file.soils, placement, layers.remarks);
    layers.C = cover(file, placement, layers.remarks);
    layers.P = practice(file.practice, placement, layers.remarks);
    if (file.rain.raster) check_range(layers.R, 30000, file.rain.raster->path);
    if (!file.cover.rasters.empty()) check_range(layers.C, 1.2, file.cover.rasters.front().path);
    if (file.practice.raster) check_range(layers.P, 1, file.practice.raster->path);
    return layers;
}

}  // namespace soilhold::watershed
