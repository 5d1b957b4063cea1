#include "raster/onto.h"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal_alg.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "raster/atomic_file.h"
#include "raster/features.h"
#include "raster/open_raster.h"
#include "raster/raster_error.h"
#include "raster/scratch_file.h"
#include "raster/source_onto.h"
#include "raster/warped.h"

namespace soilhold::raster {

namespace {

using source::Weight;

/// The shapes that are drawn, and their ids.
struct Drawn {
    std::vector<Geometry> shapes;
    std::vector<double> ids;
};

Drawn read_shapes(const std::string& path, const Placement& placement, const BurnOptions& options,
                  source::Remarks& remarks) {
    const OpenFeatures open = open_features(path, options.layer, placement);
    const int column = options.id_column.empty() ? -1 : column_of(open, options.id_column);
    Drawn drawn;
    for_each_feature(open, [&](OGRFeatureH feature, Geometry shape, const std::string& failed) {
        const auto number = static_cast<std::int64_t>(OGR_F_GetFID(feature));
        if (!shape || OGR_G_IsEmpty(shape.get()) != 0) {
            remarks.push_back(
                {Weight::caution, "feature-left-out",
                 fmt::format("Feature {} was left out: it {}.", number,
                             failed.empty() ? "has no shape" : "could not be brought here (" + failed + ")"),
                 path});
            return;
        }
        double id = options.numbered ? static_cast<double>(drawn.ids.size() + 1) : 1;
        if (column >= 0) {
            id = OGR_F_GetFieldAsDouble(feature, column);
            const OGRFieldType type = OGR_Fld_GetType(OGR_F_GetFieldDefnRef(feature, column));
            const bool number_column = type == OFTInteger || type == OFTInteger64 || type == OFTReal;
            if (!number_column || OGR_F_IsFieldSetAndNotNull(feature, column) == 0 || id != std::floor(id) ||
                std::abs(id) > 2147483647)
                throw RasterError(
                    path, "not-classes",
                    fmt::format("feature {} has '{}' in the column '{}'; a whole number is wanted there.", number,
                                text_or_empty(OGR_F_GetFieldAsString(feature, column)), options.id_column));
        }
        drawn.shapes.push_back(options.edges ? Geometry(OGR_G_ForceToMultiLineString(shape.release()))
                                             : std::move(shape));
        drawn.ids.push_back(id);
    });
    return drawn;
}

}  // namespace

Values values_onto(const std::string& path, const Placement& placement, Between how, const OntoOptions& options) {
    const OpenRaster open = open_raster(path);
    const Source source = source_for(path, open, placement, options);
    Values values;
    values.grid =
        warped_values(source, placement, how == Between::average ? Resampling::average : Resampling::bilinear);
    const auto none = std::ranges::count_if(values.grid.values(), [](float value) { return std::isnan(value); });
    say_what_is_missing(path, none, values.grid.shape().cells(), values.remarks);
    return values;
}

Classes classes_onto(const std::string& path, const Placement& placement, const OntoOptions& options) {
    const OpenRaster open = open_raster(path);
    const Source source = source_for(path, open, placement, options);
    Classes classes;
    classes.grid = warped_classes(source, placement);
    const auto none = std::ranges::count(classes.grid.values(), no_class);
    say_what_is_missing(path, none, classes.grid.shape().cells(), classes.remarks);
    return classes;
}

namespace {

/// Draws onto a dataset of 32-bit whole numbers that lies where the placement says.
void draw(const std::string& path, GDALDatasetH dataset, const Placement& placement, const Drawn& drawn,
          const BurnOptions& options, const Listening& listening) {
    std::array<double, 6> transform = placement.geotransform();
    GDALSetGeoTransform(dataset, transform.data());
    std::vector<OGRGeometryH> shapes;
    for (const Geometry& shape : drawn.shapes) shapes.push_back(shape.get());
    if (shapes.empty()) return;
    int band = 1;
    // The rows that are drawn at a time are said, so that no cell depends on where the grid is kept.
    const std::int64_t rows = std::max<std::int64_t>(1, (std::int64_t{1} << 23) / placement.columns);
    char** words = CSLSetNameValue(nullptr, "CHUNKYSIZE", std::to_string(std::min(rows, placement.rows)).c_str());
    words = CSLSetNameValue(words, "OPTIM", "RASTER");
    if (options.all_touched) words = CSLSetNameValue(words, "ALL_TOUCHED", "TRUE");
    const CPLErr done = GDALRasterizeGeometries(dataset, 1, &band, static_cast<int>(shapes.size()), shapes.data(),
                                                nullptr, nullptr, drawn.ids.data(), words, nullptr, nullptr);
    CSLDestroy(words);
    if (done != CE_None) throw RasterError(path, "not-here", "it can't be drawn (GDAL: " + listening.words() + ").");
    GDALFlushCache(dataset);
}

[[noreturn]] void refuse_elsewhere(const std::string& path) {
    throw RasterError(path, "not-here", "none of its features lies on the raster of heights. Is it of the same place?");
}

}  // namespace

Classes burn_onto(const std::string& path, const Placement& placement, const BurnOptions& options) {
    Classes classes;
    const Drawn drawn = read_shapes(path, placement, options, classes.remarks);
    const Listening listening;
    classes.grid = terrain::Grid<std::int32_t>(shape_of(placement), no_class);
    const int columns = static_cast<int>(placement.columns), rows = static_cast<int>(placement.rows);
    Dataset dataset(GDALCreate(GDALGetDriverByName("MEM"), "", columns, rows, 0, GDT_Int32, nullptr));
    if (!dataset) throw RasterError(path, "not-here", "it can't be drawn (GDAL: " + listening.words() + ").");
    char pointer[64] = {};
    CPLPrintPointer(pointer, classes.grid.values().data(), sizeof pointer - 1);
    char** band_options = CSLSetNameValue(nullptr, "DATAPOINTER", pointer);
    GDALAddBand(dataset.get(), GDT_Int32, band_options);
    CSLDestroy(band_options);
    draw(path, dataset.get(), placement, drawn, options, listening);
    dataset.reset();
    const std::int64_t cells = classes.grid.shape().cells();
    if (std::ranges::count(classes.grid.values(), no_class) == cells) refuse_elsewhere(path);
    return classes;
}

source::Remarks burn_in_rows(const std::string& path, const Placement& placement, const BurnOptions& options,
                             const std::string& folder, std::int64_t rows, const TakeClasses& take) {
    source::Remarks remarks;
    const Drawn drawn = read_shapes(path, placement, options, remarks);
    const Listening listening;
    const ScratchFile file(folder);
    char** creation = nullptr;
    for (const char* word : {"TILED=YES", "COMPRESS=ZSTD", "ZSTD_LEVEL=1", "SPARSE_OK=TRUE", "BIGTIFF=YES"})
        creation = CSLAddString(creation, word);
    Dataset dataset(GDALCreate(GDALGetDriverByName("GTiff"), file.path().c_str(), static_cast<int>(placement.columns),
                               static_cast<int>(placement.rows), 1, GDT_Int32, creation));
    CSLDestroy(creation);
    if (!dataset) throw WriteError("the scratch file in " + folder + " can't be written: " + listening.words());
    GDALRasterBandH band = GDALGetRasterBand(dataset.get(), 1);
    GDALSetRasterNoDataValue(band, no_class);
    draw(path, dataset.get(), placement, drawn, options, listening);
    bool any = false;
    terrain::Shape shape = shape_of(placement);
    for (std::int64_t row = 0; row < placement.rows; row += rows) {
        shape.rows = std::min(rows, placement.rows - row);
        terrain::Grid<std::int32_t> part(shape, terrain::Unset{});
        const int columns = static_cast<int>(shape.columns), count = static_cast<int>(shape.rows);
        if (GDALRasterIO(band, GF_Read, 0, static_cast<int>(row), columns, count, part.values().data(), columns, count,
                         GDT_Int32, 0, 0) != CE_None ||
            listening.failed())
            throw WriteError("the scratch file in " + folder + " can't be read back: " + listening.words());
        any = any || std::ranges::any_of(part.values(), [](std::int32_t id) { return id != no_class; });
        take(row, part);
    }
    if (!any) refuse_elsewhere(path);
    return remarks;
}

}  // namespace soilhold::raster
