/// How the values of a map lie: quantiles and mean of its cells, counted on the way without sorting.
///
/// Values >= 0 count; NaN and what lies below 0 are left out. Floats are counted by their leading bits, so that
/// quantiles are exact to 1/2048 of a value. Memory: a table of 1 MB to a thread.
/// The same bits for any number of threads: counts are whole numbers, and rows are summed in the order of the map.
#pragma once

#include <cstdint>
#include <vector>

namespace soilhold::watershed {

/// Quantiles of the cells that have a value, and their mean.
struct Spread {
    std::int64_t cells = 0;
    double tenth = 0;       ///< 10 % lie below
    double middle = 0;      ///< 50 %
    double nine_tenth = 0;  ///< 90 %
    double mean = 0;
};

/// Values counted by one thread.
class Tally {
  public:
    Tally();
    /// @return the sum of the values that counted, in one and the same order of adding
    double add(const float* values, std::int64_t count);
    void join(const Tally& other);
    /// @param sum  of all values, as add() gave it row by row
    Spread spread(double sum) const;

  private:
    std::vector<std::int64_t> counts_;
};

}  // namespace soilhold::watershed
