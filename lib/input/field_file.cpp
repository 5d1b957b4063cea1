#include "input/field_file.h"

#include <fmt/format.h>

#include <filesystem>
#include <set>

#include "input/changes_section.h"
#include "input/cover_section.h"
#include "input/cover_tables_section.h"
#include "input/figure.h"
#include "input/file_text.h"
#include "input/placed_remarks.h"
#include "input/practice_section.h"
#include "input/rain_section.h"
#include "input/rotation_section.h"
#include "input/slope_section.h"
#include "input/soil_section.h"
#include "input/test_file.h"
#include "input/tests_section.h"
#include "input/weather_section.h"

namespace soilhold::input {

namespace {

constexpr std::size_t most_fields = 2000;

std::string short_name(const std::string& path) {
    return path == "-" ? "from standard input" : std::filesystem::path(path).filename().string();
}

const Node* part(const Node* mapping, std::string_view key) {
    const Entry* entry = entry_of(mapping, key);
    return entry != nullptr && !entry->value.blank() ? &entry->value : nullptr;
}

/// The sections of one field. Soil, slope and tests take from `place` key by key; rain, weather, cover and practice as
/// a whole, since their keys are ways to say the same thing.
void read_sections(const Section& top, const Node& mapping, const Node* place, FilesBeside& files, loss::Field& field) {
    const Reader& reader = top.reader();
    const auto whole = [&](std::string_view key) {
        const Node* own = top.find(key);
        return own != nullptr || entry_of(&mapping, key) != nullptr ? own : part(place, key);
    };
    const auto lacking = [&](std::string_view key, std::string_view what) {
        if (entry_of(&mapping, key) == nullptr)
            reader.mistake(mapping.at, "missing",
                           fmt::format("{} has no '{}': {}", field.name.empty() ? "This field" : "'" + field.name + "'",
                                       key, what));
    };
    FieldNodes nodes{whole("rain"),        top.find("soil"), part(place, "soil"), top.find("slope"),
                     part(place, "slope"), whole("cover"),   whole("practice")};
    if (const Node* rain = nodes.rain)
        read_rain(Section(reader, "rain", rain), files, field);
    else
        lacking("rain", "R, or the rain it is worked out from");

    if (nodes.soil != nullptr || nodes.shared_soil != nullptr)
        read_soil(Section(reader, "soil", nodes.soil, nodes.shared_soil), field);
    else
        lacking("soil", "K from the soil survey, or the texture it is worked out from");

    if (nodes.slope != nullptr || nodes.shared_slope != nullptr)
        read_slope(Section(reader, "slope", nodes.slope, nodes.shared_slope), field);
    else
        lacking("slope", "its length and steepness");

    std::optional<structure::Credited> credited;
    const Node* weather = whole("weather");
    if (weather != nullptr) read_weather(Section(reader, "weather", weather), field);
    if (const Node* cover = nodes.cover) {
        const Section section(reader, "cover", cover);
        if (auto read = read_cover(section, &credited)) field.cover = std::move(*read);
        read_rotation_of_cover(section, field);
    } else {
        lacking("cover", "C, or the parts it is worked out from");
    }
    field.credited = credited.value_or(structure::Credited::tilled);

    if (const Node* practice = nodes.practice) {
        if (auto read = read_practice(reader, *practice)) field.practice = std::move(*read);
    }

    const Node* tests = top.find("tests");
    if (const Node* shared = part(place, "tests"); tests != nullptr && tests->is_scalar())
        read_test_file(reader, *tests, files.path, field);
    else if (tests != nullptr)
        read_tests(Section(reader, "tests", tests, shared), field.texture_class, field);
    if (!field.tests.empty() && !credited && field.cover.holds_prior_land_use())
        reader.note(mapping.at, "credits-unsaid",
                    "'credits' is not given under 'cover', so C is taken as that of tilled ground. Say 'no-till' or "
                    "'reduced' if C credits it, or the soak test counts the same thing again");
    if (const Node* changes = top.find("changes")) read_changes(reader, *changes, field);
    const Entry* rotation = entry_of(nodes.cover, "rotation");
    judge_weather(reader, weather, rotation != nullptr ? rotation->at : Position{}, field);
    judge_rows(reader, nodes, field);
    if (nodes.cover != nullptr)
        judge_cover(reader, *nodes.cover, field.cover, field, field.slope.length_m, field.practice);
    if (reader.document.mistakes().empty()) place_factor_remarks(reader, nodes, field);
}

loss::Field read_field(Document& document, std::string_view section, const Node& mapping, const Node* place,
                       FilesBeside& files) {
    loss::Field field;
    const Reader reader{document, "field file " + short_name(files.path), field.remarks};
    const Section top(reader, section, &mapping);
    if (!mapping.is_mapping()) return field;
    field.name = top.text("field").value_or("");
    if (field.name.empty() && entry_of(&mapping, "field") == nullptr)
        reader.mistake(mapping.at, "missing", "This field has no name: begin it with 'field: ...'");
    if (const auto area = figure(top, "area", units::Kind::area)) {
        if (area->stated.value > 0 && area->stated.value < 100000)
            field.area_ha = area->stated;
        else
            reader.mistake(area->at, "range", "The area of a field lies above 0 and below 100000 ha");
    }
    if (const Node* delivery = top.find("delivery")) {
        const Section downstream(reader, "delivery", delivery);
        if (const auto area = figure(downstream, "drainage area", units::Kind::area)) {
            field.drainage_area_km2 = spread::Stated{area->stated.value / 100, {}, area->stated.origin};
            if (!(area->stated.value > 1) || area->stated.value > 1e7)
                reader.mistake(area->at, "range",
                               "The area drained by a point downstream lies above 1 ha and up to 100000 km2");
        }
    }
    field.use_tests = top.yes_no("structure factor").value_or(true);
    read_sections(top, mapping, place, files, field);
    return field;
}

std::vector<loss::Field> read_list(Document& document, const Node& list, const Node* place, FilesBeside& files) {
    std::vector<loss::Field> fields;
    if (!list.is_list() || list.items.empty() || list.items.size() > most_fields) {
        document.mistake(list.at, "not-a-list",
                         fmt::format("'fields' is a list, each item beginning with '- field:', 1 to {}", most_fields));
        return fields;
    }
    std::set<std::string> names;
    for (const Node& item : list.items) {
        fields.push_back(read_field(document, "field", item, place, files));
        const std::string& name = fields.back().name;
        if (!name.empty() && !names.insert(name).second)
            document.mistake(item.at, "same-name",
                             fmt::format("A field called '{}' stands in this file already; its tons would count twice. "
                                         "Remove it or give it a name of its own",
                                         readable(name, 80)));
    }
    return fields;
}

}  // namespace

std::vector<loss::Field> read_fields(std::string_view yaml, const std::string& path) {
    Document document(yaml, name_of_file(path));
    const Node& root = document.root();
    if (!root.is_mapping()) {
        document.mistake(root.at, "not-a-field-file",
                         "This is no field file: it begins with 'field: ...', or with 'fields:' and a list");
        throw InputError(document.mistakes());
    }
    source::Remarks remarks;
    const Reader reader{document, "field file " + short_name(path), remarks};
    const Node* place = part(&root, "place");
    FilesBeside files{path};
    std::vector<loss::Field> fields;
    const Entry* list = entry_of(&root, "fields");
    const bool many = list != nullptr;
    const Section top(reader, many ? "farm" : "one field", &root);
    // Checks the keys of the place itself; its sections are read with each field.
    if (const Node* shared = top.find("place")) Section(reader, "place", shared);
    if (many)
        fields = read_list(document, list->value, place, files);
    else
        fields.push_back(read_field(document, "one field", root, place, files));
    for (loss::Field& field : fields) {
        field.farm = top.text("farm").value_or("");
        field.prepared_by = top.text("prepared by").value_or("");
        field.local_office = top.text("local office").value_or("");
    }
    if (!document.mistakes().empty()) throw InputError(document.mistakes());
    return fields;
}

std::vector<loss::Field> read_field_file(const std::string& path) { return read_fields(text_of_file(path), path); }

}  // namespace soilhold::input
