#include "raster/layer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "raster/open_raster.h"
#include "raster/raster_error.h"
#include "terrain/strips.h"

namespace soilhold::raster {

struct Layer::Open {
    std::string path;
    OpenRaster raster;
};

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

/// Reads a window in parts, as GDAL stores it, from the north.
class StoredWindow {
  public:
    Band facts;
    std::vector<Window> parts;  ///< of a few million cells; counted from the window's corner

    StoredWindow(const OpenRaster& open, const std::string& path, int number, const Window& window)
        : open_(open), path_(path), window_(window), band_(band_of(open, path, number)) {
        const Placement& place = open.placement;
        if (window.row < 0 || window.column < 0 || window.rows <= 0 || window.columns <= 0 ||
            window.row + window.rows > place.rows || window.column + window.columns > place.columns)
            throw std::invalid_argument("a window must lie within its layer");
        const Listening listening;
        facts = facts_of(band_);
        mask_ = facts.masked ? GDALGetMaskBand(band_) : nullptr;
        int block_columns = 1, block_rows = 1;
        GDALGetBlockSize(band_, &block_columns, &block_rows);
        // Whole blocks at a time, so that none is unpacked twice.
        constexpr std::int64_t most = std::int64_t{1} << 22;
        const auto blocks = [](std::int64_t cells, std::int64_t block) {
            return std::max<std::int64_t>(1, cells / block) * block;
        };
        const std::int64_t rows = std::min(window.rows, blocks(most / window.columns, block_rows));
        const std::int64_t columns = std::min(window.columns, blocks(most / rows, block_columns));
        for (std::int64_t row = 0; row < window.rows; row += rows)
            for (std::int64_t column = 0; column < window.columns; column += columns)
                parts.push_back(
                    {row, column, std::min(rows, window.rows - row), std::min(columns, window.columns - column)});
    }

    /// @param line  bytes from a row to the next one
    void read(const Window& part, void* to, GDALDataType type, std::int64_t line) {
        read_band(band_, part, to, type, line);
    }
    /// What a mask shows of a part; null where there is none.
    const std::uint8_t* shown(const Window& part) {
        if (!mask_) return nullptr;
        shown_.resize(static_cast<std::size_t>(part.rows * part.columns));
        read_band(mask_, part, shown_.data(), GDT_Byte, part.columns);
        return shown_.data();
    }

  private:
    void read_band(GDALRasterBandH band, const Window& part, void* to, GDALDataType type, std::int64_t line) {
        const Listening listening;
        const std::int64_t row = window_.row + part.row;
        const int stored_row = static_cast<int>(open_.south_up ? open_.placement.rows - row - part.rows : row);
        const int columns = static_cast<int>(part.columns), rows = static_cast<int>(part.rows);
        // A file from the south is turned as it comes: its last row first, each line before the one ahead of it.
        char* first = static_cast<char*>(to) + (open_.south_up ? (part.rows - 1) * line : 0);
        if (GDALRasterIO(band, GF_Read, static_cast<int>(window_.column + part.column), stored_row, columns, rows,
                         first, columns, rows, type, 0, static_cast<int>(open_.south_up ? -line : line)) != CE_None)
            refuse_unreadable(path_, listening);
    }

