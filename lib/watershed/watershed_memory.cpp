#include "watershed/watershed_memory.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "raster/raster_error.h"
#include "watershed/disk_plan.h"

namespace soilhold::watershed {

namespace {

constexpr double beside = 200e6;

/// Two figures, upward: 2.34 becomes 2.4.
double rounded_up(double width) {
    const double step = std::pow(10, std::floor(std::log10(width)) - 1);
    return std::ceil(width / step - 1e-9) * step;
}

}  // namespace

double bytes_a_cell(const input::WatershedFile& file) {
    // Heights 4, ways 1, drained ground 8, the way to a channel 4, LS 4 and once more while it is handed over. Before,
    // while ground is summed by fields, less.
    double most = 25;
    double held = 8;  // LS and the way to a channel
    const auto map = [&](double kept, double reading) {
        most = std::max(most, held + reading);
        held += kept;
    };
    if (file.rain.raster) map(4, 8);
    // Classes are brought here as reals of 64 bits, in GDAL's memory and in ours.
    if (file.soils.map) map(4, file.soils.key.empty() ? 20 : 8);
    if (!file.cover.rasters.empty()) {
        const double sums = file.cover.rasters.size() > 1 || !file.cover.classes.empty() ? 5 : 0;
        map(4, sums + (file.cover.classes.empty() ? 8 : 20));
    }
    if (file.practice.raster) map(4, 8);
    return std::max(most, held + 5);  // loss and its classes
}

std::int64_t memory_needed(const input::WatershedFile& file, std::int64_t cells) {
    return static_cast<std::int64_t>(beside + bytes_a_cell(file) * static_cast<double>(cells));
}

void check_memory(const input::WatershedFile& file, std::int64_t cells, double cell_m, std::int64_t allowed) {
    const auto need = static_cast<double>(memory_needed(file, cells)), room = static_cast<double>(allowed);
    if (need <= room) return;
    const std::string wider = room > beside
                                  ? fmt::format("Give wider cells, 'cell: {:g} m' under 'elevation', or",
                                                rounded_up(cell_m * std::sqrt((need - beside) / (room - beside))))
                                  : std::string("Give");
    throw raster::RasterError(
        file.elevation.map.path, "too-little-memory",
        fmt::format(
            "its {:.3g} million cells of {:.3g} m take about {} of memory with the maps of this file, and {} is "
            "allowed. {} --memory \"{}\" where the machine has so much.",
            static_cast<double>(cells) / 1e6, cell_m, bytes_in_words(memory_needed(file, cells)),
            bytes_in_words(allowed), wider, bytes_in_words(memory_needed(file, cells))));
}

}  // namespace soilhold::watershed
