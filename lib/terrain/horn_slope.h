/// Slope and aspect of the ground at each cell, from the eight cells around it (Horn 1981).
///
/// p = [(ne + 2 e + se) - (nw + 2 w + sw)] / (8 D) is the rise per metre towards east, q the same towards south, D the
/// cell's width; gradient = sqrt(p^2 + q^2), rise over run. These weights are those of the plane through the cell's own
/// height that fits its neighbours best, a straight neighbour counting twice and one across a corner once. Where
/// neighbours are missing the same fit goes through those that are left (ours): at a border it is the one-sided
/// difference, and it is exact on every plane.
///
/// Needs: elevations as surveyed (a filled lake is level, its ground is not), NaN or infinite for nodata. Changes:
/// nothing. Nodata: NaN in all results. Border: as missing neighbours; neighbours in one line give the slope along it
/// (ours), a cell alone is level. Ties: level ground has gradient 0, contour 1 and no aspect (NaN).
/// Memory: 4 bytes a cell and result. The same bits for any tile side and number of threads, each cell being local.
/// @source  Horn, B. K. P. (1981): Hill shading and the reflectance map. Proceedings of the IEEE 69(1):14-47. From
///          memory.
#pragma once

#include <array>
#include <cstdint>

#include "terrain/grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// Heights of a cell and of the eight around it in the order of direction.h: E, S, W, N, SE, SW, NW, NE. NaN: missing.
struct Neighbours {
    float here = no_value;
    std::array<float, 8> around{no_value, no_value, no_value, no_value, no_value, no_value, no_value, no_value};
};

/// The neighbours of a cell; NaN outside the grid.
Neighbours neighbours_of(const Grid<float>& grid, std::int64_t row, std::int64_t column);

/// How the ground leans: rise per metre towards east and towards south.
struct Lean {
    double east = 0;
    double south = 0;
};

/// The plane through the cell's height that fits the neighbours there are. NaN twice for a cell without a value.
/// @param cell_m  D, > 0
Lean lean_of(const Neighbours& cell, double cell_m);

/// Towards where the ground falls, radians clockwise from north, 0 to 2 pi; NaN on level ground.
double aspect_of(const Lean& lean);

struct Slopes {
    Grid<float> gradient;  ///< rise over run, >= 0
    Grid<float> contour;   ///< |sin a| + |cos a| of the aspect a, 1 to sqrt 2: contour a cell's water crosses, in D
};

Slopes horn_slopes(const Grid<float>& ground, const Tiling& tiling = {});

Grid<float> horn_aspect(const Grid<float>& ground, const Tiling& tiling = {});

/// One row of gradients and contours, for those who hold tiles of their own.
/// @param north, here, south  first cell of three rows; places -1 and `count` exist in each; NaN: missing
/// @param contour             null if not wanted, which saves a third of the time
void horn_row(const float* north, const float* here, const float* south, std::int64_t count, double cell_m,
              float* gradient, float* contour);

}  // namespace soilhold::terrain
