#include "watershed/map_from_disk.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "raster/atomic_file.h"
#include "raster/onto.h"
#include "raster/scratch_file.h"
#include "terrain/capped_accumulation.h"
#include "terrain/crossed_contour.h"
#include "terrain/stored_cuts.h"
#include "terrain/stored_directions.h"
#include "terrain/stored_fill.h"
#include "terrain/stored_flow.h"
#include "watershed/loss_factors.h"
#include "watershed/map_working.h"

namespace soilhold::watershed {

namespace {

using terrain::Direction;
using terrain::Grid;
using terrain::HeldRows;
using terrain::RowReader;
using terrain::Shape;
using terrain::StoredGrid;
using terrain::TileRows;

/// A grid in a scratch file of its own.
template <class T>
struct ScratchGrid {
    raster::ScratchFile file;
    StoredGrid<T> rows;
    ScratchGrid(const Shape& shape, const std::string& folder) : file(folder), rows(shape, file.store()) {}
};

/// Heights as they are read for the first time, and from then on from where they were kept.
class KeptHeights {
  public:
    KeptHeights(raster::HeightsFile& file, const std::string& folder)
        : file_(file), folder_(folder), kept_(file.shape(), folder) {}

    void read(std::int64_t row, Grid<float>& to) {
        while (next_ < row + to.rows()) keep_more();
        kept_.rows.read(row, to);
    }
    /// The ground that water is routed over: with the cuts that were made.
    RowReader<float> routed() {
        return [this](std::int64_t row, Grid<float>& to) {
            read(row, to);
            terrain::lower_cells(lowered, row, to);
        };
    }
    source::Remarks remarks;
    std::vector<terrain::LoweredCell> lowered;

  private:
    void keep_more() {
        Shape shape = file_.shape();
        shape.rows = std::min(terrain::strip_rows, shape.rows - next_);
        Grid<float> rows(shape, terrain::Unset{});
        file_.read(next_, rows, folder_);
        kept_.rows.write(next_, rows);
        next_ += shape.rows;
        if (next_ == file_.shape().rows) remarks = file_.finish();
    }

    raster::HeightsFile& file_;
    std::string folder_;
    ScratchGrid<float> kept_;
    std::int64_t next_ = 0;
};

/// What a strip is finished from, for as long as it is worked.
struct Band {
    TileRows rows;
    Grid<float> ground, filled, contour, area;
    Grid<Direction> ways;
    Grid<double> drained;
    Grid<std::uint8_t> channels;
};

template <class T>
HeldRows<T> held(const Grid<T>& grid, std::int64_t first) {
    HeldRows<T> rows(grid);
    rows.first = first;
    return rows;
}

class FromDisk {
  public:
    FromDisk(raster::HeightsFile& file, const std::string& path, const SlopeMapOptions& options,
             const MapTakers& takers, const DiskPlan& plan, const std::function<bool(double)>& progress)
        : file_(file),
          path_(path),
          options_(options),
          takers_(takers),
          plan_(plan),
          steps_(progress),
          shape_(file.shape()),
          folder_(raster::scratch_folder(options.folder)),
          cut_(shape_, plan.side),
          spreads_(options.routing != Routing::d8),
          channel_cells_(options.rules.channel_from_m2 / (shape_.cell_m * shape_.cell_m)),
          heights_(file, folder_) {
        result_.placement = file.placement();
        result_.shape = shape_;
    }

    SlopeMapResult work() {
        steps_.reached(0);
        if (options_.factors) {  // what can't be used is said before the work
            factors_.emplace(*options_.factors, result_.placement, folder_);
            on_strips_ = factors_->strips();
        }
        if (options_.pits.cuts) cut_open();
        fill_and_direct();
        steps_.reached(0.6);
        arrivals_ = terrain::stored_arrivals(cut_, ways_->reader(), {}, options_.threads, steps_.within(0.6, 0.7));
        if (barriers_ && (!spreads_ || takers_.area))
            held_arrivals_ = terrain::stored_arrivals(cut_, ways_->reader(), barriers_->rows.reader(), options_.threads,
                                                      steps_.within(0.7, 0.75));
        if (spreads_) find_stops();
        finish();
        add_cautions(path_, options_, result_);
        steps_.reached(1);
        return std::move(result_);
    }

  private:
    void fill_and_direct() {
        if (takers_.filled || spreads_) filled_.emplace(shape_, folder_);
        directed_.emplace(folder_);
        raster::ScratchFile floods(folder_), open_flats(folder_);
        terrain::StoredDirections directing(shape_, directed_->store(), open_flats.store(), tiling());
        bool placed = false;
        const auto take = [&](std::int64_t row, const Grid<float>& rows) {
            // All heights have been read by now.
            if (!std::exchange(placed, true)) place();
            if (filled_) filled_->rows.write(row, rows);
            directing.add(rows);
        };
        result_.pits.filled = terrain::fill_stored(shape_, heights_.routed(), floods.store(), take, tiling(),
                                                   steps_.within(options_.pits.cuts ? 0.2 : 0, 0.5));
        directing.finish(steps_.within(0.5, 0.6));
        ways_.emplace(directing.directions());
    }

