#include "raster/layer_strips.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "raster/source_onto.h"

namespace soilhold::raster {

namespace {

/// Where the grid's north-west cell lies in a raster of the same cells.
struct Corner {
    std::int64_t row = 0, column = 0;
};

/// Empty where the two have not the same cells.
std::optional<Corner> corner_in(const Placement& raster, const Placement& grid) {
    if (!same_crs(raster, grid)) return std::nullopt;
    const auto alike = [](double one, double other, std::int64_t cells) {
        // Less than a thousandth of a cell over the whole grid is rounding.
        return std::abs(one / other - 1) * static_cast<double>(cells) < 1e-3;
    };
    if (!alike(raster.cell_width, grid.cell_width, grid.columns) ||
        !alike(raster.cell_height, grid.cell_height, grid.rows))
        return std::nullopt;
    const Point corner = raster.to_cell({grid.west, grid.north});
    const double column = std::round(corner.x), row = std::round(corner.y);
    if (!(std::abs(corner.x - column) < 1e-3 && std::abs(corner.y - row) < 1e-3)) return std::nullopt;
    if (std::abs(column) > 1e9 || std::abs(row) > 1e9) return std::nullopt;
    return Corner{static_cast<std::int64_t>(row), static_cast<std::int64_t>(column)};
}

}  // namespace

struct LayerStrips::Open {
    Open(const std::string& path, const Placement& grid, Between how, const OntoOptions& asked, double unit,
         const std::string& folder)
        : layer(path), raster(open_raster(path)), placement(grid), options(asked), times(unit) {
        const Source source = source_for(path, raster, placement, options);
        Placement lies = layer.placement();
        lies.crs = source.crs;
        corner = corner_in(lies, placement);
        if (!corner)
            warped.emplace(source, placement, how == Between::average ? Resampling::average : Resampling::bilinear,
                           folder);
    }

    ValuesSeen read_cells(std::int64_t row, terrain::Grid<float>& to) const {
        const Placement& lies = layer.placement();
        const std::int64_t columns = placement.columns;
        Window window{row + corner->row, corner->column, to.rows(), columns};
        if (window.row >= 0 && window.row + window.rows <= lies.rows && window.column >= 0 &&
            window.column + columns <= lies.columns)
            return layer.read_values(to.values(), options.band, window, options.nodata, times);
        // A part of the strip, or none of it: the rest has no value.
        ValuesSeen found;
        std::ranges::fill(to.values(), terrain::no_value);
        const std::int64_t north = std::max<std::int64_t>(window.row, 0),
                           west = std::max<std::int64_t>(window.column, 0);
        const Window part{north, west, std::min(window.row + window.rows, lies.rows) - north,
                          std::min(window.column + columns, lies.columns) - west};
        found.none = to.rows() * columns;
        if (part.rows <= 0 || part.columns <= 0) return found;
        std::vector<float> values(static_cast<std::size_t>(part.rows * part.columns));
        found.none -= part.rows * part.columns;
        found.join(layer.read_values(values, options.band, part, options.nodata, times));
        for (std::int64_t r = 0; r < part.rows; ++r)
            std::copy_n(values.begin() + r * part.columns, part.columns,
                        &to(part.row - window.row + r, part.column - window.column));
        return found;
    }

    Layer layer;
    OpenRaster raster;
    Placement placement;
    OntoOptions options;
    double times;
    std::optional<Corner> corner;
    std::optional<WarpedRows> warped;
    ValuesSeen seen;
    std::int64_t cells = 0;
};

LayerStrips::LayerStrips(const std::string& path, const Placement& placement, Between how, const OntoOptions& options,
                         double times, const std::string& folder)
    : open_(std::make_unique<Open>(path, placement, how, options, times, folder)) {}
LayerStrips::~LayerStrips() = default;
LayerStrips::LayerStrips(LayerStrips&&) noexcept = default;
LayerStrips& LayerStrips::operator=(LayerStrips&&) noexcept = default;

ValuesSeen LayerStrips::read(std::int64_t row, terrain::Grid<float>& to) {
    ValuesSeen seen;
    if (open_->warped) {
        open_->warped->read(row, to);
        settle_values(to.values().data(), to.shape().cells(), nullptr,
                      {.nodata = {}, .scale = 1, .offset = 0, .times = open_->times}, seen);
    } else {
        seen = open_->read_cells(row, to);
    }
    open_->seen.join(seen);
    open_->cells += to.shape().cells();
    return seen;
}

source::Remarks LayerStrips::lacks() const {
    source::Remarks remarks;
    say_what_is_missing(open_->layer.path(), open_->seen.none, open_->cells, remarks);
    return remarks;
}

}  // namespace soilhold::raster
