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

/// A look at whether they can be ground: no land lies below -430 m or above 8850 m (from memory).
void look_at_heights(const std::string& path, const ValuesSeen& seen, std::int64_t cells, const HeightsWords& words,
                     HeightsPlan& plan) {
    const auto least = static_cast<double>(seen.least), most = static_cast<double>(seen.most);
    const std::int64_t none = seen.none;
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
            into_metres(to);
        } else {
            seen.join(layer.read_values(to.values(), options.band, {row, 0, to.rows(), to.columns()}, options.nodata,
                                        plan.height_m));
        }
        cells += to.shape().cells();
    }

    void into_metres(terrain::Grid<float>& heights) {
        settle_values(heights.values().data(), heights.shape().cells(), nullptr,
                      {.nodata = {}, .scale = 1, .offset = 0, .times = plan.height_m}, seen);
    }

    ElevationOptions options;
    Layer layer;
    OpenRaster raster;
    HeightsPlan plan;
    std::optional<WarpedRows> warped;
    ValuesSeen seen;  ///< of the heights that were read, in metres
    std::int64_t cells = 0;
};

HeightsFile::HeightsFile(const std::string& path, const ElevationOptions& options)
    : opened_(std::make_unique<Opened>(path, options)) {}
HeightsFile::~HeightsFile() = default;

const Placement& HeightsFile::placement() const { return opened_->plan.placement; }
const terrain::Shape& HeightsFile::shape() const { return opened_->plan.shape; }
bool HeightsFile::resampled() const { return opened_->plan.how.has_value(); }

terrain::Grid<float> HeightsFile::all(int threads) {
    Opened& file = *opened_;
    const HeightsPlan& plan = file.plan;
    file.cells = plan.shape.cells();
    if (!plan.how) {
        terrain::Grid<float> heights(plan.shape, terrain::Unset{});
        file.seen =
            read_all_values(file.layer, heights, file.options.band, file.options.nodata, plan.height_m, threads);
        return heights;
    }
    terrain::Grid<float> heights = warped_values(file.source(), plan.placement, *plan.how);
    if (!(plan.shape == heights.shape())) {
        terrain::Grid<float> in_metres(plan.shape, terrain::Unset{});
        std::ranges::copy(heights.values(), in_metres.values().begin());
        heights = std::move(in_metres);
    }
    file.into_metres(heights);
    return heights;
}

void HeightsFile::read(std::int64_t row, terrain::Grid<float>& to, const std::string& folder) {
    opened_->read(row, to, folder);
}

source::Remarks HeightsFile::finish() {
    look_at_heights(opened_->layer.path(), opened_->seen, opened_->cells, opened_->options.words, opened_->plan);
    return opened_->plan.remarks;
}

std::int64_t HeightsFile::cells_with_height() const { return opened_->cells - opened_->seen.none; }

Elevation read_elevation(const std::string& path, const ElevationOptions& options) {
    HeightsFile file(path, options);
    Elevation ready{file.all(options.threads), file.placement(), {}};
    ready.remarks = file.finish();
    ready.cells_with_height = file.cells_with_height();
    return ready;
}

}  // namespace soilhold::raster
