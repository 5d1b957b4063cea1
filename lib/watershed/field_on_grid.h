/// One field on a grid of loss: its mean, its tons, how much of it lies above T, its worst tenth and where that is.
///
/// Exact by area: a cell that a field covers in part counts by that part (raster/shares.h). Cells without a value are
/// left out of means and counted as a gap, never as no loss.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "raster/placement.h"
#include "raster/shares.h"
#include "terrain/grid.h"

namespace soilhold::watershed {

struct FieldOnGrid {
    double area_ha = 0;            ///< on the grid
    double valued_ha = 0;          ///< with a loss
    double gap_share = 1;          ///< of the area without a value, 0..1
    double mean = 0;               ///< t/(ha yr), of the valued area
    double total_t = 0;            ///< t/yr: the mean on the whole area, so that a gap counts as the rest
    double share_above_T = 0;      ///< of the valued area
    double share_above_2T = 0;     ///< likewise
    double worst_tenth_mean = 0;   ///< t/(ha yr) of the tenth of the valued area that loses most
    double worst_tenth_share = 0;  ///< of the field's tons that comes from it
    raster::Point worst_tenth{};   ///< its middle, in cell coordinates
};

/// @param loss       t/(ha yr), NaN for none
/// @param shares     of the field's cells
/// @param tolerance  T, t/(ha yr); none leaves the shares above it 0
FieldOnGrid field_on_grid(const terrain::Grid<float>& loss, std::span<const raster::Share> shares,
                          std::optional<double> tolerance);

/// Mean of any grid over a field by area; none where no cell has a value.
std::optional<double> mean_over(const terrain::Grid<float>& values, std::span<const raster::Share> shares);

/// In which ninth of the box around a field a point lies, both in map coordinates: "north-west", "middle", "east".
std::string ninth_of(raster::Point point, const std::vector<raster::Part>& parts);

}  // namespace soilhold::watershed
