#include "input/known_keys.h"

#include <algorithm>
#include <array>
#include <vector>

#include "input/watershed_keys.h"

namespace soilhold::input {

namespace {

constexpr auto table = std::to_array<KnownKey>({
    {"farm", "farm"},
    {"farm", "prepared by"},
    {"farm", "local office"},
    {"farm", "place"},
    {"farm", "fields"},

    {"place", "rain"},
    {"place", "weather"},
    {"place", "soil"},
    {"place", "slope"},
    {"place", "cover"},
    {"place", "practice"},
    {"place", "tests"},

    {"field", "field"},
    {"field", "area"},
    {"field", "rain"},
    {"field", "weather"},
    {"field", "soil"},
    {"field", "slope"},
    {"field", "cover"},
    {"field", "practice"},
    {"field", "structure factor"},
    {"field", "delivery"},
    {"field", "tests"},
    {"field", "changes"},

    {"rain", "erosivity"},
    {"rain", "annual"},
    {"rain", "monthly"},
    {"rain", "gauge"},
    {"rain", "spread"},
    {"rain", "from"},

    {"gauge", "file"},
    {"gauge", "energy"},
    {"gauge", "zone"},
    {"gauge", "time"},
    {"gauge", "depth"},
    {"gauge", "unit"},
    {"gauge", "kind"},
    {"gauge", "interval"},
    {"gauge", "stamp"},
    {"gauge", "tip"},
    {"gauge", "dry left out"},
    {"gauge", "from"},

    {"weather", "temperature"},
    {"weather", "rain"},
    {"weather", "erosivity calendar"},
    {"weather", "from"},

    {"temperature", "mean"},
    {"temperature", "warmest above mean"},
    {"temperature", "from"},

    {"soil", "map unit"},
    {"soil", "name"},
    {"soil", "texture"},
    {"soil", "clay"},
    {"soil", "organic matter"},
    {"soil", "organic carbon"},
    {"soil", "structure"},
    {"soil", "permeability"},
    {"soil", "erodibility"},
    {"soil", "method"},
    {"soil", "unstable aggregates"},
    {"soil", "base saturation"},
    {"soil", "aggregate index"},
    {"soil", "montmorillonite"},
    {"soil", "dispersion ratio"},
    {"soil", "rock in erodibility"},
    {"soil", "rock fragments"},
    {"soil", "rock counted in"},
    {"soil", "tolerance"},
    {"soil", "tolerance by depth"},
    {"soil", "bulk density"},
    {"soil", "aggregates of this soil"},
    {"soil", "from"},

    {"tolerance by depth", "layer"},
    {"tolerance by depth", "depth"},

    {"texture", "sand"},
    {"texture", "very fine sand"},
    {"texture", "silt"},
    {"texture", "clay"},
    {"texture", "from"},

    {"slope", "length"},
    {"slope", "steepness"},
    {"slope", "segments"},
    {"slope", "method"},
    {"slope", "rills"},
    {"slope", "from"},

    {"segment", "length"},
    {"segment", "steepness"},
    {"segment", "from"},

    {"cover", "factor"},
    {"cover", "parts"},
    {"cover", "pasture"},
    {"cover", "woodland"},
    {"cover", "mulch"},
    {"cover", "site"},
    {"cover", "stages"},
    {"cover", "rotation"},
    {"cover", "residue reading"},
    {"cover", "period"},
    {"cover", "credits"},
    {"cover", "from"},

    {"parts", "surface cover"},
    {"parts", "canopy"},
    {"parts", "fall height"},
    {"parts", "roughness"},
    {"parts", "prior land use"},
    {"parts", "undisturbed"},
    {"parts", "from"},

    {"pasture", "canopy"},
    {"pasture", "fall height"},
    {"pasture", "ground"},
    {"pasture", "ground cover"},
    {"pasture", "undisturbed"},
    {"pasture", "print"},
    {"pasture", "from"},

    {"woodland", "canopy"},
    {"woodland", "duff"},
    {"woodland", "use"},
    {"woodland", "print"},
    {"woodland", "from"},

    {"mulch", "material"},
    {"mulch", "rate"},
    {"mulch", "from"},

    {"site", "by"},
    {"site", "cover"},
    {"site", "from"},

    {"stage", "stage"},
    {"stage", "ratio"},
    {"stage", "line"},
    {"stage", "erosivity share"},

    {"rotation", "usual"},
    {"rotation", "years"},
    {"rotation", "crops"},
    {"rotation", "operations"},
    {"rotation", "residue removed"},
    {"rotation", "residue added"},
    {"rotation", "grazing"},
    {"rotation", "residue effectiveness"},
    {"rotation", "from"},

    {"crop", "crop"},
    {"crop", "planted"},
    {"crop", "harvested"},
    {"crop", "ended"},
    {"crop", "yield"},
    {"crop", "residue"},
    {"crop", "canopy"},
    {"crop", "height"},
    {"crop", "roots"},
    {"crop", "from"},

    {"operation", "tool"},
    {"operation", "day"},
    {"operation", "roughness"},
    {"operation", "leaves"},
    {"operation", "disturbs"},
    {"operation", "from"},

    {"residue removed", "day"},
    {"residue removed", "share"},
    {"residue removed", "from"},

    {"residue added", "day"},
    {"residue added", "residue"},
    {"residue added", "mass"},
    {"residue added", "from"},

    {"grazing", "begins"},
    {"grazing", "ends"},
    {"grazing", "takes"},
    {"grazing", "from"},

    {"residue reading", "day"},
    {"residue reading", "cover"},
    {"residue reading", "from"},

    {"practice", "factor"},
    {"practice", "contouring"},
    {"practice", "row grade"},
    {"practice", "heavy residue"},
    {"practice", "strips"},
    {"practice", "terraces"},
    {"practice", "buffer strips"},
    {"practice", "from"},

    {"strips", "meadow"},
    {"strips", "width"},

    {"terraces", "interval"},
    {"terraces", "outlet"},
    {"terraces", "grade"},
    {"terraces", "credit"},

    {"buffer strips", "place"},
    {"buffer strips", "share"},

    {"delivery", "drainage area"},
    {"delivery", "from"},

    {"tests", "date"},
    {"tests", "drying"},
    {"tests", "clod size"},
    {"tests", "depth"},
    {"tests", "water"},
    {"tests", "scorer"},
    {"tests", "blind"},
    {"tests", "tilled"},
    {"tests", "rain"},
    {"tests", "position"},
    {"tests", "slake"},
    {"tests", "slump"},
    {"tests", "water-stable aggregates"},
    {"tests", "mean weight diameter"},
    {"tests", "cloudiness"},

    {"clod", "class"},
    {"clod", "floated"},
    {"clod", "stone"},

    {"slump", "soak"},
    {"slump", "verdicts"},

    {"change", "change"},
    {"change", "cover"},
    {"change", "rotation"},
    {"change", "practice"},
    {"change", "length"},
    {"change", "note"},

    {"value", "value"},
    {"value", "spread"},
    {"value", "from"},
    {"value", "confirmed"},
});

/// Edits between two words, a swap of neighbours counting one.
std::size_t edits(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before(b.size() + 1), row(b.size() + 1), older;
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        older = before;
        before = row;
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const bool same = a[i - 1] == b[j - 1];
            row[j] = std::min({before[j] + 1, row[j - 1] + 1, before[j - 1] + (same ? 0U : 1U)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], older[j - 2] + 1);
        }
    }
    return row[b.size()];
}

