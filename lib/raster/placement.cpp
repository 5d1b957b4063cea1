#include "raster/placement.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "raster/gdal_session.h"
#include "raster/raster_error.h"

namespace soilhold::raster {

bool is_geographic(const Placement& placement) {
    const Reference reference = reference_of(placement.crs);
    return reference && OSRIsGeographic(reference.get()) != 0;
}

double metres_per_unit(const Placement& placement) {
    const Reference reference = reference_of(placement.crs);
    if (!reference) return placement.unit_m;
    if (OSRIsGeographic(reference.get()) != 0) return 0;
    return OSRGetLinearUnits(reference.get(), nullptr);
}

std::string unit_name(const Placement& placement) {
    const Reference reference = reference_of(placement.crs);
    if (!reference) return "";
    char* name = nullptr;
    if (OSRIsGeographic(reference.get()) != 0)
        OSRGetAngularUnits(reference.get(), &name);
    else
        OSRGetLinearUnits(reference.get(), &name);
    return text_or_empty(name);
}

std::string crs_name(const Placement& placement) {
    const Reference reference = reference_of(placement.crs);
    if (!reference) return "no coordinate system";
    const std::string name = text_or_empty(OSRGetName(reference.get()));
    return name.empty() ? "an unnamed coordinate system" : name;
}

bool same_crs(const Placement& one, const Placement& other) {
    if (one.crs == other.crs) return true;
    const Reference a = reference_of(one.crs), b = reference_of(other.crs);
    return a && b && OSRIsSame(a.get(), b.get()) != 0;
}

terrain::Shape shape_of(const Placement& placement) {
    const double unit = metres_per_unit(placement);
    const double side = std::sqrt(placement.cell_width * placement.cell_height);
    return {placement.columns, placement.rows, side * (unit > 0 ? unit : 1)};
}

Point longitude_latitude(const Placement& placement, Point map, const std::string& file) {
    const Reference from = reference_of(placement.crs), to = reference_of("EPSG:4326");
    if (!from || !to) throw RasterError(file, "no-crs", "it is not known where on earth it lies.");
    const Listening listening;
    const Transform transform(OCTNewCoordinateTransformation(from.get(), to.get()));
    if (!transform || OCTTransform(transform.get(), 1, &map.x, &map.y, nullptr) == 0 || !std::isfinite(map.x) ||
        !std::isfinite(map.y))
        throw RasterError(file, "no-way-there",
                          fmt::format("its corner or centre has no place on earth in '{}' ({}). Is that its "
                                      "coordinate system?",
                                      crs_name(placement), listening.words()));
    return map;
}

std::string utm_zone(Point place) {
    if (place.y > 84) return "EPSG:32661";
    if (place.y < -80) return "EPSG:32761";
    const double turns = std::floor((place.x + 180) / 360);
    const int zone = 1 + static_cast<int>(std::floor((place.x + 180 - 360 * turns) / 6)) % 60;
    return fmt::format("EPSG:{}", (place.y < 0 ? 32700 : 32600) + zone);
}

Point stretch(const Placement& placement, Point map, const std::string& file) {
    const double unit = metres_per_unit(placement), step = 1000 / unit;
    const double radian = std::numbers::pi / 180;
    const auto length_of = [&](double dx, double dy) {
        const Point a = longitude_latitude(placement, {map.x - dx, map.y - dy}, file);
        const Point b = longitude_latitude(placement, {map.x + dx, map.y + dy}, file);
        const double flattening = 1 / 298.257223563, e2 = flattening * (2 - flattening);
        const double latitude = (a.y + b.y) / 2 * radian, sine = std::sin(latitude);
        const double w = std::sqrt(1 - e2 * sine * sine);
        const double meridian = 6378137 * (1 - e2) / (w * w * w), across = 6378137 / w;
        const double turn = std::remainder(b.x - a.x, 360.0);
        return std::hypot(meridian * (b.y - a.y) * radian, across * std::cos(latitude) * turn * radian);
    };
    return {2000 / length_of(step, 0), 2000 / length_of(0, step)};
}

}  // namespace soilhold::raster
