#include "raster/elevation.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "raster/heights_plan.h"
#include "raster/layer.h"
#include "raster/open_raster.h"
#include "raster/raster_error.h"
#include "raster/warped.h"

namespace soilhold::raster {

namespace {

using source::Weight;

struct Preparing {
    const std::string& path;
    const ElevationOptions& options;
    Placement place;      ///< the file's, with the coordinate system that counts
    double unit_m = 1;    ///< metres in a unit of the map
    LengthUnit height{};  ///< of a stored height, after scale and offset
    source::Remarks remarks;

    void say(Weight weight, const char* code, const std::string& text) {
        remarks.push_back({weight, code, text, path});
    }
    [[noreturn]] void refuse(const char* code, const std::string& text) const { throw RasterError(path, code, text); }
};

Point centre_of(const Placement& place) {
    return place.to_map({static_cast<double>(place.columns) / 2, static_cast<double>(place.rows) / 2});
}

/// "Give --project EPSG:32617 (WGS 84 / UTM zone 17N, which holds its centre), or --project auto."
std::string give_zone(const Preparing& work, const std::string& zone) {
    const HeightsWords& words = work.options.words;
    return fmt::format("Give {} ({}, which holds its centre), or {}{}.", words.with(words.project, zone),
                       crs_name({.crs = wkt_of(reference_of(zone).get())}), words.with(words.project, "auto"),
                       words.where);
}

std::string known_crs(const Preparing& work, const std::string& option, const std::string& text) {
    const std::string wkt = wkt_of(reference_of(text).get());
    if (wkt.empty())
        work.refuse("unknown-crs", fmt::format("{}: no such coordinate system is known. One looks like this: "
                                               "EPSG:32617.",
                                               work.options.words.with(option, text)));
    return wkt;
}

/// The coordinate system the file has, or should have had.
void settle_crs(Preparing& work) {
    const ElevationOptions& options = work.options;
    const HeightsWords& words = options.words;
    if (!options.crs.empty()) {
        const Placement before = work.place;
        work.place.crs = known_crs(work, options.words.crs, options.crs);
        if (!before.crs.empty() && !same_crs(before, work.place))
            work.say(Weight::caution, "crs-overruled",
                     fmt::format("The file gives its coordinate system as '{}'; it was read as '{}', as asked.",
                                 crs_name(before), crs_name(work.place)));
    }
    if (work.place.crs.empty()) {
        const bool like_degrees =
            std::abs(work.place.west) <= 360 && std::abs(work.place.north) <= 90 && work.place.cell_width < 0.1;
        if (like_degrees || !options.cell_unit || !options.project.empty())
            work.refuse(
                "no-crs",
                fmt::format("it has no coordinate system, so that the unit of its cells ({:.6g} wide) is not known{}. "
                            "Give {}{} with the one it was made in, such as {}{}.",
                            work.place.cell_width, like_degrees ? "; its coordinates look like degrees" : "",
                            words.alone(words.crs), words.where,
                            words.with(words.crs, like_degrees ? "EPSG:4326" : "EPSG:32617"),
                            like_degrees || !options.project.empty()
                                ? ""
                                : fmt::format(", or the unit alone: {} or {}", words.with(words.cell_unit, "m"),
                                              words.with(words.cell_unit, "ft"))));
        work.unit_m = work.place.unit_m = options.cell_unit->metres;
        work.say(Weight::note, "cell-unit-given",
                 fmt::format("The file has no coordinate system; its cells were taken as {:.6g} {} wide, as asked.",
                             work.place.cell_width, options.cell_unit->name));
        return;
    }
    work.unit_m = metres_per_unit(work.place);
    if (options.cell_unit && work.unit_m > 0 && std::abs(options.cell_unit->metres / work.unit_m - 1) > 1e-4)
        work.say(Weight::caution, "cell-unit-unused",
                 fmt::format("{} was not used: the coordinate system of the file, '{}', says {}.",
                             words.with(words.cell_unit, options.cell_unit->name), crs_name(work.place),
                             unit_name(work.place)));
}

/// Which coordinate system to work in; empty: the file's own.
std::string target_crs(Preparing& work) {
    if (work.place.crs.empty()) return "";
    const std::string& project = work.options.project;
    const HeightsWords& words = work.options.words;
    const Point centre = centre_of(work.place);
    const Reference reference = reference_of(work.place.crs);
    const bool local = OSRIsLocal(reference.get()) != 0;
    if (!project.empty() && project != "auto") {
        const std::string wkt = known_crs(work, words.project, project);
        const Placement target{.crs = wkt};
        if (is_geographic(target) || !(metres_per_unit(target) > 0))
            work.refuse("degrees",
                        fmt::format("{} is in degrees too. {}", words.with(words.project, project),
                                    give_zone(work, utm_zone(longitude_latitude(work.place, centre, work.path)))));
        return same_crs(target, work.place) ? "" : wkt;
    }
    if (is_geographic(work.place)) {
        const std::string zone = utm_zone(longitude_latitude(work.place, centre, work.path));
        if (project == "auto") return wkt_of(reference_of(zone).get());
        work.refuse("degrees", fmt::format("its cells are measured in degrees ({:.6g}° wide), in which no slope can be "
                                           "taken. {}",
                                           work.place.cell_width, give_zone(work, zone)));
    }
    if (!(work.unit_m > 0))
        work.refuse("no-crs", fmt::format("its coordinate system, '{}', is no map. Give {}{} with the one it was made "
                                          "in, such as {}.",
                                          crs_name(work.place), words.alone(words.crs), words.where,
                                          words.with(words.crs, "EPSG:32617")));
    if (local) return "";
    const Point stretched = stretch(work.place, centre, work.path);
    const double worst = std::abs(stretched.x - 1) > std::abs(stretched.y - 1) ? stretched.x : stretched.y;
    if (std::abs(worst - 1) <= 0.02) return "";
    const std::string zone = utm_zone(longitude_latitude(work.place, centre, work.path));
    if (project == "auto") return wkt_of(reference_of(zone).get());
    work.refuse("stretched-map",
                fmt::format("a metre of its map, '{}', is {:.2f} m on the ground here, so that slopes would come out "
                            "wrong. {}",
                            crs_name(work.place), 1 / worst, give_zone(work, zone)));
}

/// What the heights would be under each reading, from the middle of the file: a reader knows which is right.
std::string both_readings(const Preparing& work, const Layer& layer) {
    const Placement& place = layer.placement();
    const std::int64_t side = 400;
    const Window middle{std::max<std::int64_t>(0, place.rows / 2 - side / 2),
                        std::max<std::int64_t>(0, place.columns / 2 - side / 2), std::min(side, place.rows),
                        std::min(side, place.columns)};
    const terrain::Grid<float> heights = layer.values(work.options.band, middle, work.options.nodata);
    double least = INFINITY, most = -INFINITY, fall = 0, steps = 0;
    for (std::int64_t row = 0; row < heights.rows(); ++row)
        for (std::int64_t column = 0; column < heights.columns(); ++column) {
            const double here = heights(row, column);
            if (!std::isfinite(here)) continue;
            least = std::min(least, here);
            most = std::max(most, here);
            if (row + 1 == heights.rows() || column + 1 == heights.columns()) continue;
            const double down = heights(row + 1, column) - here, east = heights(row, column + 1) - here;
            if (!std::isfinite(down) || !std::isfinite(east)) continue;
            fall += std::hypot(down / place.cell_height, east / place.cell_width);
            steps += 1;
        }
    if (!(least <= most)) return "";
    const auto reading = [&](double metres) {
        const auto whole = [](double value) { return std::round(value) + 0.0; };  // never "-0"
        std::string text = fmt::format("heights of {:.0f} to {:.0f} m", whole(least * metres), whole(most * metres));
        if (steps > 0 && work.unit_m > 0) {
            const double slope = 100 * fall / steps * metres / work.unit_m;
            text += slope < 10 ? fmt::format(" and a mean slope of {:.2g} %", slope)
                               : fmt::format(" and a mean slope of {:.0f} %", slope);
        }
        return text;
    };
    return fmt::format(" Read as metres, the ground in its middle has {}; read as feet, {}.", reading(1),
                       reading(0.3048));
}

void settle_height_unit(Preparing& work, const Layer& layer, const Band& band) {
    std::optional<LengthUnit> said = length_unit(band.unit);
    std::string where = "its band says so";
    if (!said && band.unit.empty()) {
        said = vertical_unit(work.place);
        where = "its coordinate system says so";
    }
    if (work.options.height_unit) {
        work.height = *work.options.height_unit;
        if (said && std::abs(said->metres / work.height.metres - 1) > 1e-4)
            work.say(Weight::caution, "height-unit-overruled",
                     fmt::format("The file gives its heights in {}; they were read as {}, as asked.", said->name,
                                 work.height.name));
        return;
    }
    const HeightsWords& words = work.options.words;
    if (!said)
        work.refuse(
            "no-height-unit",
            fmt::format("{} whether its heights are metres or feet.{} Give {} or {}{}.",
                        band.unit.empty() ? std::string("it doesn't say")
                                          : fmt::format("its unit of height, '{}', is not known; say", band.unit),
                        both_readings(work, layer), words.with(words.height_unit, "m"),
                        words.with(words.height_unit, "ft"), words.where));
    work.height = *said;
    if (work.height.metres != 1)
        work.say(Weight::note, "heights-converted",
                 fmt::format("Heights were turned from {} into metres ({}).", work.height.name, where));
}

/// Three figures: a cell of 29.8731 m is 29.9 m.
double rounded(double width) {
    const double power = std::pow(10, std::floor(std::log10(width)) - 2);
    return std::round(width / power) * power;
}

/// The extent in whole cells, so that grids of one cell width fit one another.
Placement snapped(const Placement& around, double cell) {
    Placement place = around;
    const double slack = 1e-6;
    const double west = std::floor(around.west / cell + slack), north = std::ceil(around.north / cell - slack);
    place.west = west * cell;
    place.north = north * cell;
    place.cell_width = place.cell_height = cell;
    place.columns = static_cast<std::int64_t>(std::ceil(around.east() / cell - slack) - west);
    place.rows = static_cast<std::int64_t>(north - std::floor(around.south() / cell + slack));
    return place;
}

void refuse_too_many(const Preparing& work, const Placement& grid, double unit_m) {
    const HeightsWords& words = work.options.words;
    const double cells = static_cast<double>(grid.columns) * static_cast<double>(grid.rows);
    const auto most = static_cast<double>(work.options.most_cells);
    if (cells <= most) return;
    const double cell_m = std::sqrt(grid.cell_width * grid.cell_height) * unit_m;
    const double fits = cell_m * std::sqrt(cells / most), power = std::pow(10, std::floor(std::log10(fits)));
    const double wider = std::ceil(fits / power * 2) / 2 * power;
    work.refuse("too-many-cells", fmt::format("it has {:.0f} million cells of {:.3g} m, more than the {:.0f} million "
                                              "that are worked at a time. Give {}{}, or cut it smaller.",
                                              cells / 1e6, cell_m, most / 1e6,
                                              words.with(words.cell, fmt::format("{:.3g} m", wider)), words.where));
}

/// The working grid and how its cells get their heights; no resampling where the file's own grid will do.
std::optional<Resampling> working_grid(Preparing& work, const Source& source, const std::string& crs, Placement& grid) {
    const double wanted = work.options.cell_m;
    const HeightsWords& words = work.options.words;
    const bool project = !crs.empty();
    grid = project ? suggested_grid(source, crs) : work.place;
    const double unit_m = project ? metres_per_unit(grid) : work.unit_m;
    const double stored = std::sqrt(grid.cell_width * grid.cell_height) * unit_m;
    const bool square = std::abs(grid.cell_width / grid.cell_height - 1) <= 0.01;
    if (wanted > 0 && wanted < 0.99 * stored)
        work.refuse("cell-too-fine",
                    fmt::format("{} is finer than its cells of {:.4g} m, which hold no such detail. Give {:.4g} m or "
                                "more, or leave {} out{}.",
                                words.with(words.cell, fmt::format("{:.4g} m", wanted)), stored, rounded(stored),
                                words.alone(words.cell), words.where));
    const bool wider = wanted > 1.01 * stored;
    work.unit_m = unit_m;
    if (!project && square && !wider) {
        refuse_too_many(work, grid, unit_m);
        return std::nullopt;
    }
    const double cell_m = wanted > 0 ? wanted : project || !square ? rounded(stored / unit_m) * unit_m : stored;
    grid = snapped(grid, cell_m / unit_m);
    refuse_too_many(work, grid, unit_m);
    const Resampling how = cell_m > 1.5 * stored ? Resampling::average : Resampling::bilinear;
    const char* way =
        how == Resampling::average ? "each the mean of the heights in it" : "heights between four neighbours";
    if (project)
        work.say(Weight::note, "projected",
                 fmt::format("Brought from '{}' into '{}' with square cells of {:.4g} m, {}.", crs_name(work.place),
                             crs_name(grid), cell_m, way));
    else if (!square)
        work.say(Weight::note, "made-square",
                 fmt::format("Its cells are {:.6g} by {:.6g}; they were made square, {:.4g} m wide, {}.",
                             work.place.cell_width, work.place.cell_height, cell_m, way));
    else
        work.say(Weight::note, "cells-widened",
                 fmt::format("Cells of {:.4g} m were made {:.4g} m wide, {}.", stored, cell_m, way));
    return how;
}

}  // namespace

HeightsPlan plan_heights(const Layer& layer, const OpenRaster& open, const ElevationOptions& options) {
    Preparing work{layer.path(), options, layer.placement(), 1, {}, {}};
    const Band band = layer.band(options.band);
    settle_crs(work);
    const std::string crs = target_crs(work);
    if (layer.bands() > 1)
        work.say(Weight::caution, "several-bands",
                 fmt::format("It has {} bands; band {} was read as heights.", layer.bands(), options.band));
    settle_height_unit(work, layer, band);
    const Source source{layer.path(), &open, options.band, work.place.crs, options.nodata};
    HeightsPlan plan;
    plan.how = working_grid(work, source, crs, plan.placement);
    plan.shape = shape_of(plan.placement);
    // The layer knows no unit where the file has no coordinate system; the grid is in metres all the same.
    plan.shape.cell_m = std::sqrt(plan.placement.cell_width * plan.placement.cell_height) * work.unit_m;
    plan.crs = work.place.crs;
    plan.height_m = work.height.metres;
    plan.remarks = std::move(work.remarks);
    return plan;
}

}  // namespace soilhold::raster
