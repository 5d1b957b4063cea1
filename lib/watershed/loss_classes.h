/// The classes of loss of a map's legend, cell by cell: by times T, or by the loss itself where no T is known at all.
///
/// Class 1 lies below the first break, class 5 at the last or above; a break belongs to the upper class. 0: no loss
/// there, or no T. T is the soil's, or the field's own on cells that lie at least half in it.
/// @source  breaks: our assumption; T, the planners' mark, parts the second class from the third
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>

#include "raster/placement.h"
#include "terrain/grid.h"
#include "watershed/fields.h"
#include "watershed/loss_map.h"

namespace soilhold::watershed {

inline constexpr std::array<double, 4> breaks_in_T{0.5, 1, 2, 4};       ///< times T
inline constexpr std::array<double, 4> breaks_in_loss{2.5, 5, 10, 20};  ///< t/(ha yr)

struct LossClasses {
    terrain::Grid<std::uint8_t> grid;  ///< 0 to 5
    bool by_tolerance = true;          ///< in times T, else in t/(ha yr)
    const std::array<double, 4>& breaks() const { return by_tolerance ? breaks_in_T : breaks_in_loss; }
};

/// 1 to 5; 0 for NaN.
std::uint8_t class_of(double value, const std::array<double, 4>& breaks);

/// @throws std::invalid_argument for grids of two shapes
LossClasses loss_classes(const terrain::Grid<float>& loss, const Layers& layers, const raster::Placement& placement,
                         std::span<const FieldGiven> fields);

/// "below 0.5 times T", "0.5 to 1 times T", "4 times T and more"; by loss "below 2.5 t/(ha yr)". @param number  1 to 5
std::string class_words(std::size_t number, bool by_tolerance);

}  // namespace soilhold::watershed
