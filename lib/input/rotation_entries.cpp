#include "input/rotation_entries.h"

#include <fmt/format.h>

#include <stdexcept>

#include "input/figure.h"
#include "input/rotation_dates.h"
#include "input/rotation_words.h"
#include "rotation/crops.h"
#include "rotation/decomposition.h"
#include "rotation/operations.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

using units::Kind;

source::Origin origin_of_entry(const Section& entry, std::string_view key, const RotationTold& told) {
    const Node* node = entry.find(key);
    return node != nullptr && (entry.has("from") || entry_of(node, "from") != nullptr) ? entry.origin(*node, key)
                                                                                       : told.origin;
}

/// "chisel" is no name of its own but stands in "chisel plow" and others: all of them, or "".
template <class Rows>
std::string names_with(const Rows& rows, const std::string& word) {
    std::string names;
    for (const auto& row : rows)
        if (word.size() > 2 && row.name.find(word) != std::string::npos)
            names += (names.empty() ? "" : ", ") + row.name;
    return names;
}

/// A name of our tables; `look` throws with the nearest one.
template <class Rows, class Look>
std::optional<std::string> known_name(const Section& entry, std::string_view key, const char* code, const Rows& rows,
                                      Look look) {
    const auto written = entry.text(key);
    if (!written) return std::nullopt;
    const std::string name = lower_case(readable(*written, 60));
    try {
        look(name);
        return name;
    } catch (const std::invalid_argument& unknown) {
        const std::string holding = names_with(rows, name);
        entry.reader().mistake(entry.find(key)->at, code,
                               holding.empty()
                                   ? as_sentence(unknown.what())
                                   : fmt::format("'{}' could be: {}. Write the one that you mean", name, holding));
        return std::nullopt;
    }
}

void needs(const Section& entry, std::string_view key, std::string_view what) {
    if (!entry.has(key)) entry.reader().mistake(entry.at(), "missing", what);
}

std::optional<spread::Stated> amount(const Section& entry, std::string_view key, Kind kind, double most,
                                     std::string_view range, const RotationTold& told,
                                     SpreadUse use = SpreadUse::unused) {
    const auto found = figure(entry, key, kind, use);
    if (!found) return std::nullopt;
    spread::Stated stated = found->stated;
    stated.origin = origin_of_entry(entry, key, told);
    if (stated.value >= 0 && stated.value <= most) return stated;
    entry.reader().mistake(found->at, "range", fmt::format("'{}' lies between 0 and {}", key, range));
    return std::nullopt;
}

std::optional<spread::Stated> share(const Section& entry, std::string_view key, const RotationTold& told) {
    return amount(entry, key, Kind::share, 1, "100 %", told);
}

/// "180 bu/ac" in kg/ha, by the weight of this crop's bushel; nothing when it isn't in bushels.
std::optional<std::string> bushels(const Section& entry, const Node& node, const rotation::Crop& crop) {
    if (!node.is_scalar()) return std::nullopt;
    const std::string text = lower_case(node.text);
    const auto at = text.find("bu");
    if (at == std::string::npos) return std::nullopt;
    std::string unit = text.substr(at);
    unit.erase(unit.find_last_not_of(" \t\n") + 1);
    const bool known = unit == "bu/ac" || unit == "bu/acre" || unit == "bushels/acre" || unit == "bushels/ac" ||
                       unit == "bushels per acre";
    if (!known) return std::nullopt;
    if (!(crop.kg_per_bushel > 0)) {
        entry.reader().mistake(
            node.at, "unknown-unit",
            fmt::format("{} isn't sold by the bushel here; give its yield as lb/ac, ton/ac, kg/ha or "
                        "t/ha",
                        as_sentence(crop.name)));
        return "";
    }
    try {
        return fmt::format("{} kg/ha",
                           units::read_number(text.substr(0, at)) * crop.kg_per_bushel / units::hectare_per_acre);
    } catch (const units::ReadingError& error) {
        entry.reader().mistake(node.at, error.code, fmt::format("yield: {}", error.what()));
        return "";
    }
}

std::optional<spread::Stated> yield_of(const Section& entry, const rotation::Crop& crop, const RotationTold& told) {
    const Node* node = entry.find("yield");
    if (node == nullptr) return std::nullopt;
    // The figure is read from a copy in which bushels are weighed.
    Node weighed;
    weighed.kind = Node::Kind::mapping;
    weighed.at = node->at;
    weighed.entries.push_back({"yield", node->at, *node});
    Node* scalar = &weighed.entries[0].value;
    for (Entry& inner : scalar->entries)
        if (inner.key == "value") scalar = &inner.value;
    if (const auto in_kg = bushels(entry, *scalar, crop)) {
        if (in_kg->empty()) return std::nullopt;
        scalar->text = *in_kg;
    }
    auto stated =
        amount(Section(entry.reader(), "crop", &weighed), "yield", Kind::mass_per_area, 1e6, "1000 t/ha", told);
    if (!stated) return std::nullopt;
    if (entry_of(node, "from") == nullptr) stated->origin = origin_of_entry(entry, "yield", told);
    if (crop.usual_yield_kg_ha > 0 && stated->value > 3 * crop.usual_yield_kg_ha)
        entry.reader().caution(
            node->at, "yield-unusual",
            fmt::format(
                "A yield of {:.3g} kg/ha is {:.2g} times the usual one of {} ({:.3g} kg/ha{}). Look at the unit",
                stated->value, stated->value / crop.usual_yield_kg_ha, crop.name, crop.usual_yield_kg_ha,
                crop.kg_per_bushel > 0 ? fmt::format(", {:.3g} bu/ac", crop.usual_yield_kg_ha *
                                                                           units::hectare_per_acre / crop.kg_per_bushel)
                                       : ""));
    return stated;
}

}  // namespace

