#include "watershed/watershed_work.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "raster/height_unit.h"
#include "raster/heights_file.h"
#include "raster/raster_error.h"
#include "terrain/flow_distance.h"
#include "watershed/field_map.h"
#include "watershed/layers.h"
#include "watershed/slope_map.h"
#include "watershed/watershed_memory.h"

namespace soilhold::watershed {

namespace {

using terrain::Grid;

std::string short_name(const std::string& path) { return std::filesystem::path(path).filename().string(); }

std::optional<raster::LengthUnit> unit_of(const input::WatershedFile& file, const std::string& text, const char* key) {
    if (text.empty()) return std::nullopt;
    const auto unit = raster::length_unit(text);
    if (!unit)
        throw raster::RasterError(
            file.path, "unknown-unit",
            fmt::format("'{}' of 'elevation' is '{}', no unit of length. Write m or ft.", key, text));
    return unit;
}

SlopeMapOptions slope_options(const input::WatershedFile& file, int threads) {
    SlopeMapOptions options;
    options.elevation = elevation_options(file);
    for (const input::MapFile& barrier : file.barriers) options.barriers.push_back(barrier.path);
    if (file.field_edges) options.fields = FieldGround{file.fields.map.path, file.fields.map.layer};
    options.rules.longest_slope_m = file.longest_m;
    options.rules.channel_from_m2 = 10000 * file.channel_ha;
    options.channel_word = "'channel'";
    if (file.elevation.pits.breach) {
        options.pits.cuts.emplace();
        if (const auto longest = file.elevation.pits.longest_cut_m) options.pits.cuts->longest_m = *longest;
        if (const auto deepest = file.elevation.pits.deepest_cut_m) options.pits.cuts->deepest_m = *deepest;
    }
    options.pits.breach = "'pits: breach' under 'elevation'";
    options.pits.longest = "'longest cut'";
    options.pits.deepest = "'deepest cut'";
    options.threads = threads;
    return options;
}

/// What the ranking needs of the heights.
struct Ground {
    SlopeMapResult made;
    Grid<float> slope_factor;
    Ways ways;
};

Ground ground_of(const input::WatershedFile& file, int threads, const std::function<bool(double)>& progress) {
    Ground ground;
    Grid<terrain::Direction> directions;
    Grid<std::uint8_t> channels;
    MapTakers takers;
    takers.placed = [&](const raster::Placement&, const terrain::Shape& shape) {
        directions = Grid<terrain::Direction>(shape, terrain::Unset{});
        channels = Grid<std::uint8_t>(shape, terrain::Unset{});
        ground.slope_factor = Grid<float>(shape, terrain::Unset{});
    };
    takers.directions = [&](std::int64_t row, const Grid<std::uint8_t>& strip) {
        std::ranges::transform(strip.values(), &directions(row, 0),
                               [](std::uint8_t way) { return static_cast<terrain::Direction>(way); });
    };
    takers.channels = [&](std::int64_t row, const Grid<std::uint8_t>& strip) {
        std::ranges::copy(strip.values(), &channels(row, 0));
    };
    takers.slope_factor = [&](std::int64_t row, const Grid<float>& strip) {
        std::ranges::copy(strip.values(), &ground.slope_factor(row, 0));
    };
    ground.made = slope_map(file.elevation.map.path, slope_options(file, threads), takers,
                            [&](double share) { return !progress || progress(0.6 * share); });
    ground.ways.largest_basin_km2 = ground.made.largest_basin_m2 / 1e6;
    ground.ways.to_channel_m = terrain::flow_distance(directions, channels);
    return ground;
}

std::vector<Practice> practices_of(const input::WatershedFile& file, const std::vector<RotationWorked>& rotations) {
    std::vector<Practice> practices;
    for (const input::Offered& one : file.offered) {
        Practice practice{one.name, one.cover_factor, one.times, one.practice_factor, one.origin, {}};
        for (std::size_t i = 0; i < rotations.size(); ++i)
            if (!one.rotation.empty() && rotations[i].name == one.rotation) {
                practice.rotation = i;
                practice.cover_factor = rotations[i].cover.C.central;
            }
        practices.push_back(std::move(practice));
    }
    return practices;
}

void count_fields(WatershedResult& result) {
    for (RotationWorked& rotation : result.rotations) {
        rotation.fields =
            static_cast<std::size_t>(std::ranges::count(result.fields.fields, rotation.name, &FieldResult::rotation));
        const bool offered = std::ranges::any_of(result.offered, [&](const Practice& practice) {
            return practice.rotation && result.rotations[*practice.rotation].name == rotation.name;
        });
        if (rotation.fields == 0 && !offered)
            result.remarks.push_back({source::Weight::note, "rotation-unused",
                                      fmt::format("No field that is ranked names the rotation '{}', and no practice on "
                                                  "offer does.",
                                                  rotation.name),
                                      result.file});
    }
}

void add_sources(const input::WatershedFile& file, const Layers& layers, WatershedResult& result) {
    std::vector<MapSource>& to = result.sources;
    const auto name = [](const std::optional<input::MapFile>& map) { return map ? short_name(map->path) : ""; };
    to.push_back({"heights", short_name(file.elevation.map.path), file.elevation.map.origin});
    if (result.cuts)
        to.push_back(
            {fmt::format("pits cut open, {}", limits_in_words(*result.cuts)), "", source::origin_of("pit-breaching")});
    to.push_back({"rain (R)", name(file.rain.raster), layers.R.origin});
    to.push_back({"soils (K and T)", name(file.soils.map), layers.soils.origin});
    if (file.soils.map)
        to.push_back({"erodibility of the soils", short_name(file.soils.table_path), layers.soils.origin});
    if (file.soils.tolerance) to.push_back({"T where the table has none", "", file.soils.tolerance->origin});
    for (const input::MapFile& map : file.barriers) to.push_back({"barriers", short_name(map.path), map.origin});
    if (file.field_edges)
        to.push_back({"each field's ground its own, from its edge on",
                      "",
                      {"as 'field edges' of 'barriers' asks", "", source::Standing::users_figure}});
    to.push_back({"outlines of the fields", short_name(file.fields.map.path), file.fields.map.origin});
    if (!file.fields.cover.empty())
        to.push_back({fmt::format("C, column '{}' of the fields", file.fields.cover), "", file.fields.map.origin});
    if (!file.cover.rasters.empty() || file.cover.factor) {
        std::string files;
        for (const input::MapFile& map : file.cover.rasters)
            files += (files.empty() ? "" : ", ") + short_name(map.path);
        to.push_back({"cover (C)", files, layers.C.origin});
    }
    if (!file.cover.classes_path.empty())
        to.push_back({"C of the classes", short_name(file.cover.classes_path), layers.C.origin});
    for (const RotationWorked& rotation : result.rotations)
        to.push_back({fmt::format("C of the rotation '{}'", rotation.name), "", rotation.cover.C.origin});
    if (!result.rotations.empty()) {
        const auto& doubt = result.rotations.front().cover.C.spread_origin;
        to.push_back({"doubt of C of rotations", "", doubt});
    }
    std::set<std::string> tested;
    for (const FieldResult& field : result.fields.fields)
        if (field.structure && field.structure->why_not.empty() && tested.insert(field.structure->file).second)
            to.push_back({fmt::format("soil tests of '{}'", field.name),
                          short_name(field.structure->file),
                          {"tests made on the field", "", source::Standing::users_figure}});
    if (!tested.empty())
        to.push_back({"structure factor (m) of tested fields", "", source::origin_of("structure-factor")});
    const bool by_field = !file.fields.practice.empty();
    if (by_field)
        to.push_back({fmt::format("P, column '{}' of the fields", file.fields.practice), "", file.fields.map.origin});
    if (!by_field || file.practice.raster || file.practice.factor)
        to.push_back({by_field ? "practice (P) where the column has none" : "practice (P)", name(file.practice.raster),
                      layers.P.origin});
    for (const Practice& practice : result.offered)
        to.push_back({fmt::format("on offer, '{}'", practice.name), "", practice.origin});
    using source::Standing;
    to.push_back({"slope factor (LS)", "", source::origin_of("grid-slope-length")});
    for (const Delivery relation : deliveries)
        to.push_back(
            {fmt::format("soil that reaches a channel by '{}', {}", delivery_names[static_cast<std::size_t>(relation)],
                         relation == result.delivery ? "as ranked" : "to compare"),
             "", origin_of_delivery(relation)});
    to.push_back({"the way to the channel counted in metres",
                  "",
                  {"our reading of the relation by distance", "", Standing::our_assumption}});
    to.push_back({"doubt of C, P, LS, K and of the share that reaches a channel",
                  "",
                  {"default spreads of this project", "", Standing::our_assumption}});
    to.push_back({"chances and ties", "", {"simulation of places", "", Standing::common_practice}});
}

WorkedWatershed worked(const input::WatershedFile& file, const WorkSettings& settings,
                       const std::function<bool(double)>& progress) {
    const auto reached = [&](double share) {
        if (progress && !progress(share)) throw Stopped{};
    };
    if (settings.memory > 0) {
        const raster::HeightsFile heights(file.elevation.map.path, elevation_options(file));
        check_memory(file, heights.shape().cells(), heights.shape().cell_m, settings.memory);
    }
    Ground ground = ground_of(file, settings.threads, progress);
    WorkedWatershed done;
    WatershedResult& result = done.result;
    result.placement = ground.made.placement;
    result.cell_m = ground.made.shape.cell_m;
    result.cells_with_height = ground.made.cells_with_height;
    result.channel_cells = ground.made.channel_cells;
    result.barrier_cells = ground.made.barrier_cells;
    result.pits = ground.made.pits;
    if (result.pits.cut) result.cuts = slope_options(file, settings.threads).pits.cuts;
    result.remarks = file.remarks;
    result.remarks.insert(result.remarks.end(), ground.made.remarks.begin(), ground.made.remarks.end());

    Layers layers = read_layers(file, result.placement, std::move(ground.slope_factor));
    result.remarks.insert(result.remarks.end(), layers.remarks.begin(), layers.remarks.end());
    reached(0.75);
    FieldMap fields = read_fields(file, result.placement);
    result.remarks.insert(result.remarks.end(), fields.remarks.begin(), fields.remarks.end());
    reached(0.8);
    LossMap map = loss_map(layers);
    result.missing = map.missing;
    // Cells without a height are no gap of the slope factor.
    result.missing[2] -= result.placement.rows * result.placement.columns - result.cells_with_height;
    reached(0.85);

    result.name = file.name;
    result.file = short_name(file.path);
    result.rotations = work_rotations(file, layers.R, result.remarks);
    result.offered = practices_of(file, result.rotations);
    result.rank_by = static_cast<Criterion>(file.rank_by);
    result.visits = settings.visits.value_or(file.visits);
    result.draws = settings.draws;
    result.seed = settings.seed;
    result.channel_ha = file.channel_ha;
    result.longest_m = file.longest_m;
    for (const raster::Overlap& overlap : fields.overlaps)
        result.overlaps.push_back({fields.fields[overlap.one].polygon.name, fields.fields[overlap.other].polygon.name,
                                   overlap.area_m2 / 10000});
    result.delivery = static_cast<Delivery>(file.delivery);
    result.largest_basin_km2 = ground.ways.largest_basin_km2;
    const FieldSettings ranking{result.offered, result.delivery,  result.visits,    settings.draws,
                                settings.seed,  settings.threads, result.rotations, file.cover.credits};
    result.fields = work_fields(layers, ground.ways, result.placement, fields.fields, ranking, map);
    result.fields.left_out.insert(result.fields.left_out.begin(), fields.left_out.begin(), fields.left_out.end());
    count_fields(result);
    add_sources(file, layers, result);
    done.classes = loss_classes(map.loss, layers, result.placement, fields.fields);
    reached(1);
    done.loss = std::move(map.loss);
    done.slope_factor = std::move(layers.LS);
    return done;
}

}  // namespace

raster::ElevationOptions elevation_options(const input::WatershedFile& file) {
    raster::ElevationOptions heights;
    const input::ElevationGiven& given = file.elevation;
    heights.band = given.band;
    heights.crs = given.map.crs;
    heights.project = given.project;
    heights.cell_unit = unit_of(file, given.cell_unit, "cells");
    heights.height_unit = unit_of(file, given.height_unit, "heights");
    heights.nodata = given.nodata;
    heights.cell_m = given.cell_m.value_or(0);
    heights.words = {"crs", "project", "cells", "heights", "nodata", "cell", ": ", "'", " under 'elevation'"};
    return heights;
}

WorkedWatershed work_watershed(const input::WatershedFile& file, const WorkSettings& settings,
                               const std::function<bool(double)>& progress) {
    try {
        return worked(file, settings, progress);
    } catch (const input::InputError& error) {
        throw input::InputError(input::told_at_their_lines(file, error.diagnostics));
    }
}

}  // namespace soilhold::watershed
