/// A ranking that admits its ties: each field's place by a criterion, its chance to be among the first N, and the
/// groups of fields that the doubt does not tell apart.
///
/// Doubts are of three kinds: what all fields share (R, the method) cancels and is left out; what a group shares (one
/// soil's K) moves its fields together; what is a field's own (C, P, its slope) moves it alone. A source of doubt with
/// a number (a part of the calendar that makes C of rotations) moves each field that it touches as far as it moves that
/// field. Draws are lognormal and counted by seed, source, group and field, so that neither order nor threads change
/// them.
/// @source simulation of ranks: common practice, no source; the groups of ties: our reading
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace soilhold::watershed {

/// A doubt that fields have in common and that moves each by its own measure: straight from `low` at -1.96 over 0 to
/// `high` at 1.96.
struct SharedDoubt {
    std::size_t source = 0;    ///< the same number: the same error
    double low = 0, high = 0;  ///< moves of ln value at the scores -1.96 and 1.96
};

/// What is taken from a whole where the value is what is left (avoidable tons by another rotation).
struct Taken {
    double value = 0;                 ///< of the value's unit: whole - taken = value
    double whole_log_sd = 0;          ///< the whole's doubt that is not the taken's
    std::vector<SharedDoubt> shared;  ///< of the taken; those of the whole are the field's
};

struct Ranked {
    double value = 0;         ///< the criterion, larger comes first; 0 or less comes last
    double own_log_sd = 0;    ///< standard deviation of ln value from the field's own doubts
    double group_log_sd = 0;  ///< from what its group shares
    std::size_t group = 0;
    std::vector<SharedDoubt> shared{};
    std::optional<Taken> taken{};  ///< none: the doubts are those of the value itself
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
