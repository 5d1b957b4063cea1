/// The slope factor LS [1] of each cell of a grid, and the soil loss of the whole map in the same sweep.
///
/// L = [(A + D^2)^(m+1) - A^(m+1)] / (D^(m+2) x^m u^m) (Desmet & Govers): A the ground that drains into the cell, m2,
/// D its width, x the contour it crosses in cell widths, m the exponent and S the steepness factor of
/// Handbook 703. It is the law of irregular slopes with ground per width of contour for length: on a plane the mean of
/// L down a slope is (length/u)^m. u is 72.6 ft here, as on hillslopes (factors/slope_length.h), so that a map and a
/// slope agree; the paper's 22.13 m makes L less than 0.007 % smaller.
/// - x = |sin a| + |cos a| of the aspect a (horn_slope.h) is the paper's. On slopes that face a corner it makes lengths
///   too short, by a half with single directions. Given the ways, x is the width that they cross, which is right on
///   planes along rows, columns and corners; crossed_contour.h has the same for shared water (ours).
/// - The longest slope holds back ground: (A + D^2)/(D x) at a cell's lower side counts up to it. A cell wider than the
///   longest slope counts itself alone.
/// - From a drained area on a cell is a channel: no slope, no LS (NaN).
/// - Barriers are those of the accumulation: the sum of ground starts anew behind them.
/// - The short-slope S (below 15 ft) is left out: a cell is a part of a slope, no slope of its own.
///
/// Needs: elevations as surveyed, and drained ground from accumulation.h or capped_accumulation.h. Changes: nothing.
/// Nodata (ground NaN or infinite, drained NaN or 0): NaN. Border: as horn_slope.h. Ties: none; level ground has
/// S 0.03 and, m being 0, L 1. Memory: 4 bytes a cell and result. The same bits for any tile side and number of
/// threads, each cell being local. Worked in floats: within 1e-5 of the equation.
/// @source  Desmet, P. J. J., Govers, G. (1996): A GIS procedure for automatically calculating the USLE LS factor on
///          topographically complex landscape units. J. Soil Water Conserv. 51:427-433 (form read in a paper that
///          quotes it). S and m: factors/slope_steepness.h, factors/slope_length.h. Longest slope: 400 ft usual, 1000
///          ft the most (read in a textbook)
#pragma once

#include <cstdint>
#include <limits>

#include "factors/slope.h"
#include "terrain/direction.h"
#include "terrain/grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

inline constexpr double usual_longest_slope_m = 121.92;  ///< 400 ft
inline constexpr double most_slope_m = 304.8;            ///< 1000 ft

struct SlopeLengthRules {
    factors::RillRatio rill_ratio = factors::RillRatio::moderate;
    double longest_slope_m = usual_longest_slope_m;  ///< > 0, at most 1000 ft
    /// Drained ground, m2, from which a cell is a channel; infinite: none is.
    double channel_from_m2 = std::numeric_limits<double>::infinity();
};

/// What the slope factor is worked out from, all of one shape.
struct SlopeGround {
    const Grid<float>& elevation;  ///< m
    const Grid<double>& drained;   ///< cells that drain through each cell, itself included
    /// x, contour that each cell's water crosses, in cell widths (crossed_contour.h); null: the paper's.
    const Grid<float>* contour = nullptr;
    /// The single ways that `drained` was summed along; without `contour` they give x: 1 straight, 1/sqrt 2 across a
    /// corner, so that a slope's length is that of the way its water takes (crossed_contour.h); null: the paper's.
    const Grid<Direction>* ways = nullptr;
};

/// A factor of the equation: a grid, or where there is none one value for the whole map.
struct FactorLayer {
    const Grid<float>* grid = nullptr;
    double value = 1.0;
};

struct LossLayers {
    FactorLayer erosivity;    ///< R, MJ mm/(ha h yr)
    FactorLayer erodibility;  ///< K, t ha h/(ha MJ mm)
    FactorLayer cover;        ///< C
    FactorLayer practice;     ///< P
};

/// @throws std::invalid_argument for rules out of range
void check_rules(const SlopeLengthRules& rules);

/// LS of each cell.
/// @throws std::invalid_argument for grids of other shapes or rules out of range
Grid<float> slope_factors(const SlopeGround& ground, const SlopeLengthRules& rules = {}, const Tiling& tiling = {});

struct LossMap {
    Grid<float> slope_factor;  ///< LS
    Grid<float> loss;          ///< A = R K LS C P, t/(ha yr); NaN where any of them is
};

/// LS and loss in one sweep.
/// @throws std::invalid_argument for grids of other shapes or rules out of range
LossMap loss_map(const SlopeGround& ground, const LossLayers& layers, const SlopeLengthRules& rules = {},
                 const Tiling& tiling = {});

/// One row of LS, for those who hold tiles of their own. @param drained  cells, itself included
/// @param gradient, contour  from horn_row @param slope_factor  may be neither of the others
void slope_factor_row(const float* gradient, const float* contour, const double* drained, std::int64_t count,
                      double cell_m, const SlopeLengthRules& rules, float* slope_factor);

/// The contour that single ways cross, in cell widths: 1 straight, 1/sqrt 2 across a corner.
void cross_ways(const Direction* ways, std::int64_t count, float* contour);

/// Multiplies a row by a factor: a row of a grid, or one value where `grid` is null.
void multiply_row(float* row, std::int64_t count, const float* grid, double value);

/// LS of one cell by the equation itself, in doubles: what the rows are held to.
double cell_slope_factor(double gradient, double contour, double drained, double cell_m, const SlopeLengthRules& rules);

/// L of one cell by the equation itself. @param inflow_m2  A, >= 0 @param exponent  m, 0 to 1 @param contour  x
double cell_length_factor(double inflow_m2, double cell_m, double exponent, double contour);

}  // namespace soilhold::terrain
