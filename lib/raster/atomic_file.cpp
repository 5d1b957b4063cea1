#include "raster/atomic_file.h"

#include <cpl_string.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "raster/cell_statistics.h"
#include "raster/gdal_session.h"
#include "raster/unnamed_file.h"

namespace soilhold::raster {

namespace {

[[noreturn]] void fail(const std::string& path, const std::string& what, const std::string& why) {
    throw WriteError(fmt::format("{} {}: {}", path, what, why));
}

class OptionList {
  public:
    OptionList() = default;
    OptionList(const OptionList&) = delete;
    OptionList& operator=(const OptionList&) = delete;
    ~OptionList() { CSLDestroy(list_); }
    void set(const char* name, const std::string& value) { list_ = CSLSetNameValue(list_, name, value.c_str()); }
    char** list() const { return list_; }

  private:
    char** list_ = nullptr;
};

constexpr int cloud_side = 512;  // of the tiles of a cloud-optimized file

void describe(GDALDatasetH dataset, const Placement& placement, TileWriter::Kind kind, const WriteOptions& options) {
    std::array<double, 6> transform = placement.geotransform();
    GDALSetGeoTransform(dataset, transform.data());
    const Reference reference = reference_of(placement.crs);
    if (reference) GDALSetSpatialRef(dataset, reference.get());
    for (const auto& [name, text] : options.metadata) GDALSetMetadataItem(dataset, name.c_str(), text.c_str(), nullptr);
    GDALRasterBandH band = GDALGetRasterBand(dataset, 1);
    if (!options.description.empty()) GDALSetDescription(band, options.description.c_str());
    if (!options.unit.empty()) GDALSetRasterUnitType(band, options.unit.c_str());
    if (kind == TileWriter::Kind::values) {
        GDALSetRasterNoDataValue(band, std::numeric_limits<double>::quiet_NaN());
        return;
    }
    if (options.no_class) GDALSetRasterNoDataValue(band, *options.no_class);
    if (options.colours.empty()) return;
    GDALColorTableH table = GDALCreateColorTable(GPI_RGB);
    for (std::size_t i = 0; i < std::min<std::size_t>(options.colours.size(), 256); ++i) {
        const Colour& colour = options.colours[i];
        const GDALColorEntry entry{colour[0], colour[1], colour[2], colour[3]};
        GDALSetColorEntry(table, static_cast<int>(i), &entry);
    }
    GDALSetRasterColorTable(band, table);
    GDALDestroyColorTable(table);
}

}  // namespace

struct TileWriter::Pending {
    Pending(const std::string& target, const Placement& place, Kind which, const WriteOptions& wanted)
        : path(target), placement(place), kind(which), options(wanted), file(std::make_unique<UnnamedFile>(target)) {}

    std::string path;
    Placement placement;
    Kind kind;
    WriteOptions options;
    std::unique_ptr<UnnamedFile> file;
    Dataset dataset;  // after file: closed before the file goes
    CellStatistics statistics;
    bool flushed = false;

    [[noreturn]] void fail_whole(const std::string& why) const { fail(path, "could not be written whole", why); }

    /// GDAL tells of a full disk only by message when it closes a file.
    void close(Dataset& open, const Listening& listening) const {
        GDALFlushCache(open.get());
        GDALClose(open.release());
        if (listening.failed()) fail_whole(listening.words());
    }

    /// Halves, quarters and so on until a tile of the laid-out file holds the whole. Built here, since the driver for
    /// cloud-optimized files would build them in a file with a name, which stays when the program is killed.
    void build_overviews(const Listening& listening) const {
        GDALFlushCache(dataset.get());
        std::vector<int> levels;
        for (int level = 2; std::max(placement.columns, placement.rows) * 2 / level > cloud_side; level *= 2)
            levels.push_back(level);
        // Classes must not be mixed into classes that are nowhere on the ground.
        if (!levels.empty() &&
            GDALBuildOverviews(dataset.get(), kind == Kind::values ? "AVERAGE" : "MODE",
                               static_cast<int>(levels.size()), levels.data(), 0, nullptr, nullptr, nullptr) != CE_None)
            fail_whole(listening.words());
    }

