/// Independent standard normal scores, any number of columns of them: for hundreds of fields, whose own doubts have
/// nothing to do with one another. Points that fill a cube evenly (low_discrepancy.h) do so for tens of columns only:
/// in thousands some pairs of columns go together.
///
/// Counted, not drawn in turn: a score depends on seed, column and draw alone, so neither the order of the fields nor
/// the number of threads changes it.
/// @source SplitMix64 of Steele, Lea & Flood 2014, OOPSLA (its published constants), and the inverse error function
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace soilhold::spread {

/// The scores of one column. @param draws  any
std::vector<double> independent_scores(std::uint64_t column, std::size_t draws, std::uint64_t seed);

/// The mixing step itself: every bit of the result depends on every bit of x.
std::uint64_t split_mix(std::uint64_t x);

}  // namespace soilhold::spread
