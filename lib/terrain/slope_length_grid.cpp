#include "terrain/slope_length_grid.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <utility>
#include <vector>

#include "factors/slope_length.h"
#include "factors/slope_steepness.h"
#include "terrain/horn_slope.h"
#include "terrain/processor_clones.h"
#include "terrain/quick_powers.h"
#include "units/unit.h"

namespace soilhold::terrain {
namespace {

constexpr double unit_plot_m = 72.6 * units::metre_per_foot;

void check(const SlopeGround& ground, const SlopeLengthRules& rules) {
    if (!(ground.drained.shape() == ground.elevation.shape()))
        throw std::invalid_argument("drained ground and elevations must have one shape");
    if (ground.contour && !(ground.contour->shape() == ground.elevation.shape()))
        throw std::invalid_argument("contours need the shape of the elevations");
    if (ground.ways && !(ground.ways->shape() == ground.elevation.shape()))
        throw std::invalid_argument("directions need the shape of the elevations");
    check_rules(rules);
}

// What a row needs of the rules.
struct RowRules {
    float longest_cells;        // longest slope in cells
    float width_in_unit_plots;  // D/u
    double channel_cells;
    float rills;  // what b of the exponent is multiplied by
};

RowRules row_rules(double cell_m, const SlopeLengthRules& rules) {
    using factors::RillRatio;
    return {static_cast<float>(rules.longest_slope_m / cell_m), static_cast<float>(cell_m / unit_plot_m),
            rules.channel_from_m2 / (cell_m * cell_m),
            rules.rill_ratio == RillRatio::low    ? 0.5F
            : rules.rill_ratio == RillRatio::high ? 2.0F
                                                  : 1.0F};
}

// With a = A/D^2 and c = D/(x u), L = c^m [(a+1)^(m+1) - a^(m+1)]. From a = 1 on the difference would lose digits, so
// it is (m+1) c^m (a+1/2)^m times a short series in (a+1/2)^-2, what is left of it about its middle.
inline float length_factor(float a, float m, float c) {
    const bool few = a < 1.0F;
    const float upper = few ? a + 1.0F : a + 0.5F;
    const float power = quick_power(upper * c, m);
    // The least normal float stands for 0; whatever its power, a times it is 0.
    const float a_small = few ? a : 0.0F;
    const float lower_power = quick_power(std::max(a_small * c, 1.2e-38F), m);
    const float v = 1.0F / (upper * upper);
    const float k1 = m * (m - 1.0F) * (1.0F / 24);
    const float k2 = k1 * (m - 2.0F) * (m - 3.0F) * (1.0F / 80);
    const float k3 = k2 * (m - 4.0F) * (m - 5.0F) * (1.0F / 168);
    const float k4 = k3 * (m - 6.0F) * (m - 7.0F) * (1.0F / 288);
    const float series = (m + 1.0F) * (1.0F + v * (k1 + v * (k2 + v * (k3 + v * k4))));
    return few ? upper * power - a_small * lower_power : power * series;
}

// Cells that drain into each; NaN for channels and for cells without ground.
SOILHOLD_PROCESSOR_CLONES
void inflows(const double* drained, std::int64_t count, double channel_cells, float* inflow) {
    for (std::int64_t i = 0; i < count; ++i) {
        const double in = drained[i] < channel_cells ? drained[i] - 1.0 : double{no_value};
        inflow[i] = static_cast<float>(drained[i] > 0 ? in : double{no_value});
    }
}

// Held to the longest slope.
inline float held(float inflow, float contour, const RowRules& rules) {
    const float most = std::max(rules.longest_cells * contour - 1.0F, 0.0F);
    const float in = inflow > most ? most : inflow;
    return in < 0.0F ? 0.0F : in;
}

template <bool thawing>
[[gnu::always_inline]] inline void factor_row(const float* gradient, const float* contour, const float* inflow,
                                              std::int64_t count, const RowRules& rules, float* slope_factor) {
    for (std::int64_t i = 0; i < count; ++i) {
        const float g = gradient[i], x = contour[i];
        const float s = g / std::sqrt(1.0F + g * g);
        const float gentle = 10.8F * s + 0.03F;
        const float safe = std::max(s, 1e-30F);
        float m = 0.5F, steep = 16.8F * s - 0.50F;
        if constexpr (thawing) {
            steep = quick_power(safe * (1.0F / 0.0896F), 0.6F);
        } else {
            const float b = rules.rills * (s * (1.0F / 0.0896F)) / (3.0F * quick_power(safe, 0.8F) + 0.56F);
            m = b / (1.0F + b);
        }
        const float L = length_factor(held(inflow[i], x, rules), m, rules.width_in_unit_plots / x);
        slope_factor[i] = L * (g >= 0.09F ? steep : gentle);
    }
}

SOILHOLD_PROCESSOR_CLONES
void usual_factor_row(const float* gradient, const float* contour, const float* inflow, std::int64_t count,
                      const RowRules& rules, float* slope_factor) {
    factor_row<false>(gradient, contour, inflow, count, rules, slope_factor);
}

SOILHOLD_PROCESSOR_CLONES
void thawing_factor_row(const float* gradient, const float* contour, const float* inflow, std::int64_t count,
                        const RowRules& rules, float* slope_factor) {
    factor_row<true>(gradient, contour, inflow, count, rules, slope_factor);
}

void ls_row(const float* gradient, const float* contour, const double* drained, std::int64_t count,
            const RowRules& rules, bool thawing, float* slope_factor) {
    constexpr std::int64_t most = 512;
    std::array<float, most> inflow;
    for (std::int64_t at = 0; at < count; at += most) {
        const std::int64_t part = std::min(most, count - at);
        inflows(drained + at, part, rules.channel_cells, inflow.data());
        (thawing ? thawing_factor_row : usual_factor_row)(gradient + at, contour + at, inflow.data(), part, rules,
                                                          slope_factor + at);
    }
}

const float* row_of(const FactorLayer& layer, std::int64_t row, std::int64_t column) {
    return layer.grid ? &(*layer.grid)(row, column) : nullptr;
}

// Calls finish(row, column, count) for each row of each tile once its LS stand in the grid.
template <class Finish>
Grid<float> sweep(const SlopeGround& ground, const SlopeLengthRules& rules, const Tiling& tiling,
                  const Finish& finish) {
    check(ground, rules);
    const Shape shape = ground.elevation.shape();
    Grid<float> slope_factor(shape, Unset{});
    const TileCut cut(shape, tiling.side);
    const RowRules row_of_rules = row_rules(shape.cell_m, rules);
    const bool thawing = rules.rill_ratio == factors::RillRatio::thawing;
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const Tile tile = cut.tile(t);
        const auto patch = cut_patch(ground.elevation, tile, no_value);
        const auto width = static_cast<std::size_t>(tile.columns);
        std::vector<float> gradient(width), contour(width);
        for (std::int64_t r = 0; r < tile.rows; ++r) {
            const std::int64_t row = tile.row + r;
            const bool leaning = !ground.ways && !ground.contour;
            horn_row(&patch(r - 1, 0), &patch(r, 0), &patch(r + 1, 0), tile.columns, shape.cell_m, gradient.data(),
                     leaning ? contour.data() : nullptr);
            if (ground.ways) cross_ways(&(*ground.ways)(row, tile.column), tile.columns, contour.data());
            const float* crossed = ground.contour ? &(*ground.contour)(row, tile.column) : contour.data();
            ls_row(gradient.data(), crossed, &ground.drained(row, tile.column), tile.columns, row_of_rules, thawing,
                   &slope_factor(row, tile.column));
            finish(row, tile.column, tile.columns, slope_factor);
        }
    });
    return slope_factor;
}

}  // namespace

