/// A raster file of any format GDAL reads, opened for reading: where it lies, what its bands hold, their values.
///
/// Values come as numbers with the file's scale and offset applied; NaN where the file has no value: its nodata value
/// (also one that lost digits on the way to the file), NaN, infinity, cells its mask or alpha band hides.
/// Files stored south-up are turned; rotated ones are refused, as are complex numbers.
/// One Layer must not be used by two threads at a time; open the file once a thread instead.
#pragma once

#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <string>

#include "raster/placement.h"
#include "raster/stored_values.h"
#include "terrain/grid.h"

namespace soilhold::raster {

/// A rectangle of cells of a layer.
struct Window {
    std::int64_t row = 0;
    std::int64_t column = 0;
    std::int64_t rows = 0;
    std::int64_t columns = 0;
};

/// What stands for "no class" in grids of classes and ids.
inline constexpr std::int32_t no_class = std::numeric_limits<std::int32_t>::min();

/// What the file says about a band.
struct Band {
    std::string number_type;       ///< GDAL's name: "Float32", "Byte"
    bool whole_numbers = false;    ///< stored as integers, without scale or offset
    std::optional<double> nodata;  ///< as stored, before scale and offset
    double scale = 1;
    double offset = 0;
    std::string unit;         ///< as the file says it; empty: it doesn't
    std::string description;  ///< may be empty
    bool masked = false;      ///< has a mask or alpha band
};

class Layer {
  public:
    /// @throws RasterError: no such file (no-such-file), not readable (unreadable-raster), no raster in it
    /// (not-a-raster), empty, without a place on the map (no-georeference), rotated (rotated-raster)
    explicit Layer(const std::string& path);
    ~Layer();
    Layer(Layer&&) noexcept;
    Layer& operator=(Layer&&) noexcept;

    const std::string& path() const;
    const Placement& placement() const;
    int bands() const;
    /// @param number  from 1. @throws RasterError (no-such-band)
    Band band(int number) const;

    /// The values of a band, NaN for none. @param nodata  taken instead of the file's, where given
    /// @throws RasterError where the file is cut short or corrupt (unreadable-raster), the numbers are complex
    /// (complex-numbers), the window reaches beyond the file (std::invalid_argument: the caller's mistake)
    terrain::Grid<float> values(int band = 1, std::optional<double> nodata = {}) const;
    terrain::Grid<float> values(int band, const Window& window, std::optional<double> nodata = {}) const;

    /// The same into cells of the caller's, row by row, and times a unit; what is seen on the way is told.
    ValuesSeen read_values(std::span<float> to, int band, const Window& window, std::optional<double> nodata = {},
                           double times = 1) const;

    /// Whether any strip of terrain/strips.h is read as fast as any other: GeoTIFFs whose tiles end where strips end.
    bool is_read_alike_anywhere(int band) const;

    /// A band of classes or ids, no_class for none; reals are taken where all are whole.
    /// @throws RasterError as values(), and where a value is no whole number of 32 bits (not-classes)
    terrain::Grid<std::int32_t> classes(int band = 1) const;
    terrain::Grid<std::int32_t> classes(int band, const Window& window) const;

  private:
    struct Open;
    std::unique_ptr<Open> open_;
};

/// Reads a whole band on several threads, each with a handle of its own, where the file's kind lets parts be read alike
/// fast; the same values for any number. @param to  of the layer's rows and columns
/// @throws as Layer::values()
ValuesSeen read_all_values(const Layer& layer, terrain::Grid<float>& to, int band, std::optional<double> nodata,
                           double times, int threads);

}  // namespace soilhold::raster
