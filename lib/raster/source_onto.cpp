#include "raster/source_onto.h"

#include <fmt/format.h>

#include "raster/raster_error.h"

namespace soilhold::raster {

Source source_for(const std::string& path, const OpenRaster& open, const Placement& placement,
                  const OntoOptions& options) {
    Source source{path, &open, options.band, open.placement.crs, options.nodata};
    if (!options.crs.empty()) {
        source.crs = wkt_of(reference_of(options.crs).get());
        if (source.crs.empty())
            throw RasterError(
                path, "unknown-crs",
                fmt::format("{}: no such coordinate system is known. One looks like this: EPSG:32617.", options.crs));
    }
    if (source.crs.empty() != placement.crs.empty())
        throw RasterError(
            path, "no-crs",
            source.crs.empty()
                ? "it has no coordinate system, so that its place on the raster of heights is not known. "
                  "Save it with one."
                : "it has a coordinate system, and the raster of heights has none. Give that one its own: "
                  "--crs, or 'crs' of 'elevation' in a watershed file.");
    return source;
}

void say_what_is_missing(const std::string& path, std::int64_t none, std::int64_t cells, source::Remarks& remarks) {
    if (none == cells)
        throw RasterError(path, "not-here", "it has no value on the raster of heights. Is it of the same place?");
    if (none > 0)
        remarks.push_back({source::Weight::note, "no-value-cells",
                           fmt::format("{} of {} cells ({:.2g} %) get no value from it.", none, cells,
                                       100 * static_cast<double>(none) / static_cast<double>(cells)),
                           path});
}

}  // namespace soilhold::raster