/// Lower case, with _ as people of other formats write it made a space.
std::string plain(std::string_view written) {
    std::string result;
    for (const char c : written.substr(0, 40))
        result += c == '_' ? ' ' : (c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c);
    return result;
}

/// A file of one field holds the keys of the farm and of the field side by side.
bool belongs(const KnownKey& known, std::string_view section) {
    if (section == "one field") return (known.section == "farm" && known.key != "fields") || known.section == "field";
    return known.section == section;
}

std::vector<std::string_view> keys_in(std::string_view section) {
    std::vector<std::string_view> keys;
    for (const std::span<const KnownKey> list : {std::span<const KnownKey>(table), watershed_keys()})
        for (const KnownKey& known : list)
            if (belongs(known, section)) keys.push_back(known.key);
    return keys;
}

}  // namespace

std::span<const KnownKey> known_keys() { return table; }

bool is_known(std::string_view section, std::string_view key) {
    const auto here = [&](const KnownKey& known) { return belongs(known, section) && known.key == key; };
    return std::ranges::any_of(table, here) || std::ranges::any_of(watershed_keys(), here);
}

std::string nearest_word(std::span<const std::string_view> words, std::string_view written) {
    const std::string meant = plain(written);
    std::size_t least = 1 + std::max<std::size_t>(1, meant.size() / 3);
    std::string_view nearest;
    for (const std::string_view word : words) {
        const std::size_t distance = edits(meant, word);
        if (distance >= least) continue;
        least = distance;
        nearest = word;
    }
    return std::string(nearest);
}

std::string nearest_key(std::string_view section, std::string_view written) {
    return nearest_word(keys_in(section), written);
}

std::string keys_of(std::string_view section) {
    std::string list;
    for (const std::string_view key : keys_in(section)) list += (list.empty() ? "" : ", ") + std::string(key);
    return list;
}

std::string_view section_of(std::string_view key) {
    for (const KnownKey& known : table)
        if (known.key == key) return known.section;
    return {};
}

}  // namespace soilhold::input