std::optional<rotation::CropGrown> read_crop(const Section& crop, const RotationTold& told) {
    const Reader& reader = crop.reader();
    needs(crop, "crop", "This entry of 'crops' names no crop: begin it with 'crop: corn'");
    const auto name = known_name(crop, "crop", "unknown-crop", rotation::all_crops(),
                                 [](const std::string& n) { rotation::crop_of(n); });
    rotation::CropGrown grown;
    grown.planted = day_of(crop, "planted", told.years);
    if (crop.has("ended") && crop.has("harvested"))
        reader.mistake(crop.at(), "one-of", "A crop ends once: 'harvested' or 'ended', not both");
    grown.ended = day_of(crop, crop.has("ended") ? "ended" : "harvested", told.years);
    grown.residue = amount(crop, "residue", Kind::mass_per_area, 1e5, "100 t/ha", told, SpreadUse::used);
    grown.canopy = share(crop, "canopy", told);
    grown.height = amount(crop, "height", Kind::length, 10, "10 m (33 ft)", told);
    grown.roots = amount(crop, "roots", Kind::mass_per_area, 1e5, "100 t/ha", told);
    if (!name) return std::nullopt;
    const rotation::Crop& row = rotation::crop_of(*name);
    grown.crop = *name;
    grown.cover_crop = row.kind == "cover";
    if (grown.cover_crop && crop.has("yield"))
        reader.mistake(
            crop.at(), "yield-of-cover",
            fmt::format("{} has no harvest, so no 'yield'; give its top growth as 'residue'", as_sentence(row.name)));
    grown.yield = yield_of(crop, row, told);
    grown.origin = origin_of_entry(crop, "crop", told);
    return grown;
}

std::optional<rotation::OperationDone> read_operation(const Section& operation, const RotationTold& told) {
    needs(operation, "tool", "This entry of 'operations' names no tool: begin it with 'tool: chisel plow'");
    needs(operation, "day", "A pass of a tool needs its day: 'day: year 1 November 5'");
    const auto name = known_name(operation, "tool", "unknown-operation", rotation::all_operations(),
                                 [](const std::string& n) { rotation::operation_of(n); });
    const auto on = day_of(operation, "day", told.years);
    rotation::OperationDone done;
    done.roughness = amount(operation, "roughness", Kind::small_length, 150, "150 mm (6 in)", told);
    if (done.roughness && !(done.roughness->value > 0)) {
        operation.reader().mistake(operation.find("roughness")->at, "range", "'roughness' lies above 0");
        return std::nullopt;
    }
    done.left = share(operation, "leaves", told);
    done.disturbed = share(operation, "disturbs", told);
    if (!name || !on) return std::nullopt;
    done.operation = *name;
    done.on = *on;
    done.origin = origin_of_entry(operation, "tool", told);
    return done;
}

std::optional<rotation::ResidueRemoved> read_removed(const Section& removed, const RotationTold& told) {
    needs(removed, "day", "Residue is taken on a day: 'day: year 1 October 15'");
    needs(removed, "share", "Say what 'share' of the residue is taken, like 50 %");
    const auto on = day_of(removed, "day", told.years);
    const auto taken = share(removed, "share", told);
    if (!on || !taken) return std::nullopt;
    return rotation::ResidueRemoved{*on, *taken};
}

std::optional<rotation::ResidueAdded> read_added(const Section& added, const RotationTold& told) {
    needs(added, "day", "Residue is brought on a day: 'day: year 1 April 2'");
    needs(added, "residue", "Say which 'residue' is brought: manure, straw, compost, ...");
    needs(added, "mass", "Say how much is brought, dry: 'mass: 4 ton/ac'");
    const auto on = day_of(added, "day", told.years);
    const auto name = known_name(added, "residue", "unknown-residue", rotation::all_residues(),
                                 [](const std::string& n) { rotation::residue_of(n); });
    const auto mass = amount(added, "mass", Kind::mass_per_area, 1e6, "1000 t/ha", told);
    if (!on || !name || !mass) return std::nullopt;
    return rotation::ResidueAdded{*on, *name, *mass};
}

std::optional<rotation::Grazing> read_grazing(const Section& grazing, const RotationTold& told) {
    for (const std::string_view key : {"begins", "ends"})
        needs(grazing, key, "Grazing has a day on which it 'begins' and one on which it 'ends'");
    needs(grazing, "takes", "Say what share of the growth the animals have taken when they leave: 'takes: 30 %'");
    const auto begins = day_of(grazing, "begins", told.years), ends = day_of(grazing, "ends", told.years);
    const auto taken = share(grazing, "takes", told);
    if (!begins || !ends || !taken) return std::nullopt;
    return rotation::Grazing{*begins, *ends, *taken};
}

}  // namespace soilhold::input
