/// Points that fill a cube evenly, as standard normal scores: one row of scores for each draw.
///
/// Sobol points with a random digital shift per dimension. The same seed gives the same points on any machine and for
/// any number of threads. Column d is one source of doubt; fields and practices that share it read the same column.
/// @source Sobol' 1967 USSR Comput. Math. Math. Phys. 7:86-112, as in Boost.Random; Joe & Kuo direction numbers
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace soilhold::spread {

/// Normal scores, column by column: scores[dimension][draw].
using Scores = std::vector<std::vector<double>>;

/// @param dimensions  1 to 3667
/// @param draws       at least 1; powers of two fill best
/// @param seed        any; 0 is a seed like others
/// @throws std::invalid_argument outside these ranges
Scores normal_scores(std::size_t dimensions, std::size_t draws, std::uint64_t seed);

}  // namespace soilhold::spread
