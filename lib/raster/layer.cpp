#include "raster/layer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "raster/open_raster.h"
#include "raster/raster_error.h"

namespace soilhold::raster {

struct Layer::Open {
    std::string path;
    OpenRaster raster;
};

bool is_nodata(double value, double nodata) {
    if (std::isnan(value)) return true;
    if (std::isnan(nodata)) return false;
    if (value == nodata || static_cast<float>(value) == static_cast<float>(nodata)) return true;
    // No measured value is that large: a mark of the last digits a format could write.
    return std::abs(nodata) > 1e30 && std::abs(value - nodata) <= 1e-4 * std::abs(nodata);
}

namespace {

std::optional<double> nodata_of(GDALRasterBandH band) {
    int given = 0;
    double value = 0;
    const GDALDataType type = GDALGetRasterDataType(band);
    if (type == GDT_Int64)
        value = static_cast<double>(GDALGetRasterNoDataValueAsInt64(band, &given));
    else if (type == GDT_UInt64)
        value = static_cast<double>(GDALGetRasterNoDataValueAsUInt64(band, &given));
    else
        value = GDALGetRasterNoDataValue(band, &given);
    return given != 0 ? std::optional<double>(value) : std::nullopt;
}

Band facts_of(GDALRasterBandH band) {
    Band facts;
    const GDALDataType type = GDALGetRasterDataType(band);
    facts.number_type = GDALGetDataTypeName(type);
    facts.nodata = nodata_of(band);
    int given = 0;
    const double scale = GDALGetRasterScale(band, &given);
    if (given != 0 && std::isfinite(scale) && scale != 0) facts.scale = scale;
    const double offset = GDALGetRasterOffset(band, &given);
    if (given != 0 && std::isfinite(offset)) facts.offset = offset;
    facts.whole_numbers = GDALDataTypeIsInteger(type) != 0 && facts.scale == 1 && facts.offset == 0;
    facts.unit = text_or_empty(GDALGetRasterUnitType(band));
    facts.description = text_or_empty(GDALGetDescription(band));
    const int flags = GDALGetMaskFlags(band);
    facts.masked = (flags & (GMF_ALL_VALID | GMF_NODATA)) == 0;
    return facts;
}

/// Calls take(row, column, stored value, present) for each cell of the window, row by row, with as many rows in
/// memory as a few million cells need.
template <class Take>
void read_cells(const OpenRaster& open, const std::string& path, int number, const Window& window,
                std::optional<double> nodata, const Take& take) {
    const Placement& place = open.placement;
    if (window.row < 0 || window.column < 0 || window.rows <= 0 || window.columns <= 0 ||
        window.row + window.rows > place.rows || window.column + window.columns > place.columns)
        throw std::invalid_argument("a window must lie within its layer");
    const Listening listening;
    GDALRasterBandH band = band_of(open, path, number);
    const Band facts = facts_of(band);
    if (!nodata) nodata = facts.nodata;
    GDALRasterBandH mask = facts.masked ? GDALGetMaskBand(band) : nullptr;
    int block_columns = 1, block_rows = 1;
    GDALGetBlockSize(band, &block_columns, &block_rows);
    // Whole blocks at a time, so that none is unpacked twice.
    const std::int64_t fit = std::max<std::int64_t>(1, (std::int64_t{1} << 22) / window.columns);
    const std::int64_t strip = fit > block_rows ? fit / block_rows * block_rows : fit;
    std::vector<double> values;
    std::vector<std::uint8_t> shown;
    const int columns = static_cast<int>(window.columns), column = static_cast<int>(window.column);
    for (std::int64_t done = 0; done < window.rows; done += strip) {
        const std::int64_t rows = std::min(strip, window.rows - done);
        const std::int64_t row = window.row + done;
        const int stored_row = static_cast<int>(open.south_up ? place.rows - row - rows : row);
        const auto cells = static_cast<std::size_t>(rows * window.columns);
        values.resize(cells);
        if (GDALRasterIO(band, GF_Read, column, stored_row, columns, static_cast<int>(rows), values.data(), columns,
                         static_cast<int>(rows), GDT_Float64, 0, 0) != CE_None)
            refuse_unreadable(path, listening);
        if (mask) {
            shown.resize(cells);
            if (GDALRasterIO(mask, GF_Read, column, stored_row, columns, static_cast<int>(rows), shown.data(), columns,
                             static_cast<int>(rows), GDT_Byte, 0, 0) != CE_None)
                refuse_unreadable(path, listening);
        }
        for (std::int64_t r = 0; r < rows; ++r) {
            const std::int64_t from = (open.south_up ? rows - 1 - r : r) * window.columns;
            for (std::int64_t c = 0; c < window.columns; ++c) {
                const auto at = static_cast<std::size_t>(from + c);
                const bool present = std::isfinite(values[at]) && !(nodata && is_nodata(values[at], *nodata)) &&
                                     (!mask || shown[at] != 0);
                take(done + r, c, values[at] * facts.scale + facts.offset, present);
            }
        }
    }
}

Window whole(const Placement& place) { return {0, 0, place.rows, place.columns}; }

terrain::Shape shape_of_window(const Placement& place, const Window& window) {
    terrain::Shape shape = shape_of(place);
    shape.columns = window.columns;
    shape.rows = window.rows;
    return shape;
}

}  // namespace

Layer::Layer(const std::string& path) : open_(new Open{path, open_raster(path)}) {}
Layer::~Layer() = default;
Layer::Layer(Layer&&) noexcept = default;
Layer& Layer::operator=(Layer&&) noexcept = default;

const std::string& Layer::path() const { return open_->path; }
const Placement& Layer::placement() const { return open_->raster.placement; }
int Layer::bands() const { return GDALGetRasterCount(open_->raster.dataset.get()); }

Band Layer::band(int number) const {
    const Listening listening;
    return facts_of(band_of(open_->raster, open_->path, number));
}

terrain::Grid<float> Layer::values(int band, std::optional<double> nodata) const {
    return values(band, whole(placement()), nodata);
}

terrain::Grid<float> Layer::values(int band, const Window& window, std::optional<double> nodata) const {
    band_of(open_->raster, open_->path, band);
    terrain::Grid<float> grid(shape_of_window(placement(), window), terrain::no_value);
    read_cells(open_->raster, open_->path, band, window, nodata,
               [&](std::int64_t row, std::int64_t column, double value, bool present) {
                   const auto rounded = static_cast<float>(value);
                   if (present && std::isfinite(rounded)) grid(row, column) = rounded;
               });
    return grid;
}

terrain::Grid<std::int32_t> Layer::classes(int band) const { return classes(band, whole(placement())); }

terrain::Grid<std::int32_t> Layer::classes(int band, const Window& window) const {
    band_of(open_->raster, open_->path, band);
    terrain::Grid<std::int32_t> grid(shape_of_window(placement(), window), no_class);
    read_cells(open_->raster, open_->path, band, window, std::nullopt,
               [&](std::int64_t row, std::int64_t column, double value, bool present) {
                   if (!present) return;
                   if (value != std::floor(value) || std::abs(value) > 2147483647)
                       throw RasterError(
                           path(), "not-classes",
                           fmt::format("row {}, column {} holds {:.10g}; classes and ids are whole numbers "
                                       "up to 2147483647. Is it the right raster?",
                                       window.row + row + 1, window.column + column + 1, value));
                   grid(row, column) = static_cast<std::int32_t>(value);
               });
    return grid;
}

}  // namespace soilhold::raster
