#include "raster/open_raster.h"

#include <cpl_conv.h>
#include <fmt/format.h>
#include <sys/stat.h>

#include <cmath>

#include "raster/raster_error.h"

namespace soilhold::raster {

namespace {

[[noreturn]] void refuse_unopened(const std::string& path, const Listening& listening) {
    struct stat facts {};
    const bool on_disk = path.rfind("/vsi", 0) != 0 && path.find(':') == std::string::npos;
    if (on_disk && ::stat(path.c_str(), &facts) != 0)
        throw RasterError(path, "no-such-file", "there is no such file. Is the name spelt right?");
    if (on_disk && S_ISREG(facts.st_mode) && facts.st_size == 0)
        throw RasterError(path, "unreadable-raster", "the file is empty. Was its download cut short?");
    const std::string why = listening.words();
    const Listening quiet;
    const Dataset vector(GDALOpenEx(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, nullptr, nullptr, nullptr));
    if (vector)
        throw RasterError(path, "not-a-raster",
                          "it holds points, lines or polygons, not a raster. A GeoTIFF of elevations is wanted here.");
    throw RasterError(path, "unreadable-raster",
                      fmt::format("it can't be opened as a raster (GDAL: {}). A GeoTIFF, or another format that GDAL "
                                  "reads, is wanted here.",
                                  why));
}

/// A file can hold several rasters behind names of their own; the first few are named.
[[noreturn]] void refuse_without_bands(const std::string& path, GDALDatasetH dataset) {
    std::string names;
    for (int number = 1; number <= 5; ++number) {
        const std::string key = fmt::format("SUBDATASET_{}_NAME", number);
        const char* name = GDALGetMetadataItem(dataset, key.c_str(), "SUBDATASETS");
        if (name) names += (names.empty() ? "" : ", ") + std::string(name);
    }
    throw RasterError(path, "not-a-raster",
                      names.empty() ? "there is no raster in it. A GeoTIFF of elevations is wanted here."
                                    : "it holds several rasters. Name the one that is meant: " + names + ".");
}

}  // namespace

OpenRaster open_raster(const std::string& path) {
    wake_gdal();
    const Listening listening;
    OpenRaster open;
    // What isn't packed goes from the file to where it is wanted, without a stop in GDAL's cache.
    CPLSetThreadLocalConfigOption("GTIFF_DIRECT_IO", "YES");
    open.dataset.reset(
        GDALOpenEx(path.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR, nullptr, nullptr, nullptr));
    CPLSetThreadLocalConfigOption("GTIFF_DIRECT_IO", nullptr);
    GDALDatasetH dataset = open.dataset.get();
    if (!dataset) refuse_unopened(path, listening);
    Placement& place = open.placement;
    place.columns = GDALGetRasterXSize(dataset);
    place.rows = GDALGetRasterYSize(dataset);
    if (GDALGetRasterCount(dataset) == 0) refuse_without_bands(path, dataset);
    if (place.columns <= 0 || place.rows <= 0)
        throw RasterError(path, "not-a-raster", "its raster has no cells. Was it cut out beside the map?");
    double g[6];
    if (GDALGetGeoTransform(dataset, g) != CE_None)
        throw RasterError(path, "no-georeference",
                          "it doesn't say where on the map it lies (no corner and no cell width). A GeoTIFF, or a "
                          "picture with its world file beside it, does.");
    for (const double number : g)
        if (!std::isfinite(number))
            throw RasterError(path, "no-georeference", "its corner or cell width is no number. Was it written whole?");
    const double turned =
        std::abs(g[2]) * static_cast<double>(place.rows) + std::abs(g[4]) * static_cast<double>(place.columns);
    const double cell = std::min(std::abs(g[1]), std::abs(g[5]));
    // Less than a hundredth of a cell over the whole grid is rounding.
    if (turned > 0.01 * cell || !(g[1] > 0) || g[5] == 0)
        throw RasterError(path, "rotated-raster",
                          "its rows don't run from west to east. Turn it north-up first: gdalwarp does it.");
    place.west = g[0];
    place.cell_width = g[1];
    place.cell_height = std::abs(g[5]);
    open.south_up = g[5] > 0;
    place.north = open.south_up ? g[3] + static_cast<double>(place.rows) * g[5] : g[3];
    place.crs = wkt_of(GDALGetSpatialRef(dataset));
    return open;
}

void refuse_unreadable(const std::string& path, const Listening& listening) {
    throw RasterError(path, "unreadable-raster",
                      fmt::format("it can't be read whole (GDAL: {}). Was its download cut short? Fetch it again.",
                                  listening.words()));
}

GDALRasterBandH band_of(const OpenRaster& open, const std::string& path, int number) {
    const int bands = GDALGetRasterCount(open.dataset.get());
    if (number < 1 || number > bands)
        throw RasterError(path, "no-such-band",
                          fmt::format("band {} was asked for; it has {}.", number,
                                      bands == 1 ? "one band only" : fmt::format("bands 1 to {}", bands)));
    GDALRasterBandH band = GDALGetRasterBand(open.dataset.get(), number);
    if (GDALDataTypeIsComplex(GDALGetRasterDataType(band)) != 0)
        throw RasterError(path, "complex-numbers",
                          fmt::format("band {} holds complex numbers ({}), as radar pictures do. A raster of plain "
                                      "numbers is wanted here.",
                                      number, GDALGetDataTypeName(GDALGetRasterDataType(band))));
    return band;
}

}  // namespace soilhold::raster
