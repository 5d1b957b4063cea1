// soilhold watershed: which fields of a watershed to visit first.
#include "watershed.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <vector>

#include "input/watershed_file.h"
#include "interrupt.h"
#include "progress_line.h"
#include "raster/atomic_file.h"
#include "raster/field_layer.h"
#include "report/output.h"
#include "report/watershed_report.h"
#include "run.h"
#include "units_option.h"
#include "watershed/slope_map.h"
#include "watershed/watershed_work.h"
#include "watershed_map_file.h"

namespace soilhold::cli {

namespace {

using Kind = raster::FieldColumn::Kind;
using watershed::FieldResult;
using watershed::WatershedResult;
using watershed::WorkedWatershed;

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

raster::FieldValue maybe(const std::optional<double>& value) {
    return value ? raster::FieldValue(*value) : raster::FieldValue();
}

raster::FieldRow row_of(const FieldResult& field, const WatershedResult& result) {
    const auto& rank = field.ranks[static_cast<std::size_t>(result.rank_by)];
    const auto whole = [&](auto member) {
        return rank ? raster::FieldValue(static_cast<std::int64_t>((*rank).*member)) : raster::FieldValue();
    };
    std::string remarks;
    for (const source::Remark& remark : field.remarks) remarks += (remarks.empty() ? "" : " ") + remark.text;
    using watershed::Rank;
    return {&field.parts,
            {field.name,
             field.id,
             field.tillage,
             whole(&Rank::place),
             whole(&Rank::likely_first),
             whole(&Rank::likely_last),
             rank ? raster::FieldValue(rank->chance_in_top) : raster::FieldValue(),
             whole(&Rank::tie_group),
             field.on_grid.mean,
             field.on_grid.total_t,
             maybe(field.tolerance),
             maybe(field.times_T),
             maybe(field.avoidable_t),
             field.best_practice,
             maybe(field.way_m),
             maybe(field.delivered_t),
             maybe(field.delivered_avoidable_t),
             field.area_ha,
             field.on_grid.gap_share,
             field.R,
             field.K,
             field.LS,
             field.C,
             field.P,
             field.main_soil,
             remarks}};
}

/// Colours by loss over T, light to dark; told apart without colour too.
raster::FieldLayer layer_of(const WatershedResult& result) {
    raster::FieldLayer layer;
    layer.name = "fields";
    layer.description = result.name + ": yearly soil loss of the fields, tonnes and hectares";
    layer.columns = {{Kind::text, "name"},
                     {Kind::whole, "id"},
                     {Kind::text, "tillage"},
                     {Kind::whole, "place"},
                     {Kind::whole, "place_low"},
                     {Kind::whole, "place_high"},
                     {Kind::real, "chance_top"},
                     {Kind::whole, "tie_group"},
                     {Kind::real, "loss_t_ha"},
                     {Kind::real, "loss_t"},
                     {Kind::real, "T_t_ha"},
                     {Kind::real, "times_T"},
                     {Kind::real, "avoidable_t"},
                     {Kind::text, "best_practice"},
                     {Kind::real, "way_m"},
                     {Kind::real, "delivered_t"},
                     {Kind::real, "deliv_avoid_t"},
                     {Kind::real, "area_ha"},
                     {Kind::real, "gap_share"},
                     {Kind::real, "R"},
                     {Kind::real, "K"},
                     {Kind::real, "LS"},
                     {Kind::real, "C"},
                     {Kind::real, "P"},
                     {Kind::text, "soil"},
                     {Kind::text, "remarks"}};
    bool any_T = false;
    for (const FieldResult* field : report::in_order(result)) {
        layer.rows.push_back(row_of(*field, result));
        any_T = any_T || field->times_T.has_value();
    }
    const std::vector<raster::Colour> colours = {
        {255, 245, 214, 255}, {250, 209, 138, 255}, {226, 140, 70, 255}, {160, 62, 28, 255}};
    layer.graduated = any_T ? raster::Graduated{"times_T", "loss over T", {1, 2, 4}, colours}
                            : raster::Graduated{"loss_t_ha", "loss, t/(ha yr)", {5, 10, 20}, colours};
    return layer;
}

/// The files of one run: all are written beside their targets before the first is put in place.
std::vector<std::string> write_files(const WorkedWatershed& worked, const WatershedArguments& arguments) {
    const WatershedResult& result = worked.result;
    const std::string& out = arguments.out;
    const std::vector<std::string> paths = {out + "-loss.tif", out + "-ls.tif", out + ".gpkg", out + ".csv"};
    for (const std::string& path : paths)
        if (std::filesystem::is_directory(path)) throw report::OutputError(path + " can't be written: it is a folder");
    raster::WriteOptions options;
    options.cloud_optimized = true;
    options.metadata = lineage(result);
    options.unit = "t/(ha*yr)";
    options.description = "yearly soil loss A";
    using raster::TileWriter;
    TileWriter loss(paths[0], result.placement, TileWriter::Kind::values, options);
    loss.put_all(worked.loss);
    options.unit = "1";
    options.description = "slope factor LS";
    TileWriter slope(paths[1], result.placement, TileWriter::Kind::values, options);
    slope.put_all(worked.slope_factor);
    raster::PendingFieldLayer fields(paths[2], result.placement, layer_of(result));
    loss.flush();
    slope.flush();
    report::write_whole(paths[3], report::watershed_csv(result, arguments.units));
    loss.finish();
    slope.finish();
    fields.finish();
    return paths;
}

}  // namespace

void watershed_options(CLI::App& command, WatershedArguments& arguments) {
    command.add_option("FILE", arguments.file, "a watershed file (docs/watershed.md); - is standard input")->required();
    command.add_option("--out", arguments.out, "NAME makes NAME-loss.tif, NAME-ls.tif, NAME.gpkg and NAME.csv");
    command.add_option("--map", arguments.map, "FILE.pdf, .svg or .png: the map of the ranking on one sheet")
        ->check([](const std::string& name) {
            const bool known = name.ends_with(".pdf") || name.ends_with(".svg") || name.ends_with(".png");
            return known ? std::string() : "a map is a .pdf, .svg or .png, not '" + name + "'";
        });
    command.add_option("--top", arguments.top, "how many fields can be visited, instead of 'visits' in the file")
        ->check(CLI::Range(1, 100000));
    auto* json = command.add_flag("--json", arguments.json, "one JSON object in SI units");
    command.add_flag("--csv", arguments.csv, "one row a field, for a spreadsheet")->excludes(json);
    units_option(command, arguments.units);
    command.add_option("--draws", arguments.draws, "draws of the ranking; 1000 when not given")
        ->check(CLI::Range(1, 1000000));
    command.add_option("--seed", arguments.seed, "seed of the draws; 1 when not given");
    command.add_option("--threads", arguments.threads, "as many as the machine has when not given")
        ->check(CLI::Range(1, 1024));
    command.add_flag("--quiet", arguments.quiet, "no progress on standard error");
    command.footer("docs/watershed.md says what is read, what is worked and whose each step is.");
}

Exit watershed(const WatershedArguments& arguments) {
    try {
        ::setenv("GDAL_NUM_THREADS", arguments.threads > 0 ? std::to_string(arguments.threads).c_str() : "ALL_CPUS", 0);
        const input::WatershedFile file = input::read_watershed_file(arguments.file);
        watershed::WorkSettings settings;
        if (arguments.top > 0) settings.visits = arguments.top;
        settings.draws = arguments.draws;
        settings.seed = arguments.seed;
        settings.threads = arguments.threads;
        WorkedWatershed worked;
        {
            ProgressLine line(!arguments.quiet);
            worked = watershed::work_watershed(file, settings, [&](double share) {
                line.reached(share);
                return interrupted_by() == 0;
            });
        }
        std::vector<std::string> written;
        if (!arguments.out.empty()) written = write_files(worked, arguments);
        if (!arguments.map.empty()) {
            report::write_whole(arguments.map, map_bytes(arguments.map, file, worked.result, arguments.units));
            written.push_back(arguments.map);
        }
        const std::string text = arguments.json  ? report::watershed_json(worked.result, SOILHOLD_VERSION)
                                 : arguments.csv ? report::watershed_csv(worked.result, arguments.units)
                                                 : report::watershed_text(worked.result, arguments.units, written);
        std::fputs(text.c_str(), stdout);
        return Exit::done;
    } catch (const watershed::Stopped&) {
        std::fputs("soilhold: stopped; nothing was written.\n", stderr);
        return Exit::machine_failed;
    }
}

}  // namespace soilhold::cli
