#include "terrain/horn_slope.h"

#include <bit>
#include <cmath>
#include <numbers>

#include "terrain/direction.h"
#include "terrain/processor_clones.h"

namespace soilhold::terrain {
namespace {

Neighbours neighbours_in(const float* north, const float* here, const float* south, std::int64_t c) {
    return {here[c],
            {here[c + 1], south[c], here[c - 1], north[c], south[c + 1], south[c - 1], north[c - 1], north[c + 1]}};
}

float contour_of(const Lean& lean) {
    const double p = std::abs(lean.east), q = std::abs(lean.south);
    const double gradient = std::sqrt(p * p + q * q);
    return gradient > 0 ? static_cast<float>((p + q) / gradient) : 1.0F;
}

struct Row {
    const float *north, *here, *south;
    std::int64_t count;
    double cell_m;
};

// The cells with all eight neighbours; the others get a gradient that is not finite. False if there are such.
template <bool with_contour>
[[gnu::always_inline]] inline bool whole_cells(const Row& row, float* gradient, float* contour) {
    const float *north = row.north, *here = row.here, *south = row.south;
    const double eight_cells = 8 * row.cell_m;
    std::int32_t broken = 0;
    for (std::int64_t c = 0; c < row.count; ++c) {
        // Differences first: sums of float heights lose nothing in a double, so a turned grid gives the same bits.
        const double corner = static_cast<double>(south[c + 1]) - north[c - 1];
        const double other = static_cast<double>(north[c + 1]) - south[c - 1];
        const double p = ((corner + other) + 2 * (static_cast<double>(here[c + 1]) - here[c - 1])) / eight_cells;
        const double q = ((corner - other) + 2 * (static_cast<double>(south[c]) - north[c])) / eight_cells;
        const double steep = std::sqrt(p * p + q * q);
        // The cell's own height takes no part, except that it must be one: x - x is NaN unless x is finite.
        const float own = here[c] - here[c];
        gradient[c] = static_cast<float>(steep) + own;
        broken |= (std::bit_cast<std::int32_t>(gradient[c]) & 0x7FFFFFFF) >= 0x7F800000;
        if constexpr (with_contour)
            contour[c] = (steep > 0 ? static_cast<float>((std::abs(p) + std::abs(q)) / steep) : 1.0F) + own;
    }
    return broken == 0;
}

SOILHOLD_PROCESSOR_CLONES
bool lean_whole_cells(const Row& row, float* gradient, float* contour) {
    return whole_cells<true>(row, gradient, contour);
}

SOILHOLD_PROCESSOR_CLONES
bool steepen_whole_cells(const Row& row, float* gradient) { return whole_cells<false>(row, gradient, nullptr); }

}  // namespace

Neighbours neighbours_of(const Grid<float>& grid, std::int64_t row, std::int64_t column) {
    Neighbours cell{grid(row, column), {}};
    for (std::size_t k = 0; k < 8; ++k) {
        const std::int64_t r = row + row_steps[k], c = column + column_steps[k];
        cell.around[k] = grid.shape().holds(r, c) ? grid(r, c) : no_value;
    }
    return cell;
}

Lean lean_of(const Neighbours& cell, double cell_m) {
    if (!std::isfinite(cell.here)) return {no_value, no_value};
    // Normal equations of the fit; x towards east and y towards south in cells.
    double xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;
    for (std::size_t k = 0; k < 8; ++k) {
        if (!std::isfinite(cell.around[k])) continue;
        const double x = column_steps[k], y = row_steps[k], weight = k < 4 ? 2 : 1;
        const double rise = static_cast<double>(cell.around[k]) - cell.here;
        xx += weight * x * x, xy += weight * x * y, yy += weight * y * y;
        xz += weight * x * rise, yz += weight * y * rise;
    }
    const double determinant = xx * yy - xy * xy;
    if (determinant > 0.5)  // whole numbers: 0 or at least 1
        return {(yy * xz - xy * yz) / determinant / cell_m, (xx * yz - xy * xz) / determinant / cell_m};
    // All in one line: no slope across it. The sums along the line are in proportion, so the trace divides both.
    if (xx + yy > 0.5) return {xz / (xx + yy) / cell_m, yz / (xx + yy) / cell_m};
    return {};
}

double aspect_of(const Lean& lean) {
    if (!(lean.east != 0 || lean.south != 0) || std::isnan(lean.east)) return no_value;
    // Downhill is (-east, -south), and north is -south.
    const double angle = std::atan2(-lean.east, lean.south);
    return angle < 0 ? angle + 2 * std::numbers::pi : angle;
}

void horn_row(const float* north, const float* here, const float* south, std::int64_t count, double cell_m,
              float* gradient, float* contour) {
    const Row row{north, here, south, count, cell_m};
    const bool whole = contour ? lean_whole_cells(row, gradient, contour) : steepen_whole_cells(row, gradient);
    if (whole) return;
    for (std::int64_t c = 0; c < count; ++c) {
        if (std::isfinite(gradient[c])) continue;
        const Lean lean = lean_of(neighbours_in(north, here, south, c), cell_m);
        gradient[c] = static_cast<float>(std::sqrt(lean.east * lean.east + lean.south * lean.south));
        if (contour) contour[c] = std::isfinite(gradient[c]) ? contour_of(lean) : no_value;
    }
}

Slopes horn_slopes(const Grid<float>& ground, const Tiling& tiling) {
    Slopes slopes{{ground.shape(), Unset{}}, {ground.shape(), Unset{}}};
    const TileCut cut(ground.shape(), tiling.side);
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const Tile tile = cut.tile(t);
        const auto patch = cut_patch(ground, tile, no_value);
        for (std::int64_t r = 0; r < tile.rows; ++r)
            horn_row(&patch(r - 1, 0), &patch(r, 0), &patch(r + 1, 0), tile.columns, ground.shape().cell_m,
                     &slopes.gradient(tile.row + r, tile.column), &slopes.contour(tile.row + r, tile.column));
    });
    return slopes;
}

Grid<float> horn_aspect(const Grid<float>& ground, const Tiling& tiling) {
    Grid<float> aspects(ground.shape(), Unset{});
    const TileCut cut(ground.shape(), tiling.side);
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const Tile tile = cut.tile(t);
        const auto patch = cut_patch(ground, tile, no_value);
        for (std::int64_t r = 0; r < tile.rows; ++r)
            for (std::int64_t c = 0; c < tile.columns; ++c)
                aspects(tile.row + r, tile.column + c) = static_cast<float>(aspect_of(lean_of(
                    neighbours_in(&patch(r - 1, 0), &patch(r, 0), &patch(r + 1, 0), c), ground.shape().cell_m)));
    });
    return aspects;
}

}  // namespace soilhold::terrain
