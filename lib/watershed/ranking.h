/// A ranking that admits its ties: each field's place by a criterion, its chance to be among the first N, and the
/// groups of fields that the doubt does not tell apart.
///
/// Doubts are of three kinds: what all fields share (R, the method) cancels and is left out; what a group shares (one
/// soil's K) moves its fields together; what is a field's own (C, P, its slope) moves it alone. Draws are lognormal and
/// counted by seed, group and field, so that neither order nor threads change them.
/// @source simulation of ranks: common practice, no source; the groups of ties: our reading
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace soilhold::watershed {

struct Ranked {
    double value = 0;         ///< the criterion, larger comes first; 0 or less comes last
    double own_log_sd = 0;    ///< standard deviation of ln value from the field's own doubts
    double group_log_sd = 0;  ///< from what its group shares
    std::size_t group = 0;
};

struct Rank {
    std::size_t place = 0;     ///< from 1, by the central value; equal values by their order in the input
    double chance_in_top = 0;  ///< 0..1, of being among the first N
    std::size_t likely_first = 0, likely_last = 0;  ///< places that hold it in the middle 80 % of the draws
    std::size_t tie_group = 0;  ///< from 1: fields of one group can't be told from the group's first
};

struct RankSettings {
    std::size_t top = 10;
    std::size_t draws = 1000;
    std::uint64_t seed = 1;
};

/// One Rank a field, in the order of the input. A tie group begins with the best field not yet in one and takes every
/// field after it that comes before that one in more than one draw of four.
/// @throws std::invalid_argument for negative doubts, no draws or values that are no numbers
std::vector<Rank> ranking(std::span<const Ranked> fields, const RankSettings& settings = {});

/// Share of the whole that the best `share` of the fields carry ('the top fifth carries 61 %'), by number of fields
/// rounded to the nearest, at least one.
double carried_by_top(std::span<const double> tons, double share);

}  // namespace soilhold::watershed
