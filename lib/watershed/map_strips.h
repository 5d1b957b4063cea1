/// The last steps of a map, strip by strip: slope, slope length, LS and, where the factors are given, the loss of each
/// cell, counted and handed on as they become final.
///
/// It is the same for a map in memory and for one that is brought from the disk: whoever has the ground gives it strip
/// by strip. Each strip is worked while the next one is brought in and the last one is written (terrain/strips.h).
/// A = R K LS C P, t/(ha yr); NaN where any of them is. Nodata: NaN. Border: that of horn_slope.h; the rows above and
/// below a strip are needed. The same bits for any number of threads, and wherever the ground comes from.
/// Memory: strips of 256 rows, a few at a time: 4 bytes a cell of them and grid that is asked for.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>

#include "raster/placement.h"
#include "terrain/direction.h"
#include "terrain/grid.h"
#include "terrain/slope_length_grid.h"
#include "terrain/strips.h"
#include "watershed/map_spread.h"

namespace soilhold::watershed {

/// What a strip is worked from. Rows of the whole grid are counted from its north.
struct StripGround {
    terrain::HeldRows<float> elevation;  ///< as surveyed, m; with the row above and the row below, where there are
    terrain::HeldRows<double> drained;   ///< cells that drain through each cell, itself included
    /// 1 where so much ground drains, past barriers too, that a cell is a channel; none: where `drained` says so
    terrain::HeldRows<std::uint8_t> channels;
    terrain::HeldRows<terrain::Direction> ways;  ///< single directions; they give the contour where there is none
    terrain::HeldRows<float> contour;            ///< of water that spreads, in cell widths (crossed_contour.h); or none
    terrain::HeldRows<float> filled;             ///< m; only where it is to be handed on
    terrain::HeldRows<float> area;               ///< m2 by single directions, to be handed on; none: `drained` is that
    std::shared_ptr<void> keeper;                ///< holds what the rows lie in, where that isn't held elsewhere
};

/// Where strips of ground come from. A StripGround comes back for later strips, with its keeper.
struct GroundSource {
    std::function<void(const terrain::Strip&, StripGround&)> bring;  ///< from north to south, one at a time
    std::function<void(const terrain::Strip&, StripGround&)> work;   ///< after it, several at a time; may be empty
};

/// A factor of the equation on the strips: one figure, or values that are read.
struct StripFactor {
    float value = 1;
    /// Fills a strip that begins at a row of the grid, NaN for none; from north to south. Empty: one figure.
    std::function<void(std::int64_t row, terrain::Grid<float>& to)> read;
};
using StripFactors = std::array<StripFactor, 4>;  ///< R, K, C, P

/// Grids as they become final, from north to south: the strip's first row, and its values. Empty: not wanted.
struct MapTakers {
    using Values = std::function<void(std::int64_t row, const terrain::Grid<float>& strip)>;
    using Classes = std::function<void(std::int64_t row, const terrain::Grid<std::uint8_t>& strip)>;
    /// Where the map lies, told before the first strip.
    std::function<void(const raster::Placement&, const terrain::Shape&)> placed;
    Values gradient;      ///< rise over run
    Values filled;        ///< m
    Classes directions;   ///< terrain::Direction
    Classes channels;     ///< 1 where so much ground drains, past barriers too, that a cell is a channel, else 0
    Values area;          ///< ground that drains through a cell, m2, by single directions
    Values slope_length;  ///< what LS was worked out for: ground by width of contour, held to the longest slope, m
    Values slope_factor;  ///< LS
    Values loss;          ///< t/(ha yr)
};

/// What was counted on the way.
struct MapFindings {
    Spread gradient;      ///< rise over run
    Spread slope_factor;  ///< LS
    Spread loss;          ///< t/(ha yr); no cells without factors
    std::int64_t channel_cells = 0;
    double most_drained = 0;  ///< cells, of `drained`
};

/// @param factors   none: no loss is worked
/// @param progress  told the share done, 0 to 1; what it throws stops the work
/// @param most_held  strips at a time, fewer where memory is short
/// @throws std::invalid_argument for rules out of range, and what the parts throw
MapFindings finish_map(const terrain::Shape& shape, const GroundSource& ground, const StripFactors* factors,
                       const terrain::SlopeLengthRules& rules, const MapTakers& takers, int threads,
                       const std::function<void(double)>& progress = {},
                       std::size_t most_held = terrain::strips_at_a_time);

}  // namespace soilhold::watershed
