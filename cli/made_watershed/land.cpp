#include "land.h"

#include <algorithm>
#include <cmath>

#include "noise.h"

namespace soilhold::made {

raster::Placement placement() {
    return {.west = 500000,
            .north = 4412500,
            .cell_width = 10,
            .cell_height = 10,
            .columns = 1600,
            .rows = 1250,
            .crs = "EPSG:32617"};
}

double stream_north(std::uint64_t seed, double east) {
    return 6250 + 900 * noise(seed + 1, east / 4200, 0.5) + 260 * noise(seed + 2, east / 1100, 0.5);
}

double height(std::uint64_t seed, double east, double north) {
    const double off = north - stream_north(seed, east), away = std::abs(off);
    // The floor is level for 150 m, then the sides rise, steepest a third of the way up.
    const double up = std::clamp((away - 150) / 5200, 0.0, 1.0);
    const double side = 85 * up * (2 - up);
    // Side valleys run down to the stream: ridges across the map, bent, fading out on the valley's floor.
    const double across = noise(seed + 3, east / 1500 + 0.3 * noise(seed + 4, north / 1700, 1.5), off > 0 ? 0.5 : 7.5);
    const double ridges = 22 * across * std::min(1.0, 3 * up);
    const double hills = 7 * noise(seed + 5, east / 700, north / 700) * std::min(1.0, 6 * up);
    const double knolls = 2 * noise(seed + 6, east / 210, north / 210) * std::min(1.0, 10 * up);
    const double rough = 0.3 * noise(seed + 7, east / 60, north / 60) + 0.05 * noise(seed + 8, east / 18, north / 18);
    const double bed = away < 12 ? -1.5 : 0.0;
    return 240 - east * 0.0035 + side + ridges + hills + knolls + rough + bed;
}

terrain::Grid<float> heights(std::uint64_t seed) {
    const raster::Placement place = placement();
    terrain::Grid<float> grid(raster::shape_of(place), terrain::Unset{});
    for (std::int64_t r = 0; r < grid.rows(); ++r)
        for (std::int64_t c = 0; c < grid.columns(); ++c) {
            const double east = (static_cast<double>(c) + 0.5) * place.cell_width;
            const double north = (static_cast<double>(place.rows - r) - 0.5) * place.cell_height;
            grid(r, c) = static_cast<float>(std::round(100 * height(seed, east, north)) / 100);
        }
    return grid;
}

}  // namespace soilhold::made
