#include "watershed_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>

#include "raster/atomic_file.h"
#include "report/loss_classes.h"
#include "report/output.h"
#include "report/watershed_report.h"

namespace soilhold::cli {

namespace {

using Kind = raster::FieldColumn::Kind;
using raster::FieldValue;
using watershed::Criterion;
using watershed::FieldResult;
using watershed::WatershedResult;

/// From light to dark in even steps, so that a grey copy says the same.
constexpr std::array<raster::Colour, 5> colours{
    {{255, 250, 232, 255}, {254, 227, 168, 255}, {246, 178, 98, 255}, {214, 112, 48, 255}, {140, 45, 20, 255}}};
static_assert(watershed::breaks_in_T == report::class_breaks, "the grids and the map on paper have one legend");

/// Where the numbers come from, for the files: name -> text. Nothing depends on time, machine or threads.
std::map<std::string, std::string> lineage(const WatershedResult& result) {
    std::map<std::string, std::string> lines = {
        {"made_by", "soilhold watershed " SOILHOLD_VERSION},
        {"equation", "A = R K LS C P, t/(ha yr)"},
        {"watershed", result.name},
        {"channel_from_ha", fmt::format("{:g}", result.channel_ha)},
        {"longest_slope_m", fmt::format("{:g}", result.longest_m)},
        {"caution", "sheet and rill loss by rain, a long-term average; a planning aid, not a plan"}};
    for (const watershed::MapSource& one : result.sources)
        lines["source of " + one.what] = fmt::format("{}{}{} ({})", one.file, one.file.empty() ? "" : ": ",
                                                     one.origin.from, source::words_for(one.origin.standing));
    return lines;
}

FieldValue maybe(const std::optional<double>& value) { return value ? FieldValue(*value) : FieldValue(); }

/// A column and what a field has in it.
struct Column {
    raster::FieldColumn column;
    std::function<FieldValue(const FieldResult&)> value;
};

template <class Member>
Column of_rank(const std::string& name, const std::string& says, Criterion by, Member member) {
    using Value = std::remove_cvref_t<decltype(std::declval<watershed::Rank>().*member)>;
    constexpr bool real = std::is_floating_point_v<Value>;
    return {{real ? Kind::real : Kind::whole, name, says}, [by, member](const FieldResult& field) {
                const auto& rank = field.ranks[static_cast<std::size_t>(by)];
                if (!rank) return FieldValue();
                if constexpr (real)
                    return FieldValue((*rank).*member);
                else
                    return FieldValue(static_cast<std::int64_t>((*rank).*member));
            }};
}

void add_ranks(std::vector<Column>& to, const WatershedResult& result) {
    using watershed::Rank;
    const Criterion by = result.rank_by;
    const std::string chance = fmt::format("chance of being among the first {}, 0 to 1", result.visits);
    to.push_back(of_rank("place", "place by " + watershed::words_of(by) + ", as ranked", by, &Rank::place));
    to.push_back(of_rank("place_low", "first place of the middle 80 % of the draws", by, &Rank::likely_first));
    to.push_back(of_rank("place_high", "last place of the middle 80 % of the draws", by, &Rank::likely_last));
    to.push_back(of_rank("chance_top", chance, by, &Rank::chance_in_top));
    to.push_back(of_rank("tie_group", "fields of one group can't be told apart", by, &Rank::tie_group));
}

void add_other_ranks(std::vector<Column>& to, const WatershedResult& result) {
    using watershed::Rank;
    for (const Criterion by : watershed::criteria) {
        const std::string name = watershed::criterion_names[static_cast<std::size_t>(by)],
                          words = watershed::words_of(by);
        to.push_back(of_rank("place_" + name, "place by " + words, by, &Rank::place));
        to.push_back(of_rank("chance_" + name,
                             fmt::format("chance of being among the first {} by {}", result.visits, words), by,
                             &Rank::chance_in_top));
        to.push_back(of_rank("tie_" + name, "group of ties by " + words, by, &Rank::tie_group));
    }
}

void add_figures(std::vector<Column>& to) {
    const auto real = [&](const char* name, const char* says, auto value) {
        to.push_back(
            {{Kind::real, name, says}, [value](const FieldResult& field) { return FieldValue(value(field)); }});
    };
    const auto real_maybe = [&](const char* name, const char* says, auto value) {
        to.push_back({{Kind::real, name, says}, [value](const FieldResult& field) { return maybe(value(field)); }});
    };
    const auto if_T = [](const FieldResult& field, double share) {
        return field.tolerance ? std::optional(share) : std::nullopt;
    };
    real("loss_t_ha", "mean yearly loss, t/(ha yr)", [](const auto& f) { return f.on_grid.mean; });
    real("loss_t", "yearly loss of the field, t/yr", [](const auto& f) { return f.on_grid.total_t; });
    real_maybe("T_t_ha", "tolerance T, t/(ha yr)", [](const auto& f) { return f.tolerance; });
    real_maybe("times_T", "mean loss over T", [](const auto& f) { return f.times_T; });
    real_maybe("above_T", "share of the ground above T, 0 to 1",
               [=](const auto& f) { return if_T(f, f.on_grid.share_above_T); });
    real_maybe("above_2T", "share of the ground above twice T, 0 to 1",
               [=](const auto& f) { return if_T(f, f.on_grid.share_above_2T); });
    real("worst_t_ha", "loss of the worst tenth, t/(ha yr)", [](const auto& f) { return f.on_grid.worst_tenth_mean; });
    real("worst_share", "share of the tons that comes from the worst tenth, 0 to 1",
         [](const auto& f) { return f.on_grid.worst_tenth_share; });
    to.push_back({{Kind::text, "worst_part", "part of the field in which the worst tenth has its middle"},
                  [](const FieldResult& f) { return FieldValue(f.worst_where); }});
    real("worst_x", "middle of the worst tenth, eastward", [](const auto& f) { return f.worst_at.x; });
    real("worst_y", "middle of the worst tenth, northward", [](const auto& f) { return f.worst_at.y; });
    real_maybe("avoidable_t", "avoided by the best practice on offer, t/yr",
               [](const auto& f) { return f.avoidable_t; });
    to.push_back({{Kind::text, "best_practice", "the practice on offer that avoids most"},
                  [](const FieldResult& f) { return FieldValue(f.best_practice); }});
    real_maybe("way_m", "mean way of its water to a channel, m", [](const auto& f) { return f.way_m; });
    real_maybe("delivered_t", "reaches a channel, t/yr", [](const auto& f) { return f.delivered_t; });
    real_maybe("deliv_avoid_t", "avoidable and reaches a channel, t/yr",
               [](const auto& f) { return f.delivered_avoidable_t; });
    real("area_ha", "area of the outline, ha", [](const auto& f) { return f.area_ha; });
    real("on_map_ha", "of it on the map, ha", [](const auto& f) { return f.on_grid.area_ha; });
    real("gap_share", "share of the ground without a loss, 0 to 1", [](const auto& f) { return f.on_grid.gap_share; });
    to.push_back({{Kind::text, "lacks", "what that ground lacks"},
                  [](const FieldResult& f) { return FieldValue(watershed::lacks_of(f)); }});
    real("R", "rain, MJ mm/(ha h yr)", [](const auto& f) { return f.R; });
    real("K", "soil, t ha h/(ha MJ mm)", [](const auto& f) { return f.K; });
    real("LS", "slope", [](const auto& f) { return f.LS; });
    real("C", "cover", [](const auto& f) { return f.C; });
    real("P", "practice", [](const auto& f) { return f.P; });
    to.push_back({{Kind::text, "rotation", "rotation that gives C; blank: a figure or a map"},
                  [](const FieldResult& f) { return FieldValue(f.rotation); }});
    const auto of_tests = [](const FieldResult& f, double value) {
        return f.structure ? std::optional(value) : std::nullopt;
    };
    real_maybe("m", "structure factor of the soil tests, in loss and tons",
               [=](const auto& f) { return of_tests(f, watershed::times_of(f)); });
    real_maybe("m_low", "low end of m, 80 %",
               [](const auto& f) { return f.structure ? std::optional(f.structure->low_80) : std::nullopt; });
    real_maybe("m_high", "high end of m, 80 %",
               [](const auto& f) { return f.structure ? std::optional(f.structure->high_80) : std::nullopt; });
    real_maybe("loss_no_m", "mean yearly loss without the soil tests, t/(ha yr)",
               [=](const auto& f) { return of_tests(f, f.on_grid.mean / watershed::times_of(f)); });
    to.push_back({{Kind::text, "soil", "map unit on most of its ground"},
                  [](const FieldResult& f) { return FieldValue(f.main_soil); }});
}

std::vector<Column> columns_of(const WatershedResult& result) {
    std::vector<Column> columns = {
        {{Kind::text, "name", "name"}, [](const FieldResult& f) { return FieldValue(f.name); }},
        {{Kind::whole, "id", "number in the file of outlines"}, [](const FieldResult& f) { return FieldValue(f.id); }},
        {{Kind::text, "tillage", "tillage, as given"}, [](const FieldResult& f) { return FieldValue(f.tillage); }}};
    add_ranks(columns, result);
    add_figures(columns);
    add_other_ranks(columns, result);
    columns.push_back({{Kind::text, "remarks", "what was noticed"},
                       [](const FieldResult& f) { return FieldValue(watershed::words_of_remarks(f)); }});
    columns.push_back(
        {{Kind::text, "left_out", "why the field has no figures"}, [](const FieldResult&) { return FieldValue(); }});
    return columns;
}

raster::WriteOptions grid_options(const WatershedResult& result, const char* unit, const char* description) {
    raster::WriteOptions options;
    options.cloud_optimized = true;
    options.metadata = lineage(result);
    options.unit = unit;
    options.description = description;
    return options;
}

raster::WriteOptions class_options(const WatershedResult& result, bool by_tolerance) {
    raster::WriteOptions options =
        grid_options(result, "", by_tolerance ? "class of loss by times T" : "class of loss");
    options.no_class = 0;
    options.colours = {{0, 0, 0, 0}};
    options.colours.insert(options.colours.end(), colours.begin(), colours.end());
    for (std::size_t number = 1; number <= colours.size(); ++number)
        options.metadata[fmt::format("class_{}", number)] = watershed::class_words(number, by_tolerance);
    return options;
}

}  // namespace

raster::FieldLayer layer_of(const WatershedResult& result) {
    raster::FieldLayer layer;
    layer.name = "fields";
    layer.description = result.name + ": yearly soil loss of the fields, tonnes and hectares";
    const std::vector<Column> columns = columns_of(result);
    for (const Column& one : columns) layer.columns.push_back(one.column);
    bool any_T = false;
    for (const FieldResult* field : report::in_order(result)) {
        layer.rows.push_back({&field->parts, {}});
        for (const Column& one : columns) layer.rows.back().values.push_back(one.value(*field));
        any_T = any_T || field->times_T.has_value();
    }
    for (const raster::LeftOut& out : result.fields.left_out) {
        layer.rows.push_back({out.parts.empty() ? nullptr : &out.parts, std::vector<FieldValue>(columns.size())});
        layer.rows.back().values[0] = out.name;
        layer.rows.back().values[1] = out.id;
        layer.rows.back().values.back() = out.why;
    }
    const auto& breaks = any_T ? watershed::breaks_in_T : watershed::breaks_in_loss;
    layer.graduated = {any_T ? "times_T" : "loss_t_ha",
                       any_T ? "loss over T" : "loss, t/(ha yr)",
                       {breaks.begin(), breaks.end()},
                       {colours.begin(), colours.end()}};
    return layer;
}

std::vector<std::string> WatershedTargets::paths() const {
    std::vector<std::string> all;
    if (!name.empty())
        for (const char* ending : {"-loss.tif", "-ls.tif", "-classes.tif", ".gpkg", ".csv", ".json"})
            all.push_back(name + ending);
    if (!map.empty()) all.push_back(map);
    return all;
}

std::string read_and_written(const WatershedTargets& targets, const input::WatershedFile& file) {
    std::vector<std::string> read = {file.path, file.elevation.map.path, file.soils.table_path, file.fields.map.path,
                                     file.cover.classes_path};
    for (const auto* map : {&file.rain.raster, &file.soils.map, &file.practice.raster})
        if (*map) read.push_back((*map)->path);
    for (const auto* maps : {&file.cover.rasters, &file.barriers})
        for (const input::MapFile& map : *maps) read.push_back(map.path);
    for (const std::string& path : targets.paths()) {
        if (std::filesystem::is_directory(path)) throw report::OutputError(path + " can't be written: it is a folder");
        std::error_code none;
        for (const std::string& one : read)
            if (std::filesystem::equivalent(path, one, none)) return path;
    }
    return "";
}

bool written_unnamed(const WatershedTargets& targets) {
    const std::vector<std::string> paths = targets.paths();
    return std::ranges::all_of(paths, [](const std::string& path) { return raster::written_unnamed(path); });
}

void write_watershed_files(const watershed::WorkedWatershed& worked, const WatershedTargets& targets,
                           units::System system, const std::string& map_bytes) {
    const WatershedResult& result = worked.result;
    std::vector<std::unique_ptr<raster::TileWriter>> grids;
    std::unique_ptr<raster::PendingFieldLayer> fields;
    std::vector<std::unique_ptr<raster::UnnamedFile>> texts;
    const auto add_grid = [&](const char* ending, const auto& grid, raster::TileWriter::Kind kind,
                              const raster::WriteOptions& options) {
        grids.push_back(std::make_unique<raster::TileWriter>(targets.name + ending, result.placement, kind, options));
        grids.back()->put_all(grid);
        grids.back()->flush();
    };
    const auto add_text = [&](const std::string& path, const std::string& bytes) {
        texts.push_back(std::make_unique<raster::UnnamedFile>(path));
        texts.back()->append(bytes);
        texts.back()->flush();
    };
    if (!targets.name.empty()) {
        using Kind = raster::TileWriter::Kind;
        add_grid("-loss.tif", worked.loss, Kind::values, grid_options(result, "t/(ha*yr)", "yearly soil loss A"));
        add_grid("-ls.tif", worked.slope_factor, Kind::values, grid_options(result, "1", "slope factor LS"));
        add_grid("-classes.tif", worked.classes.grid, Kind::classes,
                 class_options(result, worked.classes.by_tolerance));
        fields =
            std::make_unique<raster::PendingFieldLayer>(targets.name + ".gpkg", result.placement, layer_of(result));
        add_text(targets.name + ".csv", report::watershed_csv(result, system));
        add_text(targets.name + ".json", report::watershed_json(result, SOILHOLD_VERSION));
    }
    if (!targets.map.empty()) add_text(targets.map, map_bytes);
    for (const auto& grid : grids) grid->finish();
    if (fields) fields->finish();
    for (const auto& text : texts) text->put_in_place();
}

}  // namespace soilhold::cli
