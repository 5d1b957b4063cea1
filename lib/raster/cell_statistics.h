/// Minimum, maximum, mean and standard deviation of the cells of a raster, as its file tells them.
///
/// Cells come in parts. Of each thousand the mean is taken first and the squares about it then, both as plain sums that
/// compilers work several at a time; the parts are joined by the formula for two samples (any textbook of statistics;
/// Chan, Golub, LeVeque 1979, from memory).
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <span>

namespace soilhold::raster {

struct CellStatistics {
    double count = 0, mean = 0;
    double squares = 0;  ///< sum of squares about the mean
    double least = std::numeric_limits<double>::infinity(), most = -least;

    /// NaN is left out.
    void add(std::span<const float> cells);
    /// @param none  the class that means "no value"
    void add(std::span<const std::uint8_t> cells, std::optional<int> none);
    /// Joins another sample.
    void join(const CellStatistics& other);
    /// Of all cells, not of a sample of them; 0 for none.
    double deviation() const;
};

}  // namespace soilhold::raster
