#include "raster/atomic_file.h"

#include <dirent.h>
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <cmath>
#include <csignal>

#include "program.h"
#include "raster/layer.h"
#include "raster/made_rasters.h"

namespace soilhold::raster {
namespace {

using program::Folder;
using testing::HasSubstr;

int entries(const std::string& path) {
    DIR* folder = opendir(path.c_str());
    int count = 0;
    while (readdir(folder)) ++count;
    closedir(folder);
    return count - 2;
}

Placement place_of(std::int64_t columns, std::int64_t rows) {
    return {.west = 500000,
            .north = 4400000,
            .cell_width = 10,
            .cell_height = 10,
            .columns = columns,
            .rows = rows,
            .crs = "EPSG:32617"};
}

terrain::Grid<float> waves(std::int64_t columns, std::int64_t rows) {
    terrain::Grid<float> grid({columns, rows, 10});
    for (std::int64_t r = 0; r < rows; ++r)
        for (std::int64_t c = 0; c < columns; ++c)
            grid(r, c) = static_cast<float>(std::sin(static_cast<double>(r * columns + c)) * 50);
    grid(0, 0) = terrain::no_value;
    return grid;
}

/// No file may grow past a size while it lives: a full disk without a disk.
class SmallDisk {
  public:
    explicit SmallDisk(rlim_t bytes) {
        old_handler_ = std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &old_);
        const rlimit small{bytes, old_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &small);
    }
    ~SmallDisk() {
        setrlimit(RLIMIT_FSIZE, &old_);
        std::signal(SIGXFSZ, old_handler_);
    }

