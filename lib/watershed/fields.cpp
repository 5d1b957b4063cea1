#include "watershed/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "raster/shares.h"
#include "spread/uncertain.h"
#include "terrain/tiles.h"

namespace soilhold::watershed {

namespace {

using raster::Share;

/// The part of the grid around a field, so that its own C and P mix with no neighbour's.
struct Window {
    std::int64_t row = 0, column = 0;
    terrain::Shape shape;
    std::vector<Share> shares;  ///< counted from the window's corner
};

Window window_of(std::vector<Share> shares, const terrain::Shape& whole) {
    Window window;
    std::int64_t last_row = 0, last_column = 0;
    window.row = whole.rows;
    window.column = whole.columns;
    for (const Share& run : shares) {
        window.row = std::min(window.row, run.row);
        window.column = std::min(window.column, run.column);
        last_row = std::max(last_row, run.row);
        last_column = std::max(last_column, run.column + run.cells - 1);
    }
    for (Share& run : shares) run.row -= window.row, run.column -= window.column;
    window.shape = {last_column - window.column + 1, last_row - window.row + 1, whole.cell_m};
    window.shares = std::move(shares);
    return window;
}

/// Sums over the cells of a field that have a loss, each weighted by its share.
struct Sums {
    double area = 0;  ///< of all cells
    double valued = 0, R = 0, K = 0, LS = 0, C = 0, P = 0;
    double with_T = 0, T = 0;
    double loss = 0;             ///< of R K LS C P
    double bare = 0, RKLSP = 0;  ///< R K LS m, and with P
    double RKLSC = 0;
    double way = 0, way_loss = 0, with_way = 0, delivered = 0;
    std::array<double, 5> missing{};
    std::map<std::int32_t, double> by_soil;
};

/// C of its own, by figure or by rotation.
std::optional<double> own_cover(const FieldGiven& given, const FieldSettings& settings) {
    return given.rotation ? std::optional(settings.rotations[*given.rotation].cover.C.central) : given.C;
}

/// The field's ground by soil, as share of all that has one.
std::map<std::int32_t, double> soils_of(const Layers& layers, const Window& window) {
    std::map<std::int32_t, double> shares;
    double whole = 0;
    for (const Share& run : window.shares)
        for (std::int64_t i = 0; i < run.cells; ++i) {
            const std::int32_t soil = layers.soils.at(window.row + run.row, window.column + run.column + i);
            if (soil >= 0) shares[soil] += run.share, whole += run.share;
        }
    for (auto& [soil, share] : shares) share /= whole;
    return shares;
}

/// m of a field whose soil was tested, by the soil of the test or else its main one.
void find_structure(FieldResult& field, const Layers& layers, const FieldGiven& given, const Window& window,
                    const FieldSettings& settings) {
    const input::TestedField& tests = *given.tests;
    const auto shares = soils_of(layers, window);
    const auto main = std::ranges::max_element(shares, {}, [](const auto& soil) { return soil.second; });
    const auto named = std::ranges::find_if(shares, [&](const auto& soil) {
        return layers.soils.list[static_cast<std::size_t>(soil.first)].key == tests.soil;
    });
    const auto judged = tests.soil.empty() || !layers.soils.grid ? main : named;
    if (judged == shares.end()) {
        field.structure = FieldStructure{};
        field.structure->file = tests.file;
        field.structure->soil = tests.soil;
        field.structure->why_not = tests.soil.empty() ? "no soil of the field is known"
                                                      : "the tests were made on map unit '" + tests.soil +
                                                            "', of which this field has none with an erodibility";
    } else {
        const Soil& soil = layers.soils.list[static_cast<std::size_t>(judged->first)];
        field.structure = structure_of_field(
            tests, soil, given.rotation ? &settings.rotations[*given.rotation] : nullptr, settings.credits);
        if (judged->second < 0.5 && field.structure->why_not.empty())
            field.structure->remarks.push_back(
                {source::Weight::caution, "test-other-soil",
                 fmt::format("The soil tests of '{}' are judged by map unit '{}', which is {:.0f} % of its ground; m "
                             "is used on all of it.",
                             given.polygon.name, soil.key, 100 * judged->second),
                 tests.file});
    }
    if (!field.structure->why_not.empty())
        field.structure->remarks.push_back(
            {source::Weight::caution, "tests-unused",
             fmt::format("The soil tests of '{}' change nothing: {}.", given.polygon.name, field.structure->why_not),
             tests.file});
}

void add_cell(Sums& sums, const Layers& layers, const CellFactors& cell, float way, std::int32_t soil, double share) {
    sums.area += share;
    const auto all = cell.all();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (std::isnan(all[i])) sums.missing[i] += share;
    if (soil >= 0) {
        sums.by_soil[soil] += share;
        const float T = layers.soils.list[static_cast<std::size_t>(soil)].tolerance;
        if (!std::isnan(T)) sums.with_T += share, sums.T += share * static_cast<double>(T);
    }
    const auto loss = static_cast<double>(cell.loss());
    if (std::isnan(loss)) return;
    sums.valued += share;
    const double R = cell.R, K = cell.K, LS = cell.LS, C = cell.C, P = cell.P;
    sums.R += share * R, sums.K += share * K, sums.LS += share * LS, sums.C += share * C, sums.P += share * P;
    sums.loss += share * loss;
    const double bare = R * K * LS * static_cast<double>(cell.m);
    sums.bare += share * bare;
    sums.RKLSP += share * bare * P;
    sums.RKLSC += share * bare * C;
    if (std::isnan(way)) return;
    sums.with_way += share;
    sums.way += share * static_cast<double>(way);
    sums.way_loss += share * loss;
    sums.delivered += share * loss * ratio_by_way(static_cast<double>(way), layers.LS.shape().cell_m);
}

/// Loss with a practice over loss without it.
double left_with(const Practice& practice, const Sums& sums) {
    if (!(sums.loss > 0)) return 1;
    const double C_times = practice.times.value_or(1);
    double with = 0;
    if (practice.cover_factor)
        with = *practice.cover_factor * (practice.practice_factor ? *practice.practice_factor * sums.bare : sums.RKLSP);
    else
        with = C_times * (practice.practice_factor ? *practice.practice_factor * sums.RKLSC : sums.loss);
    return with / sums.loss;
}

/// What the calendar of a rotation says of the doubt of C stands in `shared`.
void find_doubts(FieldResult& field) {
    const auto sd = [](double value, const char* kind) {
        return spread::log_sd(spread::with_spread({value, {}, {}}, kind));
    };
    field.cover_log_sd =
        field.C > 0 && field.rotation.empty() ? sd(field.C, field.C < 0.1 ? "cover-given-low" : "cover-given") : 0;
    const double practice = field.P > 0 && field.P != 1 ? sd(field.P, "practice") : 0;
    const double slope = field.LS > 0 ? sd(field.LS, "slope-factor-grid") : 0;
    field.rest_log_sd = std::hypot(practice, slope, field.structure ? field.structure->log_sd : 0);
    field.own_log_sd = std::hypot(field.cover_log_sd, field.rest_log_sd);
    field.group_log_sd = field.K > 0 ? sd(field.K, "erodibility-survey") : 0;
}

void find_delivery(FieldResult& field, const Sums& sums, const Ways& ways, Delivery chosen) {
    field.delivery = ratios_by_area(ways.largest_basin_km2);
    if (sums.with_way > 0) {
        field.way_m = sums.way / sums.with_way;
        field.delivery[0] = sums.way_loss > 0 ? sums.delivered / sums.way_loss : 0;
    } else {
        field.remarks.push_back(
            {source::Weight::note, "no-channel",
             fmt::format("Water from '{}' meets no channel on this map, so that nothing is said of its way to one.",
                         field.name)});
    }
    const std::optional<double> share = field.delivery[static_cast<std::size_t>(chosen)];
    if (!share) return;
    const double tons = field.on_grid.total_t;
    field.delivered_t = field.delivered_low_t = field.delivered_high_t = tons * *share;
    for (const std::optional<double>& ratio : field.delivery) {
        if (!ratio) continue;
        field.delivered_low_t = std::min(field.delivered_low_t, tons * *ratio);
        field.delivered_high_t = std::max(field.delivered_high_t, tons * *ratio);
    }
    if (field.avoidable_t) field.delivered_avoidable_t = *field.avoidable_t * *share;
    field.delivery_log_sd = delivery_log_sd();
}

void find_avoidable(FieldResult& field, const FieldGiven& given, const Sums& sums, const FieldSettings& settings) {
    double least = 1;
    const Practice* best = nullptr;
    for (const Practice& practice : settings.offered) {
        // Its own rotation changes nothing by itself; rounding must not call that a gain.
        if (practice.rotation && practice.rotation == given.rotation && !practice.practice_factor) continue;
        const double left = left_with(practice, sums);
        if (left < least) least = left, best = &practice;
    }
    field.avoidable_t = field.on_grid.total_t * (1 - least);
    if (best == nullptr) return;
    field.best_practice = best->name;
    if (!best->rotation) return;
    // The calendar's errors are those of both rotations: they must cancel in what is avoided as far as they agree.
    field.taken = Taken{field.on_grid.total_t * least, field.cover_log_sd, settings.rotations[*best->rotation].doubts};
}

FieldResult worked(const Layers& layers, const Ways& ways, const raster::Placement& placement, const FieldGiven& given,
                   const Window& window, const FieldSettings& settings) {
    FieldResult field;
    field.id = given.polygon.id;
    field.name = given.polygon.name;
    field.tillage = given.tillage;
    field.parts = given.polygon.parts;
    field.area_ha = given.polygon.area_m2 / 10000;
    field.remarks = given.polygon.remarks;
    const auto C = own_cover(given, settings);
    if (given.rotation) {
        const RotationWorked& rotation = settings.rotations[*given.rotation];
        field.rotation = rotation.name;
        field.rotation_log_sd = spread::log_sd(rotation.cover.C);
        field.shared = rotation.doubts;
    }
    if (given.tests) find_structure(field, layers, given, window, settings);
    Sums sums;
    terrain::Grid<float> loss(window.shape, terrain::no_value);
    for (const Share& run : window.shares)
        for (std::int64_t i = 0; i < run.cells; ++i) {
            const std::int64_t row = window.row + run.row, column = window.column + run.column + i;
            const CellFactors cell = cell_factors(layers, row, column, C, given.P, times_of(field));
            loss(run.row, run.column + i) = cell.loss();
            add_cell(sums, layers, cell, ways.to_channel_m(row, column), layers.soils.at(row, column), run.share);
        }
    field.tolerance = given.tolerance;
    if (!field.tolerance && sums.with_T > 0) field.tolerance = sums.T / sums.with_T;
    field.on_grid = field_on_grid(loss, window.shares, field.tolerance);
    field.on_grid.worst_tenth.x += static_cast<double>(window.column);
    field.on_grid.worst_tenth.y += static_cast<double>(window.row);
    field.worst_at = placement.to_map(field.on_grid.worst_tenth);
    field.worst_where = ninth_of(field.worst_at, field.parts);
    for (std::size_t i = 0; i < sums.missing.size(); ++i)
        field.missing[i] = sums.area > 0 ? sums.missing[i] / sums.area : 0;
    if (!(sums.valued > 0)) return field;
    field.R = sums.R / sums.valued, field.K = sums.K / sums.valued, field.LS = sums.LS / sums.valued;
    field.C = sums.C / sums.valued, field.P = sums.P / sums.valued;
    const auto main = std::ranges::max_element(sums.by_soil, {}, [](const auto& soil) { return soil.second; });
    field.main_soil = layers.soils.list[static_cast<std::size_t>(main->first)].key;
    if (field.tolerance && *field.tolerance > 0) field.times_T = field.on_grid.mean / *field.tolerance;
    find_doubts(field);
    if (!settings.offered.empty()) find_avoidable(field, given, sums, settings);
    find_delivery(field, sums, ways, settings.delivery);
    return field;
}

/// Why a field has no loss, by what its cells lack.
std::string why_no_loss(const FieldResult& field) {
    const std::string lacks = lacks_of(field);
    return fmt::format("No cell of it has all factors; missing: {}.", lacks.empty() ? "cells" : lacks);
}

/// A field's value by a criterion with the doubts that move it.
Ranked doubted(const FieldResult& field, Criterion by, double value, std::size_t group) {
    const bool left = (by == Criterion::avoidable || by == Criterion::delivered) && field.taken;
    const double delivery = by == Criterion::delivered ? field.delivery_log_sd : 0;
    Ranked ranked{value,
                  std::hypot(left ? field.rest_log_sd : field.own_log_sd, delivery),
                  field.group_log_sd,
                  group,
                  field.shared,
                  {}};
    if (!left || !(*field.avoidable_t > 0)) return ranked;
    ranked.taken = field.taken;
    ranked.taken->value *= value / *field.avoidable_t;
    return ranked;
}

void rank_all(std::vector<FieldResult>& fields, const FieldSettings& settings) {
    std::map<std::string, std::size_t> groups;
    for (const FieldResult& field : fields) groups.emplace(field.main_soil, groups.size());
    for (std::size_t c = 0; c < criteria.size(); ++c) {
        std::vector<Ranked> ranked;
        std::vector<std::size_t> places;
        for (std::size_t i = 0; i < fields.size(); ++i) {
            const auto value = fields[i].value(criteria[c]);
            if (!value) continue;
            ranked.push_back(doubted(fields[i], criteria[c], *value, groups.at(fields[i].main_soil)));
            places.push_back(i);
        }
        if (ranked.empty()) continue;
        const std::vector<Rank> ranks = ranking(ranked, {settings.top, settings.draws, settings.seed});
        for (std::size_t i = 0; i < ranks.size(); ++i) fields[places[i]].ranks[c] = ranks[i];
    }
}

}  // namespace

std::optional<double> FieldResult::value(Criterion criterion) const {
    switch (criterion) {
        case Criterion::loss:
            return on_grid.mean;
        case Criterion::tons:
            return on_grid.total_t;
        case Criterion::times_T:
            return times_T;
        case Criterion::avoidable:
            return avoidable_t;
        case Criterion::delivered:
            return delivered_avoidable_t;
    }
    return std::nullopt;
}

std::string lacks_of(const FieldResult& field) {
    std::string lacks;
    for (std::size_t i = 0; i < factor_names.size(); ++i)
        if (field.missing[i] > 0)
            lacks +=
                fmt::format("{}{} on {:.3g} %", lacks.empty() ? "" : ", ", factor_names[i], 100 * field.missing[i]);
    return lacks;
}

double times_of(const FieldResult& field) { return field.structure ? field.structure->m : 1; }

std::string words_of_remarks(const FieldResult& field) {
    std::string words;
    for (const source::Remark& remark : field.remarks) words += (words.empty() ? "" : " ") + remark.text;
    if (field.structure)
        for (const source::Remark& remark : field.structure->remarks) words += (words.empty() ? "" : " ") + remark.text;
    return words;
}

std::string words_of(Criterion criterion) {
    switch (criterion) {
        case Criterion::loss:
            return "loss an area";
        case Criterion::tons:
            return "tons";
        case Criterion::times_T:
            return "times T";
        case Criterion::avoidable:
            return "avoidable tons";
        case Criterion::delivered:
            return "avoidable tons that reach a channel";
    }
    return "";
}

Fields work_fields(const Layers& layers, const Ways& ways, const raster::Placement& placement,
                   std::span<const FieldGiven> given, const FieldSettings& settings, LossMap& map) {
    const terrain::Shape& shape = layers.LS.shape();
    if (ways.to_channel_m.shape() != shape || map.loss.shape() != shape || placement.rows != shape.rows ||
        placement.columns != shape.columns)
        throw std::invalid_argument("layers, ways and placement must be of one shape");
    std::vector<FieldResult> all(given.size());
    std::vector<Window> windows(given.size());
    terrain::in_parallel(static_cast<std::int64_t>(given.size()), settings.threads, [&](std::int64_t number) {
        const auto i = static_cast<std::size_t>(number);
        windows[i] = window_of(raster::area_shares(given[i].polygon.parts, placement), shape);
        all[i] = worked(layers, ways, placement, given[i], windows[i], settings);
    });
    Fields result;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto C = own_cover(given[i], settings);
        const double m = times_of(all[i]);
        if (C || given[i].P || all[i].structure)
            for (const Share& run : windows[i].shares)
                for (std::int64_t k = 0; k < run.cells && run.share >= 0.5; ++k) {
                    const std::int64_t row = windows[i].row + run.row, column = windows[i].column + run.column + k;
                    map.loss(row, column) = cell_factors(layers, row, column, C, given[i].P, m).loss();
                }
        if (all[i].on_grid.valued_ha > 0)
            result.fields.push_back(std::move(all[i]));
        else
            result.left_out.push_back({all[i].id, all[i].name, why_no_loss(all[i]), std::move(all[i].parts)});
    }
    rank_all(result.fields, settings);
    return result;
}

}  // namespace soilhold::watershed
