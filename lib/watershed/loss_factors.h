/// R, K, C and P of a map as they are given, each one figure or a raster, brought to the strips of the map.
///
/// A raster gets onto the grid as layers.h says: R between the four values around, K, C and P by the mean of what a
/// cell covers. What a raster holds must be able to be the factor: R 0 to 30 000, K 0 to 0.1317 (1 US), C 0 to 1.2, P 0
/// to 1, in SI; the limits are our own.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "raster/layer_strips.h"
#include "raster/placement.h"
#include "watershed/map_strips.h"

namespace soilhold::watershed {

/// One factor as it is given.
struct FactorGiven {
    std::string path;  ///< of a raster; empty: the figure holds everywhere
    double value = 1;  ///< SI
    double unit = 1;   ///< of a raster: SI value of a stored 1
};

/// In the order of the equation: R, K, C, P.
using FactorsGiven = std::array<FactorGiven, 4>;
inline constexpr std::array<const char*, 4> factor_symbols{"R", "K", "C", "P"};

/// @throws raster::RasterError (factor-range) where what was seen of a raster can't be the factor
void check_factor_range(const std::string& path, const char* symbol, double most, const raster::ValuesSeen& seen);

class FactorStrips {
  public:
    /// @param folder  for scratch files
    /// @throws RasterError where a raster can't be used
    FactorStrips(const FactorsGiven& given, const raster::Placement& placement, const std::string& folder);
    /// For finish_map(); reads from this.
    StripFactors strips();
    /// What the rasters lack here, once all has been read. @throws RasterError (not-here)
    source::Remarks lacks() const;

  private:
    FactorsGiven given_;
    std::array<std::optional<raster::LayerStrips>, 4> layers_;
};

}  // namespace soilhold::watershed
