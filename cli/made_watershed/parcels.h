/// The made land's parcels: a bent lattice whose neighbours share their edges point by point; most of the good ground
/// is fields with names, the rest woods and pasture. A few awkward ones are added on purpose.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "raster/shares.h"

namespace soilhold::made {

/// Crops of the rasters: their class numbers in classes.csv.
enum class Crop : std::uint8_t { none = 0, maize = 1, beans = 2, grain = 3, hay = 4, woods = 5, pasture = 6 };

struct Parcel {
    raster::Ring ring;  ///< closed, map coordinates, to the centimetre
    bool field = false;
    std::string name;
    std::string tillage;
    std::string rotation;     ///< a name of watershed.yaml where maize and beans take turns; else empty
    std::string soak;         ///< its file of soak tests; most have none
    double practice = 1;      ///< P
    double hectares = 0;      ///< what its ring holds; of a bow tie both its wings
    std::vector<Crop> crops;  ///< one a year
};

inline constexpr int years = 3;

/// A lattice of parcels over the whole raster.
std::vector<Parcel> parcels(std::uint64_t seed);

/// A sliver, a bow tie, one that lies over a field, one that lies half off the raster. All on ground of no field but
/// the one that says so.
std::vector<Parcel> awkward_parcels(const std::vector<Parcel>& parcels);

struct Soil {
    raster::Ring ring;
    std::string unit;
};

/// Soil polygons over the whole raster, by how high they lie over the stream.
std::vector<Soil> soils(std::uint64_t seed);

}  // namespace soilhold::made
