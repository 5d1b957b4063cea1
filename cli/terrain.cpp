// soilhold terrain: the slope factor LS of each cell of a raster of heights.
#include "terrain.h"

#include <fmt/format.h>
#include <malloc.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>

#include "interrupt.h"
#include "memory_size.h"
#include "progress_line.h"
#include "raster/atomic_file.h"
#include "raster/cell_cache.h"
#include "raster/height_unit.h"
#include "run.h"
#include "terrain_words.h"
#include "units/reading.h"

namespace soilhold::cli {

namespace {

using raster::Placement;
using raster::TileWriter;
using terrain::Grid;

/// An argument that can't be read.
struct BadArgument {
    std::string why;
};

double read_argument(const char* option, units::Kind kind, const std::string& text) {
    try {
        return units::read(kind, text).si;
    } catch (const units::ReadingError& error) {
        throw BadArgument{fmt::format("{} {}: {}", option, text, error.what())};
    }
}

std::optional<raster::LengthUnit> read_unit(const char* option, const std::string& text) {
    if (text.empty()) return std::nullopt;
    const auto unit = raster::length_unit(text);
    if (!unit)
        throw BadArgument{fmt::format("{} {}: no such unit of length. One looks like this: m, ft.", option, text)};
    return unit;
}

std::int64_t read_memory(const std::string& text) {
    if (text.empty()) return usual_memory();
    try {
        return read_memory_size(text);
    } catch (const std::invalid_argument& error) {
        throw BadArgument{fmt::format("--memory {}: {}", text, error.what())};
    }
}

/// "slope,area", "length" -> slope, area, length, each once.
std::vector<std::string> outputs_of(const TerrainArguments& arguments) {
    const std::vector<std::string> known{"ls", "loss", "slope", "area", "filled", "directions", "length"};
    std::vector<std::string> outputs;
    for (const std::string& given : arguments.write)
        for (std::size_t at = 0; at <= given.size();) {
            const std::size_t end = std::min(given.find(',', at), given.size());
            const std::string output = given.substr(at, end - at);
            at = end + 1;
            if (std::ranges::find(known, output) == known.end())
                throw BadArgument{
                    fmt::format("--write {}: there are ls, loss, slope, area, filled, directions and length.", output)};
            if (output == "loss" && !arguments.factors.any())
                throw BadArgument{"--write loss: a loss needs --rain, --soil and --cover (and takes --practice)."};
            if (std::ranges::find(outputs, output) == outputs.end()) outputs.push_back(output);
        }
    if (outputs.empty()) outputs.emplace_back("ls");
    if (arguments.write.empty() && arguments.factors.any()) outputs.emplace_back("loss");
    return outputs;
}

watershed::SlopeMapOptions read_arguments(const TerrainArguments& arguments) {
    watershed::SlopeMapOptions options;
    raster::ElevationOptions& heights = options.elevation;
    heights.crs = arguments.crs;
    heights.project = arguments.project;
    heights.cell_unit = read_unit("--cell-unit", arguments.cell_unit);
    heights.height_unit = read_unit("--height-unit", arguments.height_unit);
    if (!arguments.cell.empty()) {
        heights.cell_m = read_argument("--cell", units::Kind::length, arguments.cell);
        if (!(heights.cell_m > 0)) throw BadArgument{"--cell " + arguments.cell + ": a cell has a width above 0."};
    }
    if (!arguments.nodata.empty()) {
        char* end = nullptr;
        heights.nodata = std::strtod(arguments.nodata.c_str(), &end);
        if (*end != '\0') throw BadArgument{"--nodata " + arguments.nodata + ": that is no number."};
    }
    options.barriers = arguments.barriers;
    if (!arguments.longest.empty()) {
        const double longest_m = read_argument("--longest", units::Kind::length, arguments.longest);
        if (!(longest_m > 0 && longest_m <= terrain::most_slope_m))
            throw BadArgument{"--longest " + arguments.longest +
                              ": water runs as a sheet and in rills for at most 304.8 m (1000 ft)."};
        options.rules.longest_slope_m = longest_m;
    }
    if (!arguments.channel.empty()) {
        options.rules.channel_from_m2 = 1e4 * read_argument("--channel", units::Kind::area, arguments.channel);
        if (!(options.rules.channel_from_m2 > 0))
            throw BadArgument{"--channel " + arguments.channel + ": a channel drains more than nothing."};
    }
    if (arguments.pits == "breach") options.pits.cuts.emplace();
    const auto cut_limit = [&](const char* option, const std::string& text, double most_m, double& limit_m) {
        if (text.empty()) return;
        if (!options.pits.cuts)
            throw BadArgument{
                fmt::format("{} {}: that holds for pits that are cut open: add --pits breach.", option, text)};
        limit_m = read_argument(option, units::Kind::length, text);
        if (!(limit_m > 0 && limit_m <= most_m))
            throw BadArgument{fmt::format("{} {}: above 0 and at most {:g} m.", option, text, most_m)};
    };
    terrain::CutLimits unused;
    terrain::CutLimits& cuts = options.pits.cuts ? *options.pits.cuts : unused;
    cut_limit("--longest-cut", arguments.longest_cut, 2000, cuts.longest_m);
    cut_limit("--deepest-cut", arguments.deepest_cut, 100, cuts.deepest_m);
    using factors::RillRatio;
    options.rules.rill_ratio = arguments.rills == "low"       ? RillRatio::low
                               : arguments.rills == "high"    ? RillRatio::high
                               : arguments.rills == "thawing" ? RillRatio::thawing
                                                              : RillRatio::moderate;
    using watershed::Routing;
    options.routing = arguments.routing == "d-infinity" ? Routing::d_infinity
                      : arguments.routing == "multiple" ? Routing::multiple
                                                        : Routing::d8;
    options.threads = arguments.threads;
    try {
        options.factors = read_factors(arguments.factors);
    } catch (const std::invalid_argument& wrong) {
        throw BadArgument{wrong.what()};
    }
    options.memory = read_memory(arguments.memory);
    // Sums of rises are counted in 64 bits: 100 thousand million cells of 5 m each still fit.
    heights.most_cells = 100'000'000'000;
    return options;
}

/// NAME for NAME-ls.tif: as given, or the raster's own name without its ending, in the folder one stands in.
std::string stem_of(const TerrainArguments& arguments) {
    return arguments.out.empty() ? std::filesystem::path(arguments.file).stem().string() : arguments.out;
}

std::string folder_of(const std::string& path) {
    const std::string folder = std::filesystem::path(path).parent_path().string();
    return folder.empty() ? "." : folder;
}

/// The files of one run: each is written as its strips come, all are put in place at the end.
class Files {
  public:
    Files(const TerrainArguments& arguments, const watershed::SlopeMapOptions& options)
        : arguments_(arguments), options_(options), stem_(stem_of(arguments)) {}