    const OpenRaster& open_;
    const std::string& path_;
    Window window_;
    GDALRasterBandH band_, mask_ = nullptr;
    std::vector<std::uint8_t> shown_;
};

/// Whether a float holds every number of the type.
bool fits_float(GDALRasterBandH band) {
    const GDALDataType type = GDALGetRasterDataType(band);
    return type == GDT_Float32 || type == GDT_Byte || type == GDT_Int16 || type == GDT_UInt16;
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

bool Layer::is_read_alike_anywhere(int band) const {
    const Listening listening;
    int columns = 1, rows = 1;
    GDALGetBlockSize(band_of(open_->raster, open_->path, band), &columns, &rows);
    const std::string kind = GDALGetDriverShortName(GDALGetDatasetDriver(open_->raster.dataset.get()));
    return kind == "GTiff" && rows <= terrain::strip_rows && terrain::strip_rows % rows == 0;
}

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
    terrain::Grid<float> grid(shape_of_window(placement(), window), terrain::Unset{});
    read_values(grid.values(), band, window, nodata);
    return grid;
}

ValuesSeen Layer::read_values(std::span<float> to, int band, const Window& window, std::optional<double> nodata,
                              double times) const {
    if (to.size() != static_cast<std::size_t>(window.rows * window.columns))
        throw std::invalid_argument("a window needs as many cells to go to");
    StoredWindow stored(open_->raster, open_->path, band, window);
    const Storing storing{nodata ? nodata : stored.facts.nodata, stored.facts.scale, stored.facts.offset, times};
    const bool at_once = fits_float(band_of(open_->raster, open_->path, band));
    std::vector<double> numbers;
    ValuesSeen seen;
    for (const Window& part : stored.parts) {
        float* first = to.data() + part.row * window.columns + part.column;
        if (at_once) {
            stored.read(part, first, GDT_Float32, window.columns * 4);
        } else {
            numbers.resize(static_cast<std::size_t>(part.rows * part.columns));
            stored.read(part, numbers.data(), GDT_Float64, part.columns * 8);
        }
        const std::uint8_t* shown = stored.shown(part);
        for (std::int64_t r = 0; r < part.rows; ++r) {
            float* cells = first + r * window.columns;
            const std::uint8_t* shown_here = shown ? shown + r * part.columns : nullptr;
            if (at_once)
                settle_values(cells, part.columns, shown_here, storing, seen);
            else
                settle_values(numbers.data() + r * part.columns, part.columns, shown_here, storing, cells, seen);
        }
    }
    return seen;
}

terrain::Grid<std::int32_t> Layer::classes(int band) const { return classes(band, whole(placement())); }

terrain::Grid<std::int32_t> Layer::classes(int band, const Window& window) const {
    StoredWindow stored(open_->raster, open_->path, band, window);
    const Band& facts = stored.facts;
    terrain::Grid<std::int32_t> grid(shape_of_window(placement(), window), no_class);
    std::vector<double> numbers;
    for (const Window& part : stored.parts) {
        numbers.resize(static_cast<std::size_t>(part.rows * part.columns));
        stored.read(part, numbers.data(), GDT_Float64, part.columns * 8);
        const std::uint8_t* shown = stored.shown(part);
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            if (!std::isfinite(numbers[i]) || (facts.nodata && is_nodata(numbers[i], *facts.nodata)) ||
                (shown && shown[i] == 0))
                continue;
            const double value = numbers[i] * facts.scale + facts.offset;
            const std::int64_t row = part.row + static_cast<std::int64_t>(i) / part.columns;
            const std::int64_t column = part.column + static_cast<std::int64_t>(i) % part.columns;
            if (value != std::floor(value) || std::abs(value) > 2147483647)
                throw RasterError(path(), "not-classes",
                                  fmt::format("row {}, column {} holds {:.10g}; classes and ids are whole numbers "
                                              "up to 2147483647. Is it the right raster?",
                                              window.row + row + 1, window.column + column + 1, value));
            grid(row, column) = static_cast<std::int32_t>(value);
        }
    }
    return grid;
}

ValuesSeen read_all_values(const Layer& layer, terrain::Grid<float>& to, int band, std::optional<double> nodata,
                           double times, int threads) {
    const Placement& place = layer.placement();
    if (to.rows() != place.rows || to.columns() != place.columns)
        throw std::invalid_argument("a layer needs a grid of its rows and columns");
    if (!layer.is_read_alike_anywhere(band)) return layer.read_values(to.values(), band, whole(place), nodata, times);
    terrain::PerThread<std::optional<Layer>> handles;
    std::vector<ValuesSeen> seen(static_cast<std::size_t>(terrain::strips_of(to.shape())));
    terrain::in_parallel(terrain::strips_of(to.shape()), threads, [&](std::int64_t number) {
        auto& own = handles.local();
        if (!own) own.emplace(layer.path());
        const terrain::Strip strip = terrain::strip_of(to.shape(), number);
        const auto cells = to.values().subspan(static_cast<std::size_t>(strip.row * place.columns),
                                               static_cast<std::size_t>(strip.rows * place.columns));
        seen[static_cast<std::size_t>(number)] =
            own->read_values(cells, band, {strip.row, 0, strip.rows, place.columns}, nodata, times);
    });
    ValuesSeen all;
    for (const ValuesSeen& one : seen) all.join(one);
    return all;
}

}  // namespace soilhold::raster
