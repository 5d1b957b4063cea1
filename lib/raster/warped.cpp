#include "raster/warped.h"

#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal_utils.h>

#include <cmath>
#include <vector>

#include "raster/raster_error.h"

namespace soilhold::raster {

namespace {

struct Words {
    explicit Words(const std::vector<std::string>& words) {
        for (const std::string& word : words) list = CSLAddString(list, word.c_str());
    }
    ~Words() { CSLDestroy(list); }
    Words(const Words&) = delete;
    Words& operator=(const Words&) = delete;
    char** list = nullptr;
};

[[noreturn]] void refuse_warp(const Source& source, const Listening& listening) {
    throw RasterError(source.path, "unreadable-raster",
                      fmt::format("it can't be brought onto the grid (GDAL: {}). Is its coordinate system right, and "
                                  "was it fetched whole?",
                                  listening.words()));
}

/// The one band, with the coordinate system and the nodata value that count.
Dataset single_band(const Source& source, const Listening& listening) {
    std::vector<std::string> words = {"-of", "VRT", "-b", std::to_string(source.band)};
    GDALRasterBandH band = band_of(*source.open, source.path, source.band);
    const GDALDataType type = GDALGetRasterDataType(band);
    int given = 0;
    std::optional<double> nodata = source.nodata;
    const bool wide = type == GDT_Int64 || type == GDT_UInt64;
    if (!nodata && !wide) {
        const double value = GDALGetRasterNoDataValue(band, &given);
        if (given != 0) nodata = value;
    }
    // A mark that lost its last digits on the way to the file stands for the lowest or highest number.
    if (nodata && type == GDT_Float32 && std::abs(*nodata) > 3.40e38)
        nodata = std::copysign(static_cast<double>(std::numeric_limits<float>::max()), *nodata);
    if (!nodata && (type == GDT_Float32 || type == GDT_Float64)) nodata = std::nan("");
    if (nodata) words.insert(words.end(), {"-a_nodata", std::isnan(*nodata) ? "nan" : fmt::format("{:.17g}", *nodata)});
    if (!source.crs.empty()) words.insert(words.end(), {"-a_srs", source.crs});
    const Words list(words);
    GDALTranslateOptions* options = GDALTranslateOptionsNew(list.list, nullptr);
    Dataset made(options ? GDALTranslate("", source.open->dataset.get(), options, nullptr) : nullptr);
    GDALTranslateOptionsFree(options);
    if (!made) refuse_warp(source, listening);
    return made;
}

/// @param path  of what is made; empty: in memory
Dataset warp(const Source& source, GDALDatasetH single, const std::vector<std::string>& words,
             const Listening& listening, const std::string& path = "") {
    const Words list(words);
    GDALWarpAppOptions* options = GDALWarpAppOptionsNew(list.list, nullptr);
    GDALDatasetH from[1] = {single};
    int misused = 0;
    Dataset made(options ? GDALWarp(path.c_str(), nullptr, 1, from, options, &misused) : nullptr);
    GDALWarpAppOptionsFree(options);
    if (!made || misused != 0) refuse_warp(source, listening);
    return made;
}

/// @param format  "MEM", or what a file is
std::vector<std::string> words_for(const Source& source, const Placement& onto, Resampling how,
                                   const char* format = "MEM") {
    const auto exact = [](double value) { return fmt::format("{:.17g}", value); };
    // Exact cells, not overviews; heights stay as they are where coordinate systems bring vertical parts along.
    std::vector<std::string> words = {"-of",
                                      format,
                                      "-ovr",
                                      "NONE",
                                      "-novshift",
                                      "-et",
                                      "0.01",
                                      "-wm",
                                      "256",
                                      "-te",
                                      exact(onto.west),
                                      exact(onto.south()),
                                      exact(onto.east()),
                                      exact(onto.north),
                                      "-ts",
                                      std::to_string(onto.columns),
                                      std::to_string(onto.rows),
                                      "-r",
                                      how == Resampling::nearest    ? "near"
                                      : how == Resampling::bilinear ? "bilinear"
                                                                    : "average"};
    // Between four neighbours and no more: the warper's widened kernel bends planes by some hundredths of a cell.
    if (how == Resampling::bilinear) words.insert(words.end(), {"-wo", "XSCALE=1", "-wo", "YSCALE=1"});
    if (!source.crs.empty() && !onto.crs.empty()) words.insert(words.end(), {"-t_srs", onto.crs});
    return words;
}

template <class T>
terrain::Grid<T> read_all(const Source& source, GDALDatasetH made, const Placement& onto, GDALDataType type,
                          const Listening& listening) {
    terrain::Grid<T> grid(shape_of(onto));
    const int columns = static_cast<int>(onto.columns), rows = static_cast<int>(onto.rows);
    if (GDALRasterIO(GDALGetRasterBand(made, 1), GF_Read, 0, 0, columns, rows, grid.values().data(), columns, rows,
                     type, 0, 0) != CE_None)
        refuse_warp(source, listening);
    return grid;
}

/// What the file says turns a stored number into a value.
struct Scaling {
    double scale = 1;
    double offset = 0;
    bool any() const { return scale != 1 || offset != 0; }
    double of(double stored) const { return stored * scale + offset; }
};

Scaling scaling_of(const Source& source) {
    GDALRasterBandH band = band_of(*source.open, source.path, source.band);
    Scaling scaling;
    int given = 0;
    const double scale = GDALGetRasterScale(band, &given);
    if (given != 0 && std::isfinite(scale) && scale != 0) scaling.scale = scale;
    const double offset = GDALGetRasterOffset(band, &given);
    if (given != 0 && std::isfinite(offset)) scaling.offset = offset;
    return scaling;
}

}  // namespace

Placement suggested_grid(const Source& source, const std::string& crs) {
    const Listening listening;
    const Dataset single = single_band(source, listening);
    const Dataset made = warp(source, single.get(), {"-of", "VRT", "-novshift", "-t_srs", crs}, listening);
    double g[6];
    if (GDALGetGeoTransform(made.get(), g) != CE_None) refuse_warp(source, listening);
    return {.west = g[0],
            .north = g[3],
            .cell_width = g[1],
            .cell_height = -g[5],
            .columns = GDALGetRasterXSize(made.get()),
            .rows = GDALGetRasterYSize(made.get()),
            .crs = crs};
}

namespace {

void settle(const Scaling& scaling, terrain::Grid<float>& grid) {
    for (float& value : grid.values()) {
        if (scaling.any()) value = static_cast<float>(scaling.of(static_cast<double>(value)));
        if (!std::isfinite(value)) value = terrain::no_value;
    }
}

}  // namespace

terrain::Grid<float> warped_values(const Source& source, const Placement& onto, Resampling how) {
    const Listening listening;
    const Dataset single = single_band(source, listening);
    std::vector<std::string> words = words_for(source, onto, how);
    words.insert(words.end(), {"-ot", "Float32", "-dstnodata", "nan"});
    const Dataset made = warp(source, single.get(), words, listening);
    terrain::Grid<float> grid = read_all<float>(source, made.get(), onto, GDT_Float32, listening);
    settle(scaling_of(source), grid);
    return grid;
}

WarpedRows::WarpedRows(const Source& source, const Placement& onto, Resampling how, const std::string& folder)
    : source_(source), file_(folder) {
    const Listening listening;
    const Dataset single = single_band(source, listening);
    std::vector<std::string> words = words_for(source, onto, how, "GTiff");
    words.insert(words.end(), {"-ot", "Float32", "-dstnodata", "nan"});
    words.insert(words.end(), {"-co", "BIGTIFF=YES", "-co", "BLOCKYSIZE=1"});
    made_ = warp(source, single.get(), words, listening, file_.path());
}

void WarpedRows::read(std::int64_t row, terrain::Grid<float>& to) const {
    const Listening listening;
    const int columns = static_cast<int>(to.columns()), rows = static_cast<int>(to.rows());
    if (GDALRasterIO(GDALGetRasterBand(made_.get(), 1), GF_Read, 0, static_cast<int>(row), columns, rows,
                     to.values().data(), columns, rows, GDT_Float32, 0, 0) != CE_None)
        refuse_warp(source_, listening);
    settle(scaling_of(source_), to);
}

terrain::Grid<std::int32_t> warped_classes(const Source& source, const Placement& onto) {
    const Listening listening;
    const Dataset single = single_band(source, listening);
    std::vector<std::string> words = words_for(source, onto, Resampling::nearest);
    // 64-bit reals hold every id exactly, so that one that is too large is seen and not bent to the largest.
    words.insert(words.end(), {"-ot", "Float64", "-dstnodata", "nan"});
    const Dataset made = warp(source, single.get(), words, listening);
    const auto stored = read_all<double>(source, made.get(), onto, GDT_Float64, listening);
    const Scaling scaling = scaling_of(source);
    terrain::Grid<std::int32_t> grid(shape_of(onto), no_class);
    for (std::int64_t row = 0; row < grid.rows(); ++row)
        for (std::int64_t column = 0; column < grid.columns(); ++column) {
            const double value = scaling.of(stored(row, column));
            if (!std::isfinite(value)) continue;
            if (value != std::floor(value) || std::abs(value) > 2147483647)
                throw RasterError(
                    source.path, "not-classes",
                    fmt::format("it holds {:.10g}; classes and ids are whole numbers up to 2147483647. Is "
                                "it the right raster?",
                                value));
            grid(row, column) = static_cast<std::int32_t>(value);
        }
    return grid;
}

}  // namespace soilhold::raster
