#include "input/rotation_section.h"

#include <fmt/format.h>

#include "input/figure.h"
#include "input/rotation_dates.h"
#include "input/rotation_entries.h"
#include "input/rotation_usual.h"
#include "input/rotation_words.h"
#include "rotation/operations.h"

namespace soilhold::input {

namespace {

constexpr std::size_t most_entries = 200;

/// Where each entry stands, for problems that show only in the whole.
struct Places {
    Position whole;
    std::vector<Position> crops, operations, removed, added, grazing;

    Position of(const rotation::Problem& problem) const {
        const std::vector<Position>* list = nullptr;
        switch (problem.part) {
            case rotation::Part::rotation:
                break;
            case rotation::Part::crop:
                list = &crops;
                break;
            case rotation::Part::operation:
                list = &operations;
                break;
            case rotation::Part::removed:
                list = &removed;
                break;
            case rotation::Part::added:
                list = &added;
                break;
            case rotation::Part::grazing:
                list = &grazing;
                break;
        }
        return list != nullptr && problem.index < list->size() ? (*list)[problem.index] : whole;
    }
};

/// Each item of a list by `read`; false when one of them can't be used.
template <class Read>
bool read_list(const Section& rotation, std::string_view key, std::string_view name, const Read& read) {
    const Node* node = rotation.find(key);
    if (node == nullptr) return true;
    if (!node->is_list() || node->items.empty() || node->items.size() > most_entries) {
        rotation.reader().mistake(
            node->at, "not-a-list",
            fmt::format("'{}' is a list, each item like {{...}} with keys of its own, 1 to {}", key, most_entries));
        return false;
    }
    bool all = true;
    for (const Node& item : node->items) {
        const Section entry(rotation.reader(), name, &item);
        all = item.is_mapping() && read(entry) && all;
    }
    return all;
}

template <class T, class Read>
bool fill(const Section& rotation, std::string_view key, std::string_view name, const RotationTold& told, Read read,
          std::vector<T>& list, std::vector<Position>& places) {
    if (rotation.has(key)) list.clear();
    return read_list(rotation, key, name, [&](const Section& entry) {
        auto one = read(entry, told);
        if (!one) return false;
        list.push_back(*std::move(one));
        places.push_back(entry.at());
        return true;
    });
}

/// Crops of a list laid over those of the usual rotation: the first corn told is the first corn there.
bool fill_crops(const Section& section, const RotationTold& told, rotation::Rotation& rotation, Places& places) {
    const std::vector<rotation::CropGrown> usual = rotation.crops;
    places.crops.assign(usual.size(), section.at());
    std::vector<bool> taken(usual.size(), false);
    return read_list(section, "crops", "crop", [&](const Section& entry) {
        auto grown = read_crop(entry, told);
        if (!grown) return false;
        std::size_t at = 0;
        while (at < usual.size() && (taken[at] || usual[at].crop != grown->crop)) ++at;
        if (at == usual.size()) {
            rotation.crops.push_back(*std::move(grown));
            places.crops.push_back(entry.at());
        } else {
            taken[at] = true;
            say_of_usual(rotation, at, *grown);
            places.crops[at] = entry.at();
        }
        return true;
    });
}

std::optional<int> years_of(const Section& section) {
    const auto text = section.text("years");
    if (!text) return std::nullopt;
    std::string number = lower_case(*text);
    for (const std::string_view unit : {" years", " year"})
        if (number.ends_with(unit)) number.erase(number.size() - unit.size());
    if (number.size() <= 2 && !number.empty() && number.find_first_not_of("0123456789") == std::string::npos)
        if (const int years = std::stoi(number); years >= 1 && years <= 20) return years;
    section.reader().mistake(section.find("years")->at, "rotation-years",
                             fmt::format("A rotation has 1 to 20 whole years, not '{}'", readable(*text, 40)));
    return std::nullopt;
}

/// Tools that work the whole ground through a crop that has stood for weeks: a wrong day, most often.
void judge_tillage(const Reader& reader, const rotation::Rotation& rotation, const Places& places) {
    const int length = 365 * rotation.years;
    const auto since = [&](const rotation::Day& from, const rotation::Day& to) {
        return ((365 * (to.year - from.year) + to.day - from.day) % length + length) % length;
    };
    for (std::size_t i = 0; i < rotation.operations.size(); ++i) {
        const rotation::OperationDone& done = rotation.operations[i];
        const rotation::Operation& tool = rotation::operation_of(done.operation);
        if (tool.kind != "tillage" || tool.disturbed < 0.9 || tool.left_nonfragile > 0.9) continue;
        for (const rotation::CropGrown& crop : rotation.crops) {
            if (!crop.planted || !crop.ended || crop.cover_crop) continue;
            const int stands = since(*crop.planted, done.on);
            if (stands <= 21 || stands >= since(*crop.planted, *crop.ended)) continue;
            reader.caution(i < places.operations.size() ? places.operations[i] : places.whole, "tillage-in-crop",
                           fmt::format("{} on {} goes through {} that stands from {} to {}. Look at the days",
                                       as_sentence(done.operation), words_of(done.on), crop.crop,
                                       words_of(*crop.planted), words_of(*crop.ended)));
            break;
        }
    }
}

/// b of residue cover; false when it can't be used.
bool read_effectiveness(const Section& section, rotation::Rotation& rotation) {
    const auto b = bare_figure(section, "residue effectiveness");
    if (!b) return !section.has("residue effectiveness");
    rotation.residue_effectiveness_b = b->stated.value;
    if (b->stated.value >= 0.005 && b->stated.value <= 0.15) return true;
    section.reader().mistake(b->at, "residue-effectiveness",
                             fmt::format("'residue effectiveness' is {:g}, and lies from 0.005 to 0.15 per % of cover; "
                                         "0.035 is usual",
                                         b->stated.value));
    return false;
}

/// Whether the calendar can work with it; problems stand at their entries.
bool sound(const Reader& reader, const rotation::Rotation& rotation, const Places& places) {
    const std::vector<rotation::Problem> problems = rotation::problems_of(rotation);
    for (const rotation::Problem& problem : problems)
        reader.mistake(places.of(problem), problem.code, as_sentence(problem.text));
    return problems.empty();
}

std::optional<rotation::Rotation> read_at_length(const Reader& reader, const Node& node, const source::Origin& outer) {
    const Section section(reader, "rotation", &node);
    rotation::Rotation rotation;
    bool whole = true;
    RotationTold told{1, outer};
    if (section.has("from")) told.origin = section.origin(node, "from");
    rotation.origin = told.origin;
    const auto years = years_of(section);
    whole = years.has_value() || !section.has("years");
    rotation.years = years.value_or(1);
    const Node* usual = section.find("usual");
    if (usual != nullptr) {
        auto read = read_rotation_words(reader, *usual, told.origin);
        if (!read) return std::nullopt;
        rotation = *std::move(read);
        if (years && *years != rotation.years)
            reader.mistake(section.find("years")->at, "rotation-years",
                           fmt::format("'{}' has {} year{}, so 'years' can be left out", rotation.name, rotation.years,
                                       rotation.years == 1 ? "" : "s"));
    }
    if (!whole) return std::nullopt;
    told.years = rotation.years;
    Places places;
    places.whole = node.at;
    whole = fill_crops(section, told, rotation, places) && whole;
    whole =
        fill(section, "operations", "operation", told, read_operation, rotation.operations, places.operations) && whole;
    whole = fill(section, "residue removed", "residue removed", told, read_removed, rotation.removed, places.removed) &&
            whole;
    whole = fill(section, "residue added", "residue added", told, read_added, rotation.added, places.added) && whole;
    whole = fill(section, "grazing", "grazing", told, read_grazing, rotation.grazing, places.grazing) && whole;
    whole = read_effectiveness(section, rotation) && whole;
    if (!whole || !sound(reader, rotation, places)) return std::nullopt;
    if (rotation.name.empty())
        for (const rotation::CropGrown& crop : rotation.crops)
            rotation.name += (rotation.name.empty() ? "" : ", ") + crop.crop;
    judge_tillage(reader, rotation, places);
    return rotation;
}

std::optional<rotation::TransectReading> read_reading(const Section& cover, const Node& node, int years) {
    const Section section(cover.reader(), "residue reading", &node);
    for (const std::string_view key : {"day", "cover"})
        if (node.is_mapping() && !section.has(key))
            cover.reader().mistake(node.at, "missing",
                                   "A reading of residue has its day and the cover that was read: {day: year 1 May 20, "
                                   "cover: 32 %}");
    const auto on = day_of(section, "day", years);
    const auto read = percent(section, "cover");
    if (!on || !read) return std::nullopt;
    return rotation::TransectReading{
        *on, *read, section.has("from") ? section.origin(node, "cover") : cover.origin(node, "residue reading")};
}

}  // namespace

std::optional<rotation::Rotation> read_rotation(const Reader& reader, const Node& node, const source::Origin& outer) {
    if (node.is_mapping()) return read_at_length(reader, node, outer);
    if (!node.is_list()) return read_rotation_words(reader, node, outer);
    reader.mistake(node.at, "rotation-words",
                   "A rotation is a few words, like 'corn-soybean, fall chisel', or a section with 'crops' and "
                   "'operations'");
    return std::nullopt;
}

void read_rotation_of_cover(const Section& cover, loss::Field& field) {
    const Node* reading = cover.find("residue reading");
    if (reading != nullptr && !cover.has("rotation"))
        cover.reader().mistake(reading->at, "missing",
                               "A 'residue reading' sets the calendar of a 'rotation', and none is given");
    const Node* node = cover.find("rotation");
    if (node == nullptr) return;
    if (const Node* credits = cover.find("credits"))
        cover.reader().mistake(credits->at, "double-count",
                               "The calendar of a rotation counts its tillage and its rest itself; take 'credits' out");
    auto read = read_rotation(cover.reader(), *node, cover.origin(*node, "rotation"));
    if (!read) return;
    field.rotation = loss::RotationGiven{*std::move(read), {}};
    if (reading != nullptr) field.rotation->reading = read_reading(cover, *reading, field.rotation->rotation.years);
}

}  // namespace soilhold::input
