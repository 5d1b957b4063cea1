#include "raster/atomic_file.h"

#include <cpl_string.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <limits>

#include "raster/gdal_session.h"

namespace soilhold::raster {

namespace {

[[noreturn]] void fail(const std::string& path, const std::string& what, const std::string& why) {
    throw WriteError(fmt::format("{} {}: {}", path, what, why));
}

std::string folder_of(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? "." : slash == 0 ? "/" : path.substr(0, slash);
}

/// A file beside the target that goes unless it is put in place: without a name where the file system can do that,
/// else under one of our own.
class Temporary {
  public:
    enum class Name { none_if_possible, needed };

    Temporary(const std::string& target, Name wanted) : target_(target) {
        if (wanted == Name::none_if_possible) {
            file_ = ::open(folder_of(target).c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, 0666);
            if (file_ >= 0) {
                name_ = fmt::format("/proc/self/fd/{}", file_);
                if (::access(name_.c_str(), W_OK) == 0) return;
                ::close(file_);
                file_ = -1;
            }
        }
        name_ = target + ".XXXXXX";
        const int file = mkstemp(name_.data());
        if (file < 0) fail(target_, "can't be written", std::strerror(errno));
        named_ = true;
        ::close(file);
    }
    Temporary(const Temporary&) = delete;
    Temporary& operator=(const Temporary&) = delete;
    ~Temporary() {
        if (file_ >= 0) ::close(file_);
        if (!named_) return;
        // GDAL leaves what it could not put into the file beside it.
        for (const char* ending : {"", ".aux.xml", ".ovr", ".msk", ".ovr.tmp", ".msk.ovr.tmp"})
            ::unlink((name_ + ending).c_str());
    }
    const std::string& name() const { return name_; }
    bool named() const { return named_; }

    void flush() {
        const int file = named_ ? ::open(name_.c_str(), O_RDONLY | O_CLOEXEC) : file_;
        if (file < 0) fail(target_, "could not be flushed to the disk", std::strerror(errno));
        // mkstemp makes files for the owner alone; a map is for others too, as far as the umask lets it.
        const mode_t mask = ::umask(0);
        ::umask(mask);
        const bool kept = ::fchmod(file, 0666 & ~mask) == 0 && ::fsync(file) == 0;
        const int why = errno;
        if ((named_ && ::close(file) != 0) || !kept)
            fail(target_, "could not be flushed to the disk", std::strerror(why));
    }

    void put_in_place() {
        if (!named_ && !give_name()) fail(target_, "could not be put in place", std::strerror(errno));
        if (named_ && std::rename(name_.c_str(), target_.c_str()) != 0)
            fail(target_, "could not be put in place", std::strerror(errno));
        if (named_) ::unlink((name_ + ".aux.xml").c_str());
        named_ = false;
        // An older file's statistics and overviews must not be taken for the new one's.
        for (const char* ending : {".aux.xml", ".ovr", ".msk"}) ::unlink((target_ + ending).c_str());
    }

  private:
    /// The target's own name where that is free, else one beside it: a name can't be given over another's head.
    bool give_name() {
        if (::linkat(AT_FDCWD, name_.c_str(), AT_FDCWD, target_.c_str(), AT_SYMLINK_FOLLOW) == 0) return true;
        for (int attempt = 0; errno == EEXIST && attempt < 100; ++attempt) {
            const std::string beside = fmt::format("{}.{}-{}", target_, ::getpid(), attempt);
            if (::linkat(AT_FDCWD, name_.c_str(), AT_FDCWD, beside.c_str(), AT_SYMLINK_FOLLOW) != 0) continue;
            name_ = beside;
            named_ = true;
            return true;
        }
        return false;
    }

    std::string target_, name_;
    int file_ = -1;
    bool named_ = false;  ///< name_ stands in the folder
};

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

/// Minimum, maximum, mean and standard deviation of what was put, by Welford's update.
struct Statistics {
    double count = 0, mean = 0, squares = 0;
    double least = std::numeric_limits<double>::infinity(), most = -least;
    void add(double value) {
        count += 1;
        const double step = value - mean;
        mean += step / count;
        squares += step * (value - mean);
        least = std::min(least, value);
        most = std::max(most, value);
    }
};

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
        : path(target), placement(place), kind(which), options(wanted) {
        using Name = Temporary::Name;
        temporary = std::make_unique<Temporary>(target, wanted.cloud_optimized ? Name::needed : Name::none_if_possible);
    }

    std::string path;
    Placement placement;
    Kind kind;
    WriteOptions options;
    std::unique_ptr<Temporary> temporary;
    Dataset dataset;  // after temporary: closed before the file goes
    Statistics statistics;
    bool flushed = false;

    [[noreturn]] void fail_whole(const std::string& why) const { fail(path, "could not be written whole", why); }

