#include "terrain/hillshade.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "terrain/horn_slope.h"

namespace soilhold::terrain {

Grid<float> hillshade(const Grid<float>& ground, const LightFrom& light) {
    if (!(light.height_deg >= 0 && light.height_deg <= 90) || !(light.exaggeration > 0) ||
        !std::isfinite(light.azimuth_deg))
        throw std::invalid_argument("a light stands 0 to 90 degrees high, and heights are exaggerated by more than 0");
    constexpr double degree = std::numbers::pi / 180;
    const double level = std::cos(light.height_deg * degree);
    const double east = std::sin(light.azimuth_deg * degree) * level;
    const double north = std::cos(light.azimuth_deg * degree) * level;
    const double up = std::sin(light.height_deg * degree);
    const double z = light.exaggeration;

    Grid<float> bright(ground.shape(), no_value);
    for (std::int64_t r = 0; r < ground.rows(); ++r)
        for (std::int64_t c = 0; c < ground.columns(); ++c) {
            const Lean lean = lean_of(neighbours_of(ground, r, c), ground.shape().cell_m);
            if (std::isnan(lean.east)) continue;
            const double p = z * lean.east, q = z * lean.south;
            const double towards = (-east * p + north * q + up) / std::sqrt(1 + p * p + q * q);
            bright(r, c) = static_cast<float>(std::clamp(towards, 0.0, 1.0));
        }
    return bright;
}

Grid<float> thinned(const Grid<float>& values, std::int64_t side) {
    if (side < 1) throw std::invalid_argument("a block has at least one cell a side");
    Shape shape = values.shape();
    shape.columns = (shape.columns + side - 1) / side;
    shape.rows = (shape.rows + side - 1) / side;
    shape.cell_m *= static_cast<double>(side);
    Grid<float> means(shape, no_value);
    for (std::int64_t r = 0; r < shape.rows; ++r)
        for (std::int64_t c = 0; c < shape.columns; ++c) {
            double sum = 0;
            int count = 0;
            for (std::int64_t y = r * side; y < std::min((r + 1) * side, values.rows()); ++y)
                for (std::int64_t x = c * side; x < std::min((c + 1) * side, values.columns()); ++x)
                    if (const float value = values(y, x); std::isfinite(value)) {
                        sum += value;
                        ++count;
                    }
            if (count > 0) means(r, c) = static_cast<float>(sum / count);
        }
    return means;
}

}  // namespace soilhold::terrain
