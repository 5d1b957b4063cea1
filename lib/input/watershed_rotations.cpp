#include "input/watershed_rotations.h"

#include <fmt/format.h>

#include <algorithm>

#include "input/known_keys.h"
#include "input/rotation_section.h"
#include "input/weather_section.h"

namespace soilhold::input {

namespace {

constexpr std::size_t most_rotations = 200;
constexpr double any_erosivity = 3000;  // stands for the R of a raster while the weather alone is judged

void read_list(const Reader& reader, const Node& list, WatershedFile& file) {
    if (!list.is_list() || list.items.empty() || list.items.size() > most_rotations) {
        reader.mistake(
            list.at, "not-a-list",
            fmt::format("'rotations' is a list of 1 to {}, each '- {{name: ..., rotation: ...}}'", most_rotations));
        return;
    }
    for (const Node& item : list.items) {
        const Section section(reader, "rotation of a watershed", &item);
        if (!item.is_mapping()) continue;
        NamedRotation one;
        one.name = section.text("name").value_or("");
        for (const std::string_view key : {"name", "rotation"})
            if (!section.has(key))
                reader.mistake(item.at, "missing",
                               "A rotation of the list has its 'name', which fields and practices say, and its "
                               "'rotation': {name: ridge fields, rotation: 'corn-soybean, fall chisel'}");
        for (const NamedRotation& other : file.rotations)
            if (!one.name.empty() && other.name == one.name)
                reader.mistake(item.at, "same-name",
                               fmt::format("A rotation '{}' stands in the list already", readable(one.name, 80)));
        loss::Field read;
        read_rotation_of_cover(section, read);
        if (read.rotation) one.grown = *std::move(read.rotation);
        file.rotations.push_back(std::move(one));
    }
}

/// Practices on offer that are a change of rotation.
void find_offered(const Section& top, WatershedFile& file) {
    const Reader& reader = top.reader();
    std::vector<std::string_view> names;
    for (const NamedRotation& one : file.rotations) names.push_back(one.name);
    for (const Offered& offered : file.offered) {
        if (offered.rotation.empty() || std::ranges::find(names, offered.rotation) != names.end()) continue;
        const std::string nearest = nearest_word(names, offered.rotation);
        reader.mistake(offered.rotation_at, "no-such-rotation",
                       fmt::format("No rotation '{}' is in the list 'rotations'; it has: {}{}",
                                   readable(offered.rotation, 80), names.empty() ? "none" : joined(names),
                                   nearest.empty() ? "" : fmt::format(". Did you mean '{}'?", nearest)));
    }
}

}  // namespace

void read_watershed_rotations(const Section& top, WatershedFile& file) {
    const Reader& reader = top.reader();
    const Node* list = top.find("rotations");
    if (list != nullptr) read_list(reader, *list, file);
    find_offered(top, file);
    if (!file.fields.rotation.empty() && !top.has("rotations"))
        reader.mistake(top.at(), "missing",
                       "'rotation' of 'fields' names a column of rotations, and there is no list 'rotations'");
    const Node* weather = top.find("weather");
    loss::Field place;
    if (weather != nullptr) read_weather(Section(reader, "weather", weather), place);
    if (file.rotations.empty()) return;
    place.rotation = file.rotations.front().grown;
    const double R = file.rain.erosivity ? file.rain.erosivity->value : any_erosivity;
    place.rain.erosivity = spread::Stated{R > 0 ? R : any_erosivity, {}, {}};
    judge_weather(reader, weather, list->at, place);
    file.weather = place.weather;
}

}  // namespace soilhold::input
