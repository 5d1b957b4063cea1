#include "raster/heights_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "raster/heights_plan.h"
#include "raster/layer.h"
#include "raster/open_raster.h"
#include "raster/raster_error.h"
#include "raster/warped.h"

namespace soilhold::raster {

namespace {

/// What was seen of the heights while they were read.
struct Seen {
    double least = INFINITY, most = -INFINITY;  ///< m
    std::int64_t none = 0, cells = 0;
};

void into_metres(const HeightsPlan& plan, terrain::Grid<float>& heights, Seen& seen) {
    seen.cells += heights.shape().cells();
    for (float& value : heights.values()) {
        if (std::isnan(value)) {
            ++seen.none;
            continue;
        }
        const double metres = static_cast<double>(value) * plan.height_m;
        value = static_cast<float>(metres);
        seen.least = std::min(seen.least, metres);
        seen.most = std::max(seen.most, metres);
    }
}

/// A look at whether they can be ground: no land lies below -430 m or above 8850 m (from memory).
void settle_heights(const std::string& path, const Seen& seen, const HeightsWords& words, HeightsPlan& plan) {
    const auto [least, most, none, cells] = seen;
    if (none == cells) throw RasterError(path, "no-heights", "no cell has a height. Was it cut out beside the map?");
    if (least < -600 || most > 9000) {
        const double odd = least < -600 ? least : most;
        throw RasterError(
            path, "no-ground-height",
            fmt::format(
                "it has heights of {:.5g} m, which no ground has. Does {:.8g} stand for 'no height' there? Then "
                "give {}{}; or is the unit of its heights another ({})?",
                odd, odd / plan.height_m, words.with(words.nodata, fmt::format("{:.8g}", odd / plan.height_m)),
                words.where, words.alone(words.height_unit)));
    }
    if (none > 0)
        plan.remarks.push_back({source::Weight::note, "no-height-cells",
                                fmt::format("{} of {} cells ({:.3g} %) have no height.", none, cells,
                                            100 * static_cast<double>(none) / static_cast<double>(cells)),
                                path});
}

}  // namespace

struct HeightsFile::Opened {
    Opened(const std::string& path, const ElevationOptions& wanted)
        : options(wanted), layer(path), raster(open_raster(path)), plan(plan_heights(layer, raster, options)) {}

    Source source() const { return {layer.path(), &raster, options.band, plan.crs, options.nodata}; }

    void read(std::int64_t row, terrain::Grid<float>& to, const std::string& folder) {
        if (plan.how) {
            if (!warped) warped.emplace(source(), plan.placement, *plan.how, folder);
            warped->read(row, to);
        } else {
            // Whole blocks of the usual kinds, a few million cells at a time.
            const std::int64_t fit = std::max<std::int64_t>(1024, (std::int64_t{1} << 22) / to.rows() / 1024 * 1024);
            for (std::int64_t column = 0; column < to.columns(); column += fit) {
                const Window window{row, column, to.rows(), std::min(fit, to.columns() - column)};
                const terrain::Grid<float> part = layer.values(options.band, window, options.nodata);
                for (std::int64_t r = 0; r < to.rows(); ++r) std::ranges::copy(part.row(r), to.row(r).begin() + column);
            }
        }
        into_metres(plan, to, seen);
    }

    ElevationOptions options;
    Layer layer;
    OpenRaster raster;
    HeightsPlan plan;
    std::optional<WarpedRows> warped;
    Seen seen;
};

HeightsFile::HeightsFile(const std::string& path, const ElevationOptions& options)
    : opened_(std::make_unique<Opened>(path, options)) {}
HeightsFile::~HeightsFile() = default;

const Placement& HeightsFile::placement() const { return opened_->plan.placement; }
const terrain::Shape& HeightsFile::shape() const { return opened_->plan.shape; }
bool HeightsFile::resampled() const { return opened_->plan.how.has_value(); }

terrain::Grid<float> HeightsFile::all() {
    Opened& file = *opened_;
    terrain::Grid<float> heights = file.plan.how ? warped_values(file.source(), file.plan.placement, *file.plan.how)
                                                 : file.layer.values(file.options.band, file.options.nodata);
    if (!(file.plan.shape == heights.shape())) {
        terrain::Grid<float> in_metres(file.plan.shape);
        std::ranges::copy(heights.values(), in_metres.values().begin());
        heights = std::move(in_metres);
    }
    into_metres(file.plan, heights, file.seen);
    return heights;
}

void HeightsFile::read(std::int64_t row, terrain::Grid<float>& to, const std::string& folder) {
    opened_->read(row, to, folder);
}

source::Remarks HeightsFile::finish() {
    settle_heights(opened_->layer.path(), opened_->seen, opened_->options.words, opened_->plan);
    return opened_->plan.remarks;
}

Elevation read_elevation(const std::string& path, const ElevationOptions& options) {
    HeightsFile file(path, options);
    Elevation ready{file.all(), file.placement(), {}};
    ready.remarks = file.finish();
    return ready;
}

}  // namespace soilhold::raster
