/// Hillshade: how bright each cell lies in a light from the north-west, so that a map shows the lie of the land.
///
/// light = max(0, s . n): s the unit vector towards the light, n the normal of the ground with its heights z times
/// larger, n = (-z p, z q, 1) / sqrt(1 + z^2 (p^2 + q^2)) in (east, north, up), p and q the rise towards east and
/// south (horn_slope.h). Level ground has the sine of the light's height, 0.71 at 45 degrees.
///
/// The light stands in the north-west because readers take a lit north-west side for a slope and not for a hole.
/// NaN where a cell has no height. The same bits for any tile side and number of threads.
/// @source  Horn, B. K. P. (1981): Hill shading and the reflectance map. Proceedings of the IEEE 69(1):14-47; the
///          perfectly diffuse reflector. From memory.
#pragma once

#include <cstdint>

#include "terrain/grid.h"

namespace soilhold::terrain {

struct LightFrom {
    double azimuth_deg = 315;  ///< clockwise from north
    double height_deg = 45;    ///< above the horizon, 0 to 90
    double exaggeration = 1;   ///< z, > 0: heights times this; gentle land needs 3 to 5
};

/// Brightness 0..1. @throws std::invalid_argument for a light below the horizon or an exaggeration of 0 or less
Grid<float> hillshade(const Grid<float>& ground, const LightFrom& light = {});

/// The mean of blocks of `side` x `side` cells, NaN left out: a map on paper needs no more cells than dots. Blocks at
/// the east and south edges may be smaller. @throws std::invalid_argument for a side below 1
Grid<float> thinned(const Grid<float>& values, std::int64_t side);

}  // namespace soilhold::terrain