    std::string path(const std::string& output) const { return stem_ + "-" + output + ".tif"; }
    const std::vector<std::string>& paths() const { return paths_; }

    watershed::MapTakers::Values values(const std::string& output, const std::string& unit,
                                        const std::string& description, float factor = 1) {
        const std::size_t file = add(output, unit, description, TileWriter::Kind::values);
        if (factor == 1)
            return [this, file](std::int64_t row, const Grid<float>& strip) { files_[file]->put(row, 0, strip); };
        return [this, file, factor](std::int64_t row, const Grid<float>& strip) {
            Grid<float> times(strip.shape(), terrain::Unset{});
            std::ranges::transform(strip.values(), times.values().begin(),
                                   [factor](float value) { return value * factor; });
            files_[file]->put(row, 0, times);
        };
    }

    watershed::MapTakers::Classes classes(const std::string& output, const std::string& description) {
        const std::size_t file = add(output, "", description, TileWriter::Kind::classes);
        return [this, file](std::int64_t row, const Grid<std::uint8_t>& strip) { files_[file]->put(row, 0, strip); };
    }

    void open(const Placement& placement) {
        for (std::size_t i = 0; i < paths_.size(); ++i)
            files_.push_back(std::make_unique<TileWriter>(paths_[i], placement, wanted_[i].kind, wanted_[i].options));
    }

    void put_in_place() {
        for (const auto& file : files_) file->flush();
        for (const auto& file : files_) file->finish();
    }

  private:
    struct Wanted {
        TileWriter::Kind kind;
        raster::WriteOptions options;
    };