  private:
    rlimit old_{};
    void (*old_handler_)(int) = nullptr;
};

void expect_same(const terrain::Grid<float>& a, const terrain::Grid<float>& b) {
    ASSERT_EQ(a.rows(), b.rows());
    for (std::int64_t r = 0; r < a.rows(); ++r)
        for (std::int64_t c = 0; c < a.columns(); ++c)
            ASSERT_TRUE(a(r, c) == b(r, c) || (std::isnan(a(r, c)) && std::isnan(b(r, c)))) << r << ", " << c;
}

TEST(AtomicFile, GivesBackTheSameValuesAndPlace) {
    for (const bool cloud : {false, true}) {
        Folder folder;
        const std::string path = folder.path + "/out.tif";
        const auto grid = waves(700, 600);
        WriteOptions options;
        options.cloud_optimized = cloud;
        options.unit = "m";
        options.description = "height";
        options.metadata = {{"LINEAGE", "made for a test"}};
        write_values(path, grid, place_of(700, 600), options);
        EXPECT_EQ(entries(folder.path), 1);
        const Layer layer(path);
        expect_same(layer.values(), grid);
        EXPECT_EQ(layer.placement().west, 500000);
        EXPECT_TRUE(same_crs(layer.placement(), place_of(1, 1)));
        EXPECT_EQ(layer.band(1).unit, "m");
        EXPECT_EQ(layer.band(1).description, "height");
        GDALDatasetH dataset = GDALOpen(path.c_str(), GA_ReadOnly);
        EXPECT_STREQ(GDALGetMetadataItem(dataset, "LINEAGE", nullptr), "made for a test");
        double least = 0, most = 0, mean = 0, deviation = 0;
        EXPECT_EQ(
            GDALGetRasterStatistics(GDALGetRasterBand(dataset, 1), FALSE, FALSE, &least, &most, &mean, &deviation),
            CE_None);
        EXPECT_NEAR(most, 50, 0.01);
        EXPECT_NEAR(deviation, 50 / std::sqrt(2.0), 0.1);  // of a sine
        const char* layout = GDALGetMetadataItem(dataset, "LAYOUT", "IMAGE_STRUCTURE");
        EXPECT_STREQ(layout ? layout : "", cloud ? "COG" : "");
        EXPECT_STREQ(GDALGetMetadataItem(dataset, "COMPRESSION", "IMAGE_STRUCTURE"), "ZSTD");
        GDALClose(dataset);
        struct stat facts {};
        ASSERT_EQ(stat(path.c_str(), &facts), 0);
        EXPECT_EQ(facts.st_mode & 0400, 0400U);
    }
}

TEST(AtomicFile, KeepsClassesAndTheirColours) {
    Folder folder;
    terrain::Grid<std::uint8_t> grid({2, 1, 10});
    grid(0, 0) = 1;
    grid(0, 1) = 255;
    WriteOptions options;
    options.no_class = 255;
    options.colours = {{0, 0, 0, 255}, {200, 100, 50, 255}};
    write_classes(folder.path + "/c.tif", grid, place_of(2, 1), options);
    const Layer layer(folder.path + "/c.tif");
    EXPECT_EQ(layer.classes()(0, 0), 1);
    EXPECT_EQ(layer.classes()(0, 1), no_class);
    GDALDatasetH dataset = GDALOpen((folder.path + "/c.tif").c_str(), GA_ReadOnly);
    GDALColorTableH table = GDALGetRasterColorTable(GDALGetRasterBand(dataset, 1));
    ASSERT_TRUE(table);
    EXPECT_EQ(GDALGetColorEntry(table, 1)->c1, 200);
    GDALClose(dataset);
}

TEST(AtomicFile, WritesTileByTileWhatTheWholeHolds) {
    Folder folder;
    const auto grid = waves(600, 300);
    TileWriter writer(folder.path + "/t.tif", place_of(600, 300), TileWriter::Kind::values);
    for (std::int64_t row = 0; row < 300; row += 256)
        for (std::int64_t column = 0; column < 600; column += 256) {
            terrain::Grid<float> tile(
                {std::min<std::int64_t>(256, 600 - column), std::min<std::int64_t>(256, 300 - row), 10});
            for (std::int64_t r = 0; r < tile.rows(); ++r)
                for (std::int64_t c = 0; c < tile.columns(); ++c) tile(r, c) = grid(row + r, column + c);
            writer.put(row, column, tile);
        }
    EXPECT_THROW(writer.put(299, 0, terrain::Grid<float>({1, 2, 10})), std::invalid_argument);
    EXPECT_THROW(writer.put(0, 0, terrain::Grid<std::uint8_t>({1, 1, 10})), std::invalid_argument);
    writer.finish();
    expect_same(Layer(folder.path + "/t.tif").values(), grid);
}

TEST(AtomicFile, HasNoValueWhereNoTileWasPut) {
    Folder folder;
    TileWriter writer(folder.path + "/t.tif", place_of(600, 300), TileWriter::Kind::values);
    writer.put(0, 0, terrain::Grid<float>({256, 256, 10}, 3.0F));
    writer.finish();
    const auto values = Layer(folder.path + "/t.tif").values();
    EXPECT_EQ(values(255, 255), 3);
    EXPECT_TRUE(std::isnan(values(299, 599)));
}

TEST(AtomicFile, LeavesNothingWhenItIsNotFinished) {
    Folder folder;
    std::ofstream(folder.path + "/t.tif") << "the old one";
    {
        TileWriter writer(folder.path + "/t.tif", place_of(600, 300), TileWriter::Kind::values);
        writer.put(0, 0, terrain::Grid<float>({256, 256, 10}, 3.0F));
    }
    EXPECT_EQ(program::slurp(folder.path + "/t.tif"), "the old one");
    EXPECT_EQ(entries(folder.path), 1);
}

TEST(AtomicFile, StandsInNoFolderUntilItIsWhole) {
    for (const bool cloud : {false, true}) {
        Folder folder;
        const std::string path = folder.path + "/t.tif";
        if (!written_unnamed(path)) GTEST_SKIP() << "the file system of /tmp has no files without names";
        WriteOptions options;
        options.cloud_optimized = cloud;
        TileWriter writer(path, place_of(700, 600), TileWriter::Kind::values, options);
        writer.put_all(waves(700, 600));
        writer.flush();
        EXPECT_EQ(entries(folder.path), 0) << cloud;
        writer.finish();
        EXPECT_EQ(entries(folder.path), 1) << cloud;
    }
}

TEST(AtomicFile, GivesCloudOptimizedFilesOverviewsDownToATile) {
    Folder folder;
    WriteOptions options;
    options.cloud_optimized = true;
    const auto grid = waves(1300, 600);
    write_values(folder.path + "/t.tif", grid, place_of(1300, 600), options);
    GDALDatasetH dataset = GDALOpen((folder.path + "/t.tif").c_str(), GA_ReadOnly);
    GDALRasterBandH band = GDALGetRasterBand(dataset, 1);
    ASSERT_EQ(GDALGetOverviewCount(band), 2);  // 650, 325: the first that a tile of 512 holds
    EXPECT_EQ(GDALGetRasterBandXSize(GDALGetOverview(band, 1)), 325);
    float corner = 0;
    ASSERT_EQ(GDALRasterIO(GDALGetOverview(band, 0), GF_Read, 1, 1, 1, 1, &corner, 1, 1, GDT_Float32, 0, 0), CE_None);
    EXPECT_NEAR(corner, (grid(2, 2) + grid(2, 3) + grid(3, 2) + grid(3, 3)) / 4, 1e-4);
    GDALClose(dataset);
}

TEST(AtomicFile, NamesAFolderThatIsNotThere) {
    try {
        write_values("/no-such-folder/a.tif", waves(2, 2), place_of(2, 2));
        FAIL() << "was written";
    } catch (const WriteError& error) {
        EXPECT_THAT(error.what(), HasSubstr("/no-such-folder/a.tif"));
        EXPECT_THAT(error.what(), HasSubstr("No such file"));
    }
}

TEST(AtomicFile, IsWholeOrNotThereWhenTheDiskIsFull) {
    for (const bool cloud : {false, true}) {
        Folder folder;
        const std::string path = folder.path + "/out.tif";
        const auto grid = waves(512, 512);
        WriteOptions options;
        options.cloud_optimized = cloud;
        write_values(path, grid, place_of(512, 512), options);
        const std::size_t size = program::slurp(path).size();
        // From no room at all up to the last byte: never a part, never a word on standard error.
        std::vector<std::size_t> rooms = {0, 1, 100, 1000, size - 1000, size - 100, size - 10, size - 1};
        for (std::size_t part = 1; part < 12; ++part) rooms.push_back(size * part / 12);
        for (const std::size_t room : rooms) {
            unlink(path.c_str());
            testing::internal::CaptureStderr();
            bool refused = false;
            {
                const SmallDisk disk(room);
                try {
                    write_values(path, grid, place_of(512, 512), options);
                } catch (const WriteError& error) {
                    refused = true;
                    EXPECT_THAT(error.what(), HasSubstr(path));
                }
            }
            EXPECT_EQ(testing::internal::GetCapturedStderr(), "") << room;
            EXPECT_TRUE(refused) << (cloud ? "cloud " : "") << room << " of " << size;
            EXPECT_EQ(entries(folder.path), refused ? 0 : 1) << room;
            if (!refused) expect_same(Layer(path).values(), grid);
        }
    }
}

}  // namespace
}  // namespace soilhold::raster