    void cut_open() {
        const terrain::CutLimits& limits = *options_.pits.cuts;
        const std::int64_t halo = terrain::cut_halo(limits, shape_.cell_m);
        terrain::Cuts cuts = terrain::stored_cuts(
            shape_, [this](std::int64_t row, Grid<float>& to) { heights_.read(row, to); }, limits,
            {.side = std::max<std::int64_t>(256, 2 * halo), .threads = options_.threads}, steps_.within(0, 0.2));
        heights_.lowered = std::move(cuts.cells);
        result_.pits.cut = cuts.report;
    }

    void place() {
        result_.remarks = heights_.remarks;
        result_.cells_with_height = file_.cells_with_height();
        if (!options_.barriers.empty()) draw_barriers();
        if (takers_.placed) takers_.placed(result_.placement, shape_);
    }

    void draw_barriers() {
        barriers_.emplace(shape_, folder_);
        for (std::size_t i = 0; i < options_.barriers.size(); ++i) {
            const auto add = [&](std::int64_t row, const Grid<std::int32_t>& ids) {
                Grid<std::uint8_t> cells(ids.shape(), 0);
                if (i > 0) barriers_->rows.read(row, cells);
                for (std::size_t c = 0; c < cells.values().size(); ++c)
                    if (ids.values()[c] != raster::no_class) cells.values()[c] = 1;
                barriers_->rows.write(row, cells);
                if (i + 1 == options_.barriers.size())
                    result_.barrier_cells += std::ranges::count(cells.values(), std::uint8_t{1});
            };
            const source::Remarks said = raster::burn_in_rows(options_.barriers[i], result_.placement, barrier_burn(),
                                                              folder_, terrain::strip_rows, add);
            result_.remarks.insert(result_.remarks.end(), said.begin(), said.end());
        }
    }

    /// The rows of tiles that hold a row of the grid, as many as are summed at a time.
    TileRows rows_at(std::int64_t row, std::int64_t halo) const {
        const std::int64_t down = std::max<std::int64_t>(1, plan_.rows / plan_.side);
        return terrain::tile_rows(cut_, row / (down * plan_.side) * down, down, halo);
    }

    /// Ground that drains through each cell along single ways, past barriers.
    Grid<double> all_sums(const TileRows& rows, const Grid<Direction>& ways) {
        Grid<double> sums = terrain::stored_sums(cut_, rows, ways, nullptr, arrivals_);
        most_drained_ = std::max(most_drained_, std::ranges::max(sums.values()));
        return sums;
    }

    /// The same, anew at barriers where there are some.
    Grid<double> held_sums(const TileRows& rows, const Grid<Direction>& ways) const {
        if (!barriers_) return terrain::stored_sums(cut_, rows, ways, nullptr, arrivals_);
        const Grid<std::uint8_t> stops = with_halo(cut_, rows, barriers_->rows.reader());
        return terrain::stored_sums(cut_, rows, ways, &stops, held_arrivals_);
    }

    /// Where water that spreads is held: at barriers and channels.
    void find_stops() {
        stops_.emplace(shape_, folder_);
        for (std::int64_t row = 0; row < shape_.rows;) {
            steps_.reached(0.75 + 0.05 * static_cast<double>(row) / static_cast<double>(shape_.rows));
            const TileRows rows = rows_at(row, 1);
            Grid<std::uint8_t> stops({shape_.columns, rows.rows, shape_.cell_m}, 0);
            if (barriers_) barriers_->rows.read(row, stops);
            Grid<double> sums;
            terrain::in_parallel(1, options_.threads,
                                 [&](std::int64_t) { sums = all_sums(rows, with_halo(cut_, rows, ways_->reader())); });
            for (std::size_t c = 0; c < stops.values().size(); ++c)
                if (sums.values()[c] >= channel_cells_) stops.values()[c] = channel;
            stops_->rows.write(row, stops);
            row += rows.rows;
        }
    }

    std::shared_ptr<Band> band_at(std::int64_t row) {
        auto band = std::make_shared<Band>();
        band->rows = rows_at(row, 1);
        const TileRows& rows = band->rows;
        band->ground = with_halo<float>(cut_, rows, [this](std::int64_t r, Grid<float>& to) { heights_.read(r, to); });
        band->ways = with_halo(cut_, rows, ways_->reader());
        if (filled_) band->filled = with_halo(cut_, rows, filled_->rows.reader());
        if (!spreads_ || takers_.area) band->drained = held_sums(rows, band->ways);
        if (!spreads_) {
            if (barriers_) band->channels = channels_of(all_sums(rows, band->ways), channel_cells_);
            return band;
        }
        if (takers_.area) band->area = areas(*band);
        spread(*band);
        band->contour = terrain::crossed_contour(band->filled, band->ways, rule_of(options_.routing), tiling());
        return band;
    }

