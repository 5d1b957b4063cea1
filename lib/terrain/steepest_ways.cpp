#include "terrain/steepest_ways.h"

#include <algorithm>
#include <bit>
#include <cstring>

#include "terrain/direction.h"
#include "terrain/processor_clones.h"

namespace soilhold::terrain {

// Falls are compared by their bits, which for positive floats have the order of whole numbers and for others are
// negative: the compiler may not compare several floats at once, since one might not be a number.
SOILHOLD_PROCESSOR_CLONES
void steepest_ways(const float* here, std::int64_t stride, std::int64_t columns, std::uint8_t* way) {
    constexpr float diagonal_weight = 0.70710678F;
    constexpr std::int32_t without_sign = 0x7FFFFFFF, infinite = 0x7F800000;
    const float *north = here - stride, *south = here + stride;
    for (std::int64_t c = 0; c < columns; ++c) {
        const float z = here[c];
        std::int32_t steepest = 0, best = 0, uneven = 0, edge = 0;
        const auto take = [&](float neighbour, float weight, std::int32_t code) {
            const auto bits = std::bit_cast<std::int32_t>((z - neighbour) * weight);
            const bool steeper = bits > steepest;
            steepest = steeper ? bits : steepest;
            best = steeper ? code : best;
            uneven |= bits & without_sign;
            edge |= std::bit_cast<std::int32_t>(neighbour) == infinite ? 1 : 0;
        };
        take(here[c + 1], 1.0F, 1);
        take(south[c], 1.0F, 2);
        take(here[c - 1], 1.0F, 3);
        take(north[c], 1.0F, 4);
        take(south[c + 1], diagonal_weight, 5);
        take(south[c - 1], diagonal_weight, 6);
        take(north[c - 1], diagonal_weight, 7);
        take(north[c + 1], diagonal_weight, 8);
        // No neighbour of a flat cell is lower, so one that is not level is higher.
        const std::int32_t flat = uneven != 0 ? flat_below : flat_amid;
        const std::int32_t still = edge != 0 ? static_cast<std::int32_t>(Direction::outlet) : flat;
        const std::int32_t known = best != 0 ? best : still;
        way[c] = static_cast<std::uint8_t>(std::bit_cast<std::int32_t>(z) == infinite ? 0 : known);
    }
}

// Eight ways at a time where none is flat.
void list_flat_cells(const std::uint8_t* way, std::int32_t begin, std::int32_t end, std::vector<std::int32_t>& flat) {
    const std::size_t before = flat.size();
    flat.resize(before + static_cast<std::size_t>(end - begin) + 1);
    std::int32_t* to = flat.data() + before;
    for (std::int32_t cell = begin; cell < end;) {
        std::uint64_t eight = 0;
        if (end - cell >= 8) {
            std::memcpy(&eight, way + cell, 8);
            if ((eight & 0x1010101010101010U) == 0) {
                cell += 8;
                continue;
            }
        }
        for (const std::int32_t stop = std::min(cell + 8, end); cell < stop; ++cell) {
            *to = cell;
            to += way[cell] >= flat_below;
        }
    }
    flat.resize(static_cast<std::size_t>(to - flat.data()));
}

}  // namespace soilhold::terrain