    /// Copies what was written into the order that is read over a network.
    void lay_out(const Listening& listening) {
        auto laid_out = std::make_unique<UnnamedFile>(path);
        OptionList creation;
        creation.set("COMPRESS", "ZSTD");
        creation.set("LEVEL", std::to_string(options.zstd_level));
        creation.set("PREDICTOR", "YES");
        creation.set("BIGTIFF", "IF_SAFER");
        creation.set("BLOCKSIZE", std::to_string(cloud_side));
        Dataset source(GDALOpen(file->name().c_str(), GA_ReadOnly));
        if (!source) fail_whole(listening.words());
        Dataset copy(GDALCreateCopy(GDALGetDriverByName("COG"), laid_out->name().c_str(), source.get(), TRUE,
                                    creation.list(), nullptr, nullptr));
        if (!copy) fail_whole(listening.words());
        close(copy, listening);
        source.reset();
        file = std::move(laid_out);
    }

    template <class T>
    void put(std::int64_t row, std::int64_t column, const terrain::Grid<T>& tile, GDALDataType type) {
        if (row < 0 || column < 0 || row + tile.rows() > placement.rows || column + tile.columns() > placement.columns)
            throw std::invalid_argument("a tile must lie within the grid that is written");
        const Listening listening;
        const bool whole_blocks = row % side == 0 && column == 0 && tile.columns() == placement.columns &&
                                  (tile.rows() % side == 0 || row + tile.rows() == placement.rows);
        if (!(whole_blocks ? put_blocks(row, tile) : put_part(row, column, tile, type)) || listening.failed())
            fail_whole(listening.words());
        if constexpr (std::is_same_v<T, float>)
            statistics.add(tile.values());
        else
            statistics.add(tile.values(), options.no_class);
        if (whole_blocks) file->start_flushing();
    }

    /// Rows of the whole width, straight to the packing.
    template <class T>
    bool put_blocks(std::int64_t row, const terrain::Grid<T>& strip) {
        GDALRasterBandH band = GDALGetRasterBand(dataset.get(), 1);
        std::vector<T> block(static_cast<std::size_t>(side * side), T{});
        for (std::int64_t top = 0; top < strip.rows(); top += side)
            for (std::int64_t left = 0; left < strip.columns(); left += side) {
                const std::int64_t rows = std::min(side, strip.rows() - top);
                const std::int64_t columns = std::min(side, strip.columns() - left);
                if (rows * columns < side * side) std::ranges::fill(block, T{});
                for (std::int64_t r = 0; r < rows; ++r)
                    std::copy_n(&strip(top + r, left), columns, block.begin() + r * side);
                if (GDALWriteBlock(band, static_cast<int>(left / side), static_cast<int>((row + top) / side),
                                   block.data()) != CE_None)
                    return false;
            }
        return true;
    }

