/// The cheapest cut out of one pit: which cells to lower so that the pit's water reaches lower ground.
///
/// From the bottom of the pit, a cell or level ground, ways of 8-neighbours are searched in order of what has to be
/// taken away along them: the sum over their cells of what stands above the bottom. The first to reach a cell lower
/// than the bottom, or an outlet no higher, is the cut. Only cells within the longest cut of the bottom's first cell
/// (straight, centre to centre) and at most the deepest cut above the bottom may be crossed. Outlets above the bottom
/// are not cut: what lies beyond them is unknown.
///
/// Needs: a window of ground that shows every cell within the longest cut and one more around them. Ties: of equal
/// sums the way of fewest cells, then the end and each step that come first in reading order. Sums are whole steps of
/// 2^-16 m, so that they depend on no order. Memory: 13 bytes a cell of a square over the longest cut, and the queue.
/// @source  Lindsay, J. B., Dhun, K. (2015): Modelling surface drainage patterns in altered landscapes using LiDAR.
///          International Journal of Geographical Information Science 29 (a least-cost way from each pit). From memory.
#pragma once

#include <cstdint>
#include <vector>

namespace soilhold::terrain {

/// How far and how deep a cut may go.
struct CutLimits {
    double longest_m = 100;  ///< from the pit to the far end of its cut, straight; our assumption
    double deepest_m = 3;    ///< below the ground as surveyed, at most 100; our assumption
};

/// No cut is searched farther than this, cells: a search's time and memory grow with its square.
inline constexpr std::int64_t most_reach = 500;

/// A rectangle of heights in which a search goes.
struct SearchGround {
    const float* height = nullptr;         ///< m; plus infinity for nodata and beyond the grid
    const std::uint8_t* outlet = nullptr;  ///< 1: beside nodata or the border
    std::int64_t stride = 0;               ///< cells a row
};

/// Searches pit after pit; one to a thread.
class CutSearch {
  public:
    /// @throws std::invalid_argument for limits that are not above 0, too deep, or farther than most_reach cells
    CutSearch(const SearchGround& ground, const CutLimits& limits, double cell_m);

    /// Whether the cell is the first, in reading order, of a bottom without a lower neighbour or an outlet. A level
    /// bottom that leaves the circle of the longest cut around its first cell is a lake, not a bottom.
    bool bottom_at(std::int64_t place);

    /// What a cut lowers: cells as places in the ground, from its far end to the bottom.
    struct Cut {
        std::vector<std::int64_t> cells;
        float depth_m = 0;           ///< at its deepest
        std::int64_t squared_reach;  ///< square of the distance from the bottom's first cell to the end, cells
    };
    /// The cut out of the bottom that was found last; no cells if there is none within the limits.
    const Cut& cut();

  private:
    struct Entry {
        std::int64_t cost;
        std::int32_t cell;
    };
    struct End {
        std::int64_t cost;
        std::int32_t cell;
    };
    void forget();
    void push(std::int64_t cost, std::int32_t cell);
    Entry pop();
    End search();

    SearchGround ground_;
    double deepest_m_;
    std::int32_t stride_ = 0;          // of the square, which has a ring of one around the longest cut
    std::int32_t centre_ = 0;          // of the square
    std::int64_t start_ = 0;           // the centre in the ground
    std::vector<std::int64_t> place_;  // of the square's cells in the ground, from the centre
    std::vector<std::int64_t> cost_;   // of the cheapest way found to a cell; below 0 out of reach
    std::vector<std::uint8_t> from_;   // by which way
    std::vector<std::int32_t> touched_;
    std::vector<std::int32_t> bottom_;
    std::vector<Entry> queue_;
    Cut cut_;
};

}  // namespace soilhold::terrain
