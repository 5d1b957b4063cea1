#include "watershed_map_file.h"

#include <fmt/format.h>

#include <stdexcept>

#include "pages.h"
#include "report/map_of_watershed.h"
#include "report/output.h"
#include "report/paint_cairo.h"
#include "report/paint_svg.h"
#include "watershed/watershed_work.h"

namespace soilhold::cli {

std::string map_bytes(const std::string& path, const input::WatershedFile& file,
                      const watershed::WatershedResult& result, units::System system) {
    Options options;
    options.units = system;
    const raster::Elevation ground =
        raster::read_elevation(file.elevation.map.path, watershed::elevation_options(file));
    try {
        const report::Scene scene = report::watershed_map_scene(report::map_of(result, ground.height_m),
                                                                page_settings(options), report::measure_open_sans());
        if (path.ends_with(".svg")) return report::paint_svg(scene);
        if (path.ends_with(".png")) return report::painted_png(scene, 2.0);
        return report::painted_pdf(scene);
    } catch (const std::runtime_error& error) {
        throw report::OutputError(fmt::format("the map can't be drawn: {}", error.what()));
    } catch (const std::logic_error& error) {
        throw report::OutputError(fmt::format("the map can't be drawn: {}", error.what()));
    }
}

}  // namespace soilhold::cli