    template <class T>
    bool put_part(std::int64_t row, std::int64_t column, const terrain::Grid<T>& tile, GDALDataType type) {
        const int rows = static_cast<int>(tile.rows()), columns = static_cast<int>(tile.columns());
        // GDAL takes the values as not const, but only reads them.
        void* values = const_cast<T*>(tile.values().data());
        return GDALRasterIO(GDALGetRasterBand(dataset.get(), 1), GF_Write, static_cast<int>(column),
                            static_cast<int>(row), columns, rows, values, columns, rows, type, 0, 0) == CE_None;
    }
};

TileWriter::TileWriter(const std::string& path, const Placement& placement, Kind kind, const WriteOptions& options) {
    wake_gdal();
    if (placement.columns <= 0 || placement.rows <= 0 || placement.columns > std::numeric_limits<int>::max() ||
        placement.rows > std::numeric_limits<int>::max())
        throw std::invalid_argument("a raster needs columns and rows, each at most 2147483647");
    if (options.no_class && (*options.no_class < 0 || *options.no_class > 255))
        throw std::invalid_argument("the class that means no value must be 0 to 255");
    pending_ = std::make_unique<Pending>(path, placement, kind, options);
    const Listening listening;
    OptionList creation;
    creation.set("TILED", "YES");
    creation.set("BLOCKXSIZE", std::to_string(side));
    creation.set("BLOCKYSIZE", std::to_string(side));
    creation.set("BIGTIFF", "IF_SAFER");
    creation.set("COMPRESS", "ZSTD");
    // What is packed twice is packed quickly the first time.
    creation.set("ZSTD_LEVEL", std::to_string(options.cloud_optimized ? 1 : options.zstd_level));
    creation.set("PREDICTOR", kind == Kind::values ? std::to_string(options.predictor) : "2");
    if (options.threads > 1) creation.set("NUM_THREADS", std::to_string(options.threads));
    pending_->dataset.reset(GDALCreate(GDALGetDriverByName("GTiff"), pending_->file->name().c_str(),
                                       static_cast<int>(placement.columns), static_cast<int>(placement.rows), 1,
                                       kind == Kind::values ? GDT_Float32 : GDT_Byte, creation.list()));
    if (!pending_->dataset) fail(path, "can't be written", listening.words());
    describe(pending_->dataset.get(), placement, kind, options);
    if (listening.failed()) pending_->fail_whole(listening.words());
}

TileWriter::~TileWriter() = default;

void TileWriter::put(std::int64_t row, std::int64_t column, const terrain::Grid<float>& tile) {
    if (pending_->kind != Kind::values) throw std::invalid_argument("a grid of classes takes no reals");
    pending_->put(row, column, tile, GDT_Float32);
}

void TileWriter::put(std::int64_t row, std::int64_t column, const terrain::Grid<std::uint8_t>& tile) {
    if (pending_->kind != Kind::classes) throw std::invalid_argument("a grid of reals takes no classes");
    pending_->put(row, column, tile, GDT_Byte);
}

void TileWriter::flush() {
    Pending& pending = *pending_;
    if (pending.flushed) return;
    pending.flushed = true;
    const Listening listening;
    const CellStatistics& found = pending.statistics;
    if (found.count > 0)
        GDALSetRasterStatistics(GDALGetRasterBand(pending.dataset.get(), 1), found.least, found.most, found.mean,
                                found.deviation());
    if (pending.options.cloud_optimized) {
        pending.build_overviews(listening);
        pending.close(pending.dataset, listening);
        pending.lay_out(listening);
    } else {
        pending.close(pending.dataset, listening);
    }
    pending.file->flush();
}

void TileWriter::finish() {
    flush();
    pending_->file->put_in_place();
    pending_.reset();
}

namespace {

template <class T>
void write_grid(const std::string& path, const terrain::Grid<T>& grid, const Placement& placement,
                TileWriter::Kind kind, const WriteOptions& options) {
    if (grid.rows() != placement.rows || grid.columns() != placement.columns)
        throw std::invalid_argument("a grid and its placement must have the same rows and columns");
    TileWriter writer(path, placement, kind, options);
    writer.put(0, 0, grid);
    writer.finish();
}

}  // namespace

void TileWriter::put_all(const terrain::Grid<float>& grid) { put(0, 0, grid); }
void TileWriter::put_all(const terrain::Grid<std::uint8_t>& grid) { put(0, 0, grid); }

bool written_unnamed(const std::string& path) { return !UnnamedFile(path).named(); }

void write_values(const std::string& path, const terrain::Grid<float>& grid, const Placement& placement,
                  const WriteOptions& options) {
    write_grid(path, grid, placement, TileWriter::Kind::values, options);
}

void write_classes(const std::string& path, const terrain::Grid<std::uint8_t>& grid, const Placement& placement,
                   const WriteOptions& options) {
    write_grid(path, grid, placement, TileWriter::Kind::classes, options);
}

}  // namespace soilhold::raster
