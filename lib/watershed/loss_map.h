/// The factors of the equation over a grid, and the loss of each cell: A = R K LS C P, t/(ha yr), times m of a field
/// whose soil was tested.
///
/// A factor is one figure, a grid, or a grid of classes that stand for figures (a soil's K). A cell that lacks any
/// factor has no loss (NaN); how many lack which is counted.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "input/class_table.h"
#include "source/citation.h"
#include "source/remark.h"
#include "terrain/grid.h"

namespace soilhold::watershed {

/// A factor that a cell looks up: its own grid, or one figure everywhere, or nothing anywhere.
struct Factor {
    std::string symbol;                        ///< "R", "C", "P"
    std::optional<terrain::Grid<float>> grid;  ///< NaN for none
    float value = terrain::no_value;           ///< where there is no grid
    source::Origin origin;
    float at(std::int64_t row, std::int64_t column) const { return grid ? (*grid)(row, column) : value; }
};

/// A soil of the map, or the one soil of the whole watershed.
struct Soil {
    std::string key;
    float K = terrain::no_value;          ///< t ha h/(ha MJ mm)
    float tolerance = terrain::no_value;  ///< T, t/(ha yr)
    input::SoilWords words{};             ///< for soil tests
};

struct Soils {
    std::vector<Soil> list;
    std::optional<terrain::Grid<std::int32_t>> grid;  ///< places in the list, -1 for none; without it the first holds
    source::Origin origin;
    std::int32_t at(std::int64_t row, std::int64_t column) const {
        return grid ? (*grid)(row, column) : list.empty() ? -1 : 0;
    }
};

struct Layers {
    terrain::Grid<float> LS;
    Factor R, C, P;
    Soils soils;
    source::Remarks remarks;  ///< what was done to bring them here, and what they lack
};

/// What a cell can lack, in the order of the equation.
inline constexpr std::array<const char*, 5> factor_names{"rain", "soil", "slope", "cover", "practice"};

/// The factors of one cell; NaN for what it lacks.
struct CellFactors {
    float R = 0, K = 0, LS = 0, C = 0, P = 0;
    float m = 1;  ///< of the field's soil tests
    float loss() const { return R * K * LS * C * P * m; }
    std::array<float, 5> all() const { return {R, K, LS, C, P}; }
};

/// @param C, P  of the field that the cell belongs to, instead of the layer's
/// @param m     of that field
CellFactors cell_factors(const Layers& layers, std::int64_t row, std::int64_t column, std::optional<double> C = {},
                         std::optional<double> P = {}, double m = 1);

struct LossMap {
    terrain::Grid<float> loss;
    std::array<std::int64_t, 5> missing{};  ///< cells without LS, and those with it that lack another (factor_names)
};

/// Loss with the factors of the layers alone. @throws std::invalid_argument for grids of other shapes
LossMap loss_map(const Layers& layers);

}  // namespace soilhold::watershed
