/// Stored numbers turned into values: what stands for "none" becomes NaN, scale, offset and unit are applied, and what
/// is seen on the way is counted. One pass over rows that compilers work several cells at a time.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>

namespace soilhold::raster {

/// How many cells had no value, and between what the others lie.
struct ValuesSeen {
    std::int64_t none = 0;
    float least = std::numeric_limits<float>::infinity();  ///< above `most`: there were none
    float most = -std::numeric_limits<float>::infinity();
    void join(const ValuesSeen& other);
};

/// How a band's numbers become values: number x scale + offset, rounded to a float, times a unit, rounded again.
struct Storing {
    std::optional<double> nodata;  ///< as stored
    double scale = 1;
    double offset = 0;
    double times = 1;  ///< of the caller's: metres in a foot
};

/// Whether a stored value is the nodata value, for one written with too few digits too: -3.40282e38 for the lowest
/// 32-bit number.
bool is_nodata(double value, double nodata);

/// Turns `count` stored numbers into values where they are.
/// @param shown  of each cell, 0 where a mask hides it; null: there is no mask
void settle_values(float* cells, std::int64_t count, const std::uint8_t* shown, const Storing& storing,
                   ValuesSeen& seen);

/// The same for numbers that a float can't hold. @param cells  to where the values go
void settle_values(const double* stored, std::int64_t count, const std::uint8_t* shown, const Storing& storing,
                   float* cells, ValuesSeen& seen);

}  // namespace soilhold::raster
