#include "watershed/rotation_covers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "raster/raster_error.h"

namespace soilhold::watershed {

namespace {

double mean_erosivity(const Factor& R) {
    if (!R.grid) return static_cast<double>(R.value);
    double sum = 0;
    std::int64_t count = 0;
    for (const float value : R.grid->values())
        if (!std::isnan(value)) sum += static_cast<double>(value), ++count;
    return count > 0 ? sum / static_cast<double>(count) : 0;
}

/// Numbers of the sources of doubt, in the order in which they are met.
std::vector<SharedDoubt> doubts_of(const rotation::RotationCover& cover, const std::string& name,
                                   std::map<std::string, std::size_t>& sources) {
    std::vector<SharedDoubt> doubts;
    for (const rotation::Doubt& doubt : cover.doubts) {
        const bool read = doubt.part.find("-read") != std::string::npos;
        const std::size_t source =
            sources.try_emplace(read ? doubt.part + " of " + name : doubt.part, sources.size()).first->second;
        const double C = cover.calendar.C;
        doubts.push_back({source, rotation::log_move(doubt, C, -spread::score_of_stated_range),
                          rotation::log_move(doubt, C, spread::score_of_stated_range)});
    }
    return doubts;
}

/// What a calendar remarks, once for all rotations that it is said of.
void say(const std::vector<RotationWorked>& worked, source::Remarks& remarks) {
    std::vector<std::pair<source::Remark, std::string>> said;
    for (const RotationWorked& one : worked)
        for (const source::Remark& remark : one.cover.C.remarks) {
            const auto known = std::ranges::find(said, remark, &std::pair<source::Remark, std::string>::first);
            if (known == said.end())
                said.emplace_back(remark, one.name);
            else
                known->second += ", " + one.name;
        }
    for (auto& [remark, names] : said) {
        if (remark.place.empty()) remark.place = "rotation " + names;
        remarks.push_back(std::move(remark));
    }
}

}  // namespace

std::vector<RotationWorked> work_rotations(const input::WatershedFile& file, const Factor& R,
                                           source::Remarks& remarks) {
    std::vector<RotationWorked> worked;
    if (file.rotations.empty()) return worked;
    std::map<std::string, std::size_t> sources;
    try {
        rotation::Weather weather = file.weather;
        weather.erosivity = mean_erosivity(R);
        const rotation::Climate climate = rotation::climate_of(weather);
        for (const input::NamedRotation& given : file.rotations) {
            RotationWorked one;
            one.name = given.name;
            one.words = given.grown.rotation.name;
            one.cover = rotation::cover_of_rotation(given.grown.rotation, climate, given.grown.reading);
            one.doubts = doubts_of(one.cover, one.name, sources);
            one.low_80 = spread::at_score(one.cover.C, -spread::score_of_80_percent);
            one.high_80 = spread::at_score(one.cover.C, spread::score_of_80_percent);
            worked.push_back(std::move(one));
        }
    } catch (const std::invalid_argument& error) {
        throw raster::RasterError(file.path, "rotation",
                                  fmt::format("its rotations can't be worked: {}.", error.what()));
    }
    say(worked, remarks);
    if (R.grid)
        remarks.push_back({source::Weight::note, "rotation-mean-erosivity",
                           fmt::format("The calendars of the rotations take one R, the mean of the raster, {:.4g} MJ "
                                       "mm/(ha h yr); it only wears roughness down there.",
                                       mean_erosivity(R)),
                           file.path});
    return worked;
}

}  // namespace soilhold::watershed
