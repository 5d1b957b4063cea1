#include "watershed/loss_map.h"

#include <cmath>
#include <stdexcept>

namespace soilhold::watershed {

CellFactors cell_factors(const Layers& layers, std::int64_t row, std::int64_t column, std::optional<double> C,
                         std::optional<double> P, double m) {
    const std::int32_t soil = layers.soils.at(row, column);
    return {layers.R.at(row, column),
            soil < 0 ? terrain::no_value : layers.soils.list[static_cast<std::size_t>(soil)].K,
            layers.LS(row, column),
            C ? static_cast<float>(*C) : layers.C.at(row, column),
            P ? static_cast<float>(*P) : layers.P.at(row, column),
            static_cast<float>(m)};
}

LossMap loss_map(const Layers& layers) {
    const terrain::Shape& shape = layers.LS.shape();
    for (const Factor* factor : {&layers.R, &layers.C, &layers.P})
        if (factor->grid && factor->grid->shape() != shape)
            throw std::invalid_argument("all layers must be of one shape");
    if (layers.soils.grid && layers.soils.grid->shape() != shape)
        throw std::invalid_argument("all layers must be of one shape");
    LossMap map{terrain::Grid<float>(shape, terrain::no_value), {}};
    for (std::int64_t row = 0; row < shape.rows; ++row)
        for (std::int64_t column = 0; column < shape.columns; ++column) {
            const CellFactors cell = cell_factors(layers, row, column);
            map.loss(row, column) = cell.loss();
            const auto all = cell.all();
            // Channels, and cells without a height, lack no more than their slope.
            if (std::isnan(cell.LS)) {
                ++map.missing[2];
                continue;
            }
            for (std::size_t i = 0; i < all.size(); ++i) map.missing[i] += std::isnan(all[i]) ? 1 : 0;
        }
    return map;
}

}  // namespace soilhold::watershed
