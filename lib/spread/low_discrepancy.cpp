#include "spread/low_discrepancy.h"

#include <boost/math/special_functions/erf.hpp>
#include <boost/random/sobol.hpp>
#include <numbers>
#include <stdexcept>

#include "spread/independent.h"

namespace soilhold::spread {

Scores normal_scores(std::size_t dimensions, std::size_t draws, std::uint64_t seed) {
    if (dimensions < 1 || dimensions > 3667 || draws < 1)
        throw std::invalid_argument("normal_scores: 1 to 3667 dimensions and at least one draw");
    boost::random::sobol_engine<std::uint32_t, 32> engine(dimensions);
    std::vector<std::uint32_t> shift(dimensions);
    for (std::size_t d = 0; d < dimensions; ++d)
        shift[d] = static_cast<std::uint32_t>(split_mix(split_mix(seed) + d) >> 32);
    Scores scores(dimensions, std::vector<double>(draws));
    for (std::size_t i = 0; i < draws; ++i)
        for (std::size_t d = 0; d < dimensions; ++d) {
            // The middle of the cell, so that 0 and 1 never come up.
            const double u =
                (static_cast<double>(static_cast<std::uint32_t>(engine()) ^ shift[d]) + 0.5) / 4294967296.0;
            scores[d][i] = std::numbers::sqrt2 * boost::math::erf_inv(2 * u - 1);
        }
    return scores;
}

}  // namespace soilhold::spread
