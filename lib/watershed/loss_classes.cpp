#include "watershed/loss_classes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "raster/shares.h"

namespace soilhold::watershed {

namespace {

double soil_tolerance(const Layers& layers, std::int64_t row, std::int64_t column) {
    const std::int32_t soil = layers.soils.at(row, column);
    return soil < 0 ? std::nan("") : static_cast<double>(layers.soils.list[static_cast<std::size_t>(soil)].tolerance);
}

}  // namespace

std::uint8_t class_of(double value, const std::array<double, 4>& breaks) {
    if (std::isnan(value)) return 0;
    return static_cast<std::uint8_t>(
        1 + std::ranges::count_if(breaks, [value](double at_least) { return value >= at_least; }));
}

LossClasses loss_classes(const terrain::Grid<float>& loss, const Layers& layers, const raster::Placement& placement,
                         std::span<const FieldGiven> fields) {
    if (layers.LS.shape() != loss.shape() || placement.rows != loss.rows() || placement.columns != loss.columns())
        throw std::invalid_argument("loss, layers and placement must be of one shape");
    LossClasses classes{terrain::Grid<std::uint8_t>(loss.shape(), terrain::Unset{}), true};
    const auto positive = [](double tolerance) { return tolerance > 0; };
    classes.by_tolerance =
        std::ranges::any_of(layers.soils.list, positive, [](const Soil& soil) { return soil.tolerance; }) ||
        std::ranges::any_of(fields, positive, [](const FieldGiven& field) { return field.tolerance.value_or(0); });
    const auto put = [&](std::int64_t row, std::int64_t column, double tolerance) {
        const double value = loss(row, column);
        classes.grid(row, column) = class_of(!classes.by_tolerance ? value
                                             : tolerance > 0       ? value / tolerance
                                                                   : std::nan(""),
                                             classes.breaks());
    };
    for (std::int64_t row = 0; row < loss.rows(); ++row)
        for (std::int64_t column = 0; column < loss.columns(); ++column)
            put(row, column, soil_tolerance(layers, row, column));
    if (!classes.by_tolerance) return classes;
    for (const FieldGiven& field : fields) {
        if (!field.tolerance) continue;
        for (const raster::Share& run : raster::area_shares(field.polygon.parts, placement))
            for (std::int64_t i = 0; i < run.cells && run.share >= 0.5; ++i)
                put(run.row, run.column + i, *field.tolerance);
    }
    return classes;
}

std::string class_words(std::size_t number, bool by_tolerance) {
    const auto& breaks = by_tolerance ? breaks_in_T : breaks_in_loss;
    const char* unit = by_tolerance ? "times T" : "t/(ha yr)";
    if (number <= 1) return fmt::format("below {:g} {}", breaks.front(), unit);
    if (number > breaks.size()) return fmt::format("{:g} {} and more", breaks.back(), unit);
    return fmt::format("{:g} to {:g} {}", breaks[number - 2], breaks[number - 1], unit);
}

}  // namespace soilhold::watershed