    Grid<float> areas(const Band& band) const {
        const double cell_m2 = shape_.cell_m * shape_.cell_m;
        Grid<float> area(band.drained.shape(), terrain::Unset{});
        for (std::int64_t r = 0; r < area.rows(); ++r) {
            const auto ground = band.ground.row(band.rows.row - band.rows.first + r);
            for (std::int64_t c = 0; c < area.columns(); ++c)
                area(r, c) = std::isnan(ground[static_cast<std::size_t>(c)])
                                 ? terrain::no_value
                                 : static_cast<float>(band.drained(r, c) * cell_m2);
        }
        return area;
    }

    /// The ground within the longest slope upstream, and what of it is a channel.
    void spread(Band& band) const {
        const std::int64_t steps =
            std::max<std::int64_t>(1, terrain::steps_within(options_.rules.longest_slope_m, shape_.cell_m));
        const TileRows rows = rows_at(band.rows.row, steps + 1);
        const auto filled = with_halo(cut_, rows, filled_->rows.reader());
        const auto ways = with_halo(cut_, rows, ways_->reader());
        const auto stops = with_halo(cut_, rows, stops_->rows.reader());
        const std::int64_t first = rows.row - rows.first;
        band.drained =
            terrain::capped_rows({filled, ways, &stops}, rule_of(options_.routing), steps, first, rows.rows,
                                 {.side = std::max<std::int64_t>(256, plan_.rows), .threads = options_.threads});
        band.channels = Grid<std::uint8_t>(band.drained.shape(), terrain::Unset{});
        const auto own =
            stops.values().subspan(static_cast<std::size_t>(first * shape_.columns), band.channels.values().size());
        std::ranges::transform(own, band.channels.values().begin(),
                               [](std::uint8_t stop) { return stop == channel ? std::uint8_t{1} : std::uint8_t{0}; });
    }

    void finish() {
        std::shared_ptr<Band> band;
        const GroundSource source{[&](const terrain::Strip& strip, StripGround& to) {
                                      if (!band || strip.row >= band->rows.row + band->rows.rows)
                                          band = band_at(strip.row);
                                      const TileRows& rows = band->rows;
                                      to.keeper = band;
                                      to.elevation = held(band->ground, rows.first);
                                      to.drained = held(band->drained, rows.row);
                                      to.ways = held(band->ways, rows.first);
                                      if (band->channels.rows() > 0) to.channels = held(band->channels, rows.row);
                                      if (band->contour.rows() > 0) to.contour = held(band->contour, rows.first);
                                      if (band->filled.rows() > 0) to.filled = held(band->filled, rows.first);
                                      if (band->area.rows() > 0) to.area = held(band->area, rows.row);
                                  },
                                  {}};
        const double from = spreads_ ? 0.8 : 0.75;
        const MapFindings found = finish_map(
            shape_, source, factors_ ? &on_strips_ : nullptr, options_.rules, takers_, options_.threads,
            [&](double share) {
                if (share < 1) steps_.reached(from + (1 - from) * share);
            },
            plan_.strips);
        if (factors_) {
            const source::Remarks lacks = factors_->lacks();
            result_.remarks.insert(result_.remarks.end(), lacks.begin(), lacks.end());
        }
        result_.gradient = found.gradient;
        result_.slope_factor = found.slope_factor;
        result_.loss = found.loss;
        result_.channel_cells = found.channel_cells;
        const double most = barriers_ || spreads_ ? most_drained_ : found.most_drained;
        result_.largest_basin_m2 = most * shape_.cell_m * shape_.cell_m;
    }

    terrain::Tiling tiling() const { return {.side = plan_.side, .threads = options_.threads}; }

    static constexpr std::uint8_t channel = 2;  // a barrier is 1

    raster::HeightsFile& file_;
    const std::string& path_;
    const SlopeMapOptions& options_;
    const MapTakers& takers_;
    const DiskPlan& plan_;
    Steps steps_;
    Shape shape_;
    std::string folder_;
    terrain::TileCut cut_;
    bool spreads_;
    double channel_cells_;
    KeptHeights heights_;
    std::optional<ScratchGrid<float>> filled_;
    std::optional<raster::ScratchFile> directed_;
    std::optional<StoredGrid<Direction>> ways_;
    std::optional<ScratchGrid<std::uint8_t>> barriers_, stops_;
    terrain::Arrivals arrivals_, held_arrivals_;
    std::optional<FactorStrips> factors_;
    StripFactors on_strips_;
    double most_drained_ = 0;
    SlopeMapResult result_;
};

}  // namespace

SlopeMapResult slope_map_from_disk(raster::HeightsFile& file, const std::string& path, const SlopeMapOptions& options,
                                   const MapTakers& takers, const DiskPlan& plan,
                                   const std::function<bool(double)>& progress) {
    const std::string folder = raster::scratch_folder(options.folder);
    const std::int64_t room = raster::room_in(folder);
    if (room < plan.scratch)
        throw raster::WriteError(
            fmt::format("{} has room for {}; working from the disk takes about {} there. Make "
                        "room, or set TMPDIR to another folder",
                        folder, bytes_in_words(room), bytes_in_words(plan.scratch)));
    return FromDisk(file, path, options, takers, plan, progress).work();
}

}  // namespace soilhold::watershed