    std::size_t add(const std::string& output, const std::string& unit, const std::string& description,
                    TileWriter::Kind kind) {
        raster::WriteOptions write;
        write.unit = unit;
        write.description = description;
        write.metadata = terrain_lineage(arguments_, options_, output);
        // Only heights repeat from cell to cell; what is worked from them differs in all its digits.
        write.predictor = output == "filled" ? 2 : 1;
        if (kind == TileWriter::Kind::classes) write.no_class = 0;
        paths_.push_back(path(output));
        wanted_.push_back({kind, write});
        return wanted_.size() - 1;
    }

    const TerrainArguments& arguments_;
    const watershed::SlopeMapOptions& options_;
    std::string stem_;
    std::vector<std::string> paths_;
    std::vector<Wanted> wanted_;
    std::vector<std::unique_ptr<TileWriter>> files_;
};

watershed::MapTakers takers_for(const std::vector<std::string>& write, Files& files) {
    watershed::MapTakers takers;
    takers.placed = [&files](const Placement& placement, const terrain::Shape&) { files.open(placement); };
    for (const std::string& output : write) {
        if (output == "ls") takers.slope_factor = files.values("ls", "1", "slope factor LS");
        if (output == "loss") takers.loss = files.values("loss", "t/(ha*yr)", "yearly soil loss A");
        if (output == "slope") takers.gradient = files.values("slope", "%", "slope, rise over run", 100);
        if (output == "filled") takers.filled = files.values("filled", "m", "height, pits drained");
        if (output == "area")
            takers.area = files.values("area", "m2", "ground that drains through the cell, itself included");
        if (output == "length")
            takers.slope_length = files.values("length", "m", "slope length that LS was worked out for");
        if (output == "directions")
            takers.directions = files.classes(
                "directions", "water goes to: 1 E, 2 S, 3 W, 4 N, 5 SE, 6 SW, 7 NW, 8 NE, 9 out of the grid");
    }
    return takers;
}

void check_targets(const TerrainArguments& arguments, const Files& files, const std::vector<std::string>& outputs,
                   const watershed::SlopeMapOptions& options) {
    const auto stands_for = [](const std::string& one, const std::string& other) {
        std::error_code none;
        return std::filesystem::equivalent(one, other, none);
    };
    for (const std::string& output : outputs) {
        if (stands_for(files.path(output), arguments.file))
            throw BadArgument{files.path(output) + " is the raster of heights itself. Give another --out."};
        for (const watershed::FactorGiven& factor : options.factors.value_or(watershed::FactorsGiven{}))
            if (!factor.path.empty() && stands_for(files.path(output), factor.path))
                throw BadArgument{files.path(output) + " is the raster of a factor itself. Give another --out."};
    }
    // A folder that can't be written is said before the work, not after it.
    if (!raster::written_unnamed(files.path(outputs.front()))) hold_back_interrupts();
}

}  // namespace

void terrain_options(CLI::App& command, TerrainArguments& arguments) {
    command.add_option("DEM", arguments.file, "a raster of ground heights, of any kind GDAL reads")->required();
    command.add_option("--out", arguments.out, "NAME makes NAME-ls.tif; the raster's own name when not given");
    command
        .add_option("--write", arguments.write,
                    "grids: ls,loss,slope,area,filled,directions,length; ls, and loss with factors, when not given")
        ->allow_extra_args(false);
    command.add_option("--rain", arguments.factors.rain, "R for a loss: 175 US, or a raster and its unit, 'r.tif SI'");
    command.add_option("--soil", arguments.factors.soil, "K: 0.32 US, or a raster and its unit, 'k.tif SI'");
    command.add_option("--cover", arguments.factors.cover, "C: 0.2, or a raster");
    command.add_option("--practice", arguments.factors.practice, "P: 0.5, or a raster; 1 when not given");
    command.add_option("--cell", arguments.cell, "width of the working cell, like 5 m; the file's when not given");
    command.add_option("--project", arguments.project, "bring it onto this map: EPSG:32617, or auto (its UTM zone)");
    command.add_option("--crs", arguments.crs, "the map the file is in, where it doesn't say");
    command.add_option("--cell-unit", arguments.cell_unit, "m or ft, for a file without a map");
    command.add_option("--height-unit", arguments.height_unit, "m or ft, where the file doesn't say");
    command.add_option("--nodata", arguments.nodata, "what stands for 'no height', where the file doesn't say");
    command
        .add_option("--barriers", arguments.barriers,
                    "a vector file whose lines and edges of areas stop water; may be given again")
        ->allow_extra_args(false);
    command.add_option("--longest", arguments.longest, "longest slope; 400 ft when not given, at most 1000 ft");
    command.add_option("--channel", arguments.channel, "drained ground from which a cell is a channel; 2 ha");
    command.add_option("--pits", arguments.pits, "fill (when not given), or breach: cut banks through first")
        ->check(CLI::IsMember({"fill", "breach"}));
    command.add_option("--longest-cut", arguments.longest_cut, "of a pit that is cut open; 100 m when not given");
    command.add_option("--deepest-cut", arguments.deepest_cut, "of a pit that is cut open; 3 m when not given");
    command.add_option("--rills", arguments.rills, "share of rills: low, moderate (when not given), high, thawing")
        ->check(CLI::IsMember({"low", "moderate", "high", "thawing"}));
    command.add_option("--routing", arguments.routing, "of water: d8 (when not given), d-infinity, multiple")
        ->check(CLI::IsMember({"d8", "d-infinity", "multiple"}));
    command.add_option("--memory", arguments.memory,
                       "what it may take, like 2 GB; larger maps are worked from the disk; a quarter of the machine's");
    command.add_option("--threads", arguments.threads, "as many as the machine has when not given")
        ->check(CLI::Range(1, 1024));
    command.add_flag("--json", arguments.json, "one JSON object in SI units");
    command.add_flag("--quiet", arguments.quiet, "no progress on standard error");
    command.footer("docs/terrain.md says what is done, in order, and whose each step is.");
}

std::vector<std::string> with_units_joined(const std::vector<std::string>& words) {
    std::vector<std::string> joined;
    for (std::size_t i = 0; i < words.size(); ++i) {
        joined.push_back(words[i]);
        const bool rain = words[i] == "--rain", soil = words[i] == "--soil", memory = words[i] == "--memory";
        const bool length = words[i] == "--cell" || words[i] == "--longest" || words[i] == "--longest-cut" ||
                            words[i] == "--deepest-cut";
        if ((!length && !rain && !soil && !memory && words[i] != "--channel") || i + 2 >= words.size()) continue;
        const bool number = words[i + 1].find_first_not_of("0123456789.") == std::string::npos;
        const units::Kind kind = rain     ? units::Kind::erosivity
                                 : soil   ? units::Kind::erodibility
                                 : length ? units::Kind::length
                                          : units::Kind::area;
        const bool unit = memory ? is_memory_unit(words[i + 2]) : units::find_unit(kind, words[i + 2]) != nullptr;
        if ((!number && !rain && !soil) || !unit) continue;
        joined.push_back(words[i + 1] + " " + words[i + 2]);
        i += 2;
    }
    return joined;
}

Exit terrain(const TerrainArguments& arguments) {
    try {
        watershed::SlopeMapOptions options = read_arguments(arguments);
        raster::keep_cells_within(options.memory / 8);
        ::setenv("GDAL_NUM_THREADS", arguments.threads > 0 ? std::to_string(arguments.threads).c_str() : "ALL_CPUS", 0);
        Files files(arguments, options);
        const std::vector<std::string> outputs = outputs_of(arguments);
        check_targets(arguments, files, outputs, options);
        options.folder = folder_of(files.path("ls"));
        const watershed::MapTakers takers = takers_for(outputs, files);
        watershed::SlopeMapResult result;
        {
            ProgressLine line(!arguments.quiet);
            result = watershed::slope_map(arguments.file, options, takers, [&](double share) {
                line.reached(share);
                ::malloc_trim(0);  // what a step has freed is for the next one's grids
                return interrupted_by() == 0;
            });
        }
        if (options.factors && arguments.factors.practice.empty())
            result.remarks.push_back({source::Weight::note, "no-practice",
                                      "No --practice was given: P is 1, as on rows straight up and down the slope.",
                                      arguments.file});
        files.put_in_place();
        const TerrainSaid said{arguments, options, result, files.paths()};
        std::fputs((arguments.json ? terrain_json(said) : terrain_text(said)).c_str(), stdout);
        return Exit::done;
    } catch (const BadArgument& bad) {
        return refuse_arguments(bad.why.c_str());
    } catch (const watershed::Stopped&) {
        std::fputs("soilhold: stopped; nothing was written.\n", stderr);
        return Exit::machine_failed;
    }
}

}  // namespace soilhold::cli