void check_rules(const SlopeLengthRules& rules) {
    if (!(rules.longest_slope_m > 0 && rules.longest_slope_m <= most_slope_m))
        throw std::invalid_argument("the longest slope lies above 0 and up to 304.8 m (1000 ft)");
    if (!(rules.channel_from_m2 > 0)) throw std::invalid_argument("a channel drains more than 0 m2");
}

void cross_ways(const Direction* ways, std::int64_t count, float* contour) {
    constexpr float corner = std::numbers::sqrt2_v<float> / 2;
    for (std::int64_t i = 0; i < count; ++i) contour[i] = diagonal(ways[i]) ? corner : 1.0F;
}

double cell_length_factor(double inflow_m2, double cell_m, double exponent, double contour) {
    const double m = exponent;
    return (std::pow(inflow_m2 + cell_m * cell_m, m + 1) - std::pow(inflow_m2, m + 1)) /
           (std::pow(cell_m, m + 2) * std::pow(contour, m) * std::pow(unit_plot_m, m));
}

double cell_slope_factor(double gradient, double contour, double drained, double cell_m,
                         const SlopeLengthRules& rules) {
    const double cell_m2 = cell_m * cell_m;
    if (!(drained > 0 && drained * cell_m2 < rules.channel_from_m2) || std::isnan(gradient)) return no_value;
    const double most_m2 = std::max(rules.longest_slope_m * cell_m * contour - cell_m2, 0.0);
    const double inflow_m2 = std::min(std::max(drained - 1, 0.0) * cell_m2, most_m2);
    const double m = factors::length_exponent_703(gradient, rules.rill_ratio);
    return cell_length_factor(inflow_m2, cell_m, m, contour) *
           factors::usual_steepness_factor_703(gradient, rules.rill_ratio);
}

void slope_factor_row(const float* gradient, const float* contour, const double* drained, std::int64_t count,
                      double cell_m, const SlopeLengthRules& rules, float* slope_factor) {
    ls_row(gradient, contour, drained, count, row_rules(cell_m, rules), rules.rill_ratio == factors::RillRatio::thawing,
           slope_factor);
}

void multiply_row(float* row, std::int64_t count, const float* grid, double value) {
    const auto one = static_cast<float>(value);
    if (grid)
        for (std::int64_t i = 0; i < count; ++i) row[i] *= grid[i];
    else
        for (std::int64_t i = 0; i < count; ++i) row[i] *= one;
}

Grid<float> slope_factors(const SlopeGround& ground, const SlopeLengthRules& rules, const Tiling& tiling) {
    return sweep(ground, rules, tiling, [](std::int64_t, std::int64_t, std::int64_t, const Grid<float>&) {});
}

LossMap loss_map(const SlopeGround& ground, const LossLayers& layers, const SlopeLengthRules& rules,
                 const Tiling& tiling) {
    for (const FactorLayer* layer : {&layers.erosivity, &layers.erodibility, &layers.cover, &layers.practice})
        if (layer->grid && !(layer->grid->shape() == ground.elevation.shape()))
            throw std::invalid_argument("each factor's grid needs the shape of the elevations");
    Grid<float> loss(ground.elevation.shape(), Unset{});
    auto slope_factor = sweep(
        ground, rules, tiling,
        [&](std::int64_t row, std::int64_t column, std::int64_t count, const Grid<float>& slope) {
            const float* from = &slope(row, column);
            float* to = &loss(row, column);
            std::copy(from, from + count, to);
            for (const FactorLayer* layer : {&layers.erosivity, &layers.erodibility, &layers.cover, &layers.practice})
                multiply_row(to, count, row_of(*layer, row, column), layer->value);
        });
    return {std::move(slope_factor), std::move(loss)};
}

}  // namespace soilhold::terrain
