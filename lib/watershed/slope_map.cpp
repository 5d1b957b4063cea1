#include "watershed/slope_map.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "raster/heights_file.h"
#include "raster/layer.h"
#include "raster/onto.h"
#include "raster/scratch_file.h"
#include "terrain/accumulation.h"
#include "terrain/capped_accumulation.h"
#include "terrain/crossed_contour.h"
#include "terrain/d_infinity.h"
#include "terrain/flow_directions.h"
#include "terrain/multiple_flow.h"
#include "terrain/parted_ways.h"
#include "watershed/map_from_disk.h"
#include "watershed/map_working.h"

namespace soilhold::watershed {

namespace {

using terrain::Grid;
using terrain::Tiling;

Grid<std::uint8_t> barriers_of(const SlopeMapOptions& options, const raster::Placement& placement,
                               const terrain::Shape& shape, source::Remarks& remarks) {
    Grid<std::uint8_t> barriers;
    if (options.barriers.empty()) return barriers;
    barriers = Grid<std::uint8_t>(shape, 0);
    for (const std::string& path : options.barriers) {
        const raster::Classes drawn = raster::burn_onto(path, placement, barrier_burn());
        remarks.insert(remarks.end(), drawn.remarks.begin(), drawn.remarks.end());
        const auto from = drawn.grid.values();
        const auto to = barriers.values();
        for (std::size_t i = 0; i < to.size(); ++i) to[i] = to[i] || from[i] != raster::no_class;
    }
    return barriers;
}

Grid<float> areas(const Grid<double>& drained, const Grid<float>& ground) {
    const double cell_m2 = drained.shape().cell_m * drained.shape().cell_m;
    Grid<float> area(drained.shape(), terrain::Unset{});
    const auto from = drained.values();
    const auto height = ground.values();
    for (std::size_t i = 0; i < from.size(); ++i)
        area.values()[i] = std::isnan(height[i]) ? terrain::no_value : static_cast<float>(from[i] * cell_m2);
    return area;
}

void say_worked_from_disk(const std::string& path, std::int64_t takes, std::int64_t allowed, const DiskPlan& plan,
                          SlopeMapResult& result) {
    const std::string text = fmt::format(
        "Worked from the disk in strips of {} rows: in memory it takes {}, and {} is allowed. The results are the "
        "same.",
        plan.side, bytes_in_words(takes), bytes_in_words(allowed));
    result.remarks.push_back({source::Weight::note, "worked-from-disk", text, path});
}

/// Along single ways, with the ground above barriers and other fields' edges held back.
Grid<double> held_back(const Grid<terrain::Direction>& directions, const Grid<std::uint8_t>* stops,
                       const SlopeMapOptions& options, SlopeMapResult& result, const Tiling& tiling) {
    if (!options.fields) return terrain::accumulate(directions, {.barriers = stops}, tiling);
    raster::BurnOptions burn;
    burn.layer = options.fields->layer;
    burn.numbered = true;
    raster::Classes fields = raster::burn_onto(options.fields->path, result.placement, burn);
    const Grid<terrain::Direction> parted = terrain::parted_ways(directions, fields.grid, tiling);
    fields.grid = {};
    return terrain::accumulate(parted, {.barriers = stops}, tiling);
}

/// The ground within the longest slope upstream, where water spreads. Channels are barriers here, so that their banks
/// get none of their water.
Grid<double> spread_out(const terrain::CappedGround& ground, const Grid<std::uint8_t>& channels,
                        const SlopeMapOptions& options) {
    Grid<std::uint8_t> stops = channels;
    if (ground.barriers)
        std::ranges::transform(stops.values(), ground.barriers->values(), stops.values().begin(),
                               [](std::uint8_t a, std::uint8_t b) { return static_cast<std::uint8_t>(a | b); });
    const std::int64_t steps =
        std::max<std::int64_t>(1, terrain::steps_within(options.rules.longest_slope_m, stops.shape().cell_m));
    const Tiling tiling{.side = std::max<std::int64_t>(256, 2 * steps), .threads = options.threads};
    return terrain::capped_accumulation({ground.filled, ground.directions, &stops}, rule_of(options.routing), steps,
                                        tiling);
}

}  // namespace

raster::BurnOptions barrier_burn() {
    raster::BurnOptions burn;
    burn.all_touched = true;
    burn.edges = true;
    return burn;
}

void add_cautions(const std::string& path, const SlopeMapOptions& options, SlopeMapResult& result) {
    const auto caution = [&](const char* code, const std::string& text) {
        result.remarks.push_back({source::Weight::caution, code, text, path});
    };
    if (result.shape.cell_m > 15)
        caution("coarse-cells", fmt::format("Cells of {:.3g} m even out the bends of most hillslopes: slopes come out "
                                            "gentler, and LS with them. Take finer heights where there are some.",
                                            result.shape.cell_m));
    add_pit_cautions(path, options.pits, result.pits, result.shape.cell_m, result.cells_with_height, result.remarks);
    const double channels = static_cast<double>(result.channel_cells) /
                            static_cast<double>(std::max<std::int64_t>(1, result.cells_with_height));
    if (channels > 0.25)
        caution("many-channels", fmt::format("{:.0f} % of the cells drain so much ground that they count as channels, "
                                             "without LS. Give a larger {}, or take finer heights.",
                                             100 * channels, options.channel_word));
}

Grid<std::uint8_t> channels_of(const Grid<double>& drained, double channel_cells) {
    Grid<std::uint8_t> channels(drained.shape(), terrain::Unset{});
    std::ranges::transform(drained.values(), channels.values().begin(),
                           [&](double cells) { return cells >= channel_cells ? std::uint8_t{1} : std::uint8_t{0}; });
    return channels;
}

terrain::ShareRule rule_of(Routing routing) {
    if (routing == Routing::d_infinity) return terrain::d_infinity_flow;
    if (routing == Routing::multiple) return terrain::freeman_flow;
    return terrain::single_flow;
}

SlopeMapResult slope_map(const std::string& path, const SlopeMapOptions& options, const MapTakers& takers,
                         const std::function<bool(double)>& progress) {
    if (options.fields && options.routing != Routing::d8)
        throw std::invalid_argument("fields are told apart along single ways only");
    raster::HeightsFile file(path, options.elevation);
    check_cuts(path, options.pits, file.shape().cell_m);
    if (options.memory > 0 && !options.fields && memory_of_all(file, options, takers) > options.memory) {
        const DiskPlan plan = plan_from_disk(file, path, options, takers);
        SlopeMapResult result = slope_map_from_disk(file, path, options, takers, plan, progress);
        say_worked_from_disk(path, memory_of_all(file, options, takers), options.memory, plan, result);
        return result;
    }
    const Steps steps(progress);
    const Tiling tiling{.threads = options.threads};
    const bool spreads = options.routing != Routing::d8;
    SlopeMapResult result;

    steps.reached(0);
    Grid<float> ground = file.all(options.threads);
    result.placement = file.placement();
    result.shape = ground.shape();
    result.remarks = file.finish();
    result.cells_with_height = file.cells_with_height();
    Grid<std::uint8_t> barriers = barriers_of(options, result.placement, result.shape, result.remarks);
    result.barrier_cells = std::ranges::count_if(barriers.values(), [](std::uint8_t cell) { return cell != 0; });
    std::optional<FactorStrips> factors;
    StripFactors on_strips;
    if (options.factors) {  // what can't be used is said before the work
        factors.emplace(*options.factors, result.placement, raster::scratch_folder(options.folder));
        on_strips = factors->strips();
    }
    if (takers.placed) takers.placed(result.placement, result.shape);

    steps.reached(0.15);
    Grid<float> filled(result.shape, terrain::Unset{});
    terrain::in_parallel(terrain::strips_of(result.shape), options.threads, [&](std::int64_t number) {
        const terrain::Strip strip = terrain::strip_of(result.shape, number);
        std::copy_n(&ground(strip.row, 0), strip.rows * result.shape.columns, &filled(strip.row, 0));
    });
    if (options.pits.cuts) {
        const std::int64_t halo = terrain::cut_halo(*options.pits.cuts, result.shape.cell_m);
        const Tiling wide{.side = std::max<std::int64_t>(256, 4 * halo), .threads = options.threads};
        result.pits.cut = terrain::breach_depressions(filled, *options.pits.cuts, wide);
    }
    result.pits.filled = terrain::fill_depressions(filled, tiling);

    steps.reached(0.35);
    Grid<terrain::Direction> directions = terrain::flow_directions(filled, tiling);
    if (!spreads && !takers.filled) filled = {};

    steps.reached(0.5);
    const Grid<std::uint8_t>* stops = options.barriers.empty() ? nullptr : &barriers;
    const double cell_m2 = result.shape.cell_m * result.shape.cell_m;
    Grid<double> drained = terrain::accumulate(directions, {}, tiling);
    Grid<float> area, contour;
    Grid<std::uint8_t> channels;  // only where what drains is cut short: else `drained` tells
    if (stops != nullptr || options.fields || spreads) {
        result.largest_basin_m2 = std::ranges::max(drained.values()) * cell_m2;
        channels = channels_of(drained, options.rules.channel_from_m2 / cell_m2);
    }
    if (stops != nullptr || options.fields) {
        drained = {};
        drained = held_back(directions, stops, options, result, tiling);
    }
    if (spreads) {
        if (takers.area) area = areas(drained, ground);
        drained = {};
        drained = spread_out({filled, directions, stops}, channels, options);
        contour = terrain::crossed_contour(filled, directions, rule_of(options.routing), tiling);
        if (!takers.directions) directions = {};
        if (!takers.filled) filled = {};
    }
    barriers = {};

    steps.reached(0.6);
    const GroundSource source{[&](const terrain::Strip&, StripGround& strip) {
                                  strip.elevation = terrain::HeldRows(ground);
                                  strip.drained = terrain::HeldRows(drained);
                                  if (directions.rows() > 0) strip.ways = terrain::HeldRows(directions);
                                  if (contour.rows() > 0) strip.contour = terrain::HeldRows(contour);
                                  if (filled.rows() > 0) strip.filled = terrain::HeldRows(filled);
                                  if (channels.rows() > 0) strip.channels = terrain::HeldRows(channels);
                                  if (area.rows() > 0) strip.area = terrain::HeldRows(area);
                              },
                              {}};
    const MapFindings found = finish_map(result.shape, source, factors ? &on_strips : nullptr, options.rules, takers,
                                         options.threads, [&](double share) {
                                             if (share < 1) steps.reached(0.6 + 0.4 * share);
                                         });
    if (factors) {
        const source::Remarks lacks = factors->lacks();
        result.remarks.insert(result.remarks.end(), lacks.begin(), lacks.end());
    }
    result.gradient = found.gradient;
    result.slope_factor = found.slope_factor;
    result.loss = found.loss;
    result.channel_cells = found.channel_cells;
    if (channels.rows() == 0) result.largest_basin_m2 = found.most_drained * cell_m2;
    add_cautions(path, options, result);
    steps.reached(1);
    return result;
}

}  // namespace soilhold::watershed