    /// GDAL tells of a full disk only by message when it closes a file.
    void close(Dataset& open, const Listening& listening) const {
        GDALFlushCache(open.get());
        GDALClose(open.release());
        if (listening.failed()) fail_whole(listening.words());
    }

    template <class T>
    void put(std::int64_t row, std::int64_t column, const terrain::Grid<T>& tile, GDALDataType type) {
        if (row < 0 || column < 0 || row + tile.rows() > placement.rows || column + tile.columns() > placement.columns)
            throw std::invalid_argument("a tile must lie within the grid that is written");
        const Listening listening;
        const int rows = static_cast<int>(tile.rows()), columns = static_cast<int>(tile.columns());
        // GDAL takes the values as not const, but only reads them.
        void* values = const_cast<T*>(tile.values().data());
        if (GDALRasterIO(GDALGetRasterBand(dataset.get(), 1), GF_Write, static_cast<int>(column), static_cast<int>(row),
                         columns, rows, values, columns, rows, type, 0, 0) != CE_None ||
            listening.failed())
            fail_whole(listening.words());
        for (const T value : tile.values()) {
            const auto number = static_cast<double>(value);
            const bool none = std::isnan(number) || (options.no_class && kind == Kind::classes &&
                                                     number == static_cast<double>(*options.no_class));
            if (!none) statistics.add(number);
        }
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
    creation.set("PREDICTOR", kind == Kind::values ? "3" : "2");
    pending_->dataset.reset(GDALCreate(GDALGetDriverByName("GTiff"), pending_->temporary->name().c_str(),
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
    Pending& file = *pending_;
    if (file.flushed) return;
    file.flushed = true;
    const Listening listening;
    const Statistics& found = file.statistics;
    if (found.count > 0)
        GDALSetRasterStatistics(GDALGetRasterBand(file.dataset.get(), 1), found.least, found.most, found.mean,
                                std::sqrt(found.squares / found.count));
    file.close(file.dataset, listening);
    if (file.options.cloud_optimized) {
        auto laid_out = std::make_unique<Temporary>(file.path, Temporary::Name::needed);
        OptionList creation;
        creation.set("COMPRESS", "ZSTD");
        creation.set("LEVEL", std::to_string(file.options.zstd_level));
        creation.set("PREDICTOR", "YES");
        creation.set("BIGTIFF", "IF_SAFER");
        // Classes must not be mixed into classes that are nowhere on the ground.
        creation.set("OVERVIEW_RESAMPLING", file.kind == Kind::values ? "AVERAGE" : "MODE");
        Dataset source(GDALOpen(file.temporary->name().c_str(), GA_ReadOnly));
        if (!source) file.fail_whole(listening.words());
        Dataset copy(GDALCreateCopy(GDALGetDriverByName("COG"), laid_out->name().c_str(), source.get(), TRUE,
                                    creation.list(), nullptr, nullptr));
        if (!copy) file.fail_whole(listening.words());
        file.close(copy, listening);
        source.reset();
        file.temporary = std::move(laid_out);
    }
    file.temporary->flush();
}

void TileWriter::finish() {
    flush();
    pending_->temporary->put_in_place();
    pending_.reset();
}

namespace {

template <class T>
void put_strips(TileWriter& writer, const terrain::Grid<T>& grid) {
    for (std::int64_t row = 0; row < grid.rows(); row += TileWriter::side) {
        terrain::Shape shape = grid.shape();
        shape.rows = std::min(TileWriter::side, grid.rows() - row);
        terrain::Grid<T> strip(shape);
        for (std::int64_t r = 0; r < shape.rows; ++r) std::ranges::copy(grid.row(row + r), strip.row(r).begin());
        writer.put(row, 0, strip);
    }
}

template <class T>
void write_grid(const std::string& path, const terrain::Grid<T>& grid, const Placement& placement,
                TileWriter::Kind kind, const WriteOptions& options) {
    if (grid.rows() != placement.rows || grid.columns() != placement.columns)
        throw std::invalid_argument("a grid and its placement must have the same rows and columns");
    TileWriter writer(path, placement, kind, options);
    writer.put_all(grid);
    writer.finish();
}

}  // namespace

void TileWriter::put_all(const terrain::Grid<float>& grid) { put_strips(*this, grid); }
void TileWriter::put_all(const terrain::Grid<std::uint8_t>& grid) { put_strips(*this, grid); }

bool written_unnamed(const std::string& path) { return !Temporary(path, Temporary::Name::none_if_possible).named(); }

void write_values(const std::string& path, const terrain::Grid<float>& grid, const Placement& placement,
                  const WriteOptions& options) {
    write_grid(path, grid, placement, TileWriter::Kind::values, options);
}

void write_classes(const std::string& path, const terrain::Grid<std::uint8_t>& grid, const Placement& placement,
                   const WriteOptions& options) {
    write_grid(path, grid, placement, TileWriter::Kind::classes, options);
}

}  // namespace soilhold::raster
