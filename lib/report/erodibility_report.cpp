#include "report/erodibility_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "report/columns.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using factors::MethodResult;
using Json = nlohmann::ordered_json;

constexpr std::array<const char*, 12> known_keys = {"kf_us",     "kw_us",        "sand_pct", "silt_pct",
                                                    "clay_pct",  "vfs_pct",      "om_pct",   "oc_pct",
                                                    "structure", "permeability", "rock_pct", "texture"};

std::string us_figure(const std::optional<double>& value) { return value ? units::figures(*value, 2) : ""; }

std::string range_us(const std::optional<spread::Range>& range) {
    return range ? units::figures(range->low, 2) + " to " + units::figures(range->high, 2) : "";
}

Json or_null(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

}  // namespace

factors::ErodibilityInputs soil_from(const factors::Inputs& inputs) {
    for (const auto& [key, value] : inputs.all())
        if (std::find(known_keys.begin(), known_keys.end(), key) == known_keys.end()) {
            std::string list;
            for (const char* known : known_keys) list += (list.empty() ? "" : ", ") + std::string(known);
            throw std::invalid_argument(fmt::format("'{}' is no input of erodibility; it takes {}", key, list));
        }
    const auto number = [&](const char* key) {
        return inputs.has(key) ? std::optional(inputs.number(key)) : std::nullopt;
    };
    const auto kind_us = [&](const char* key) {
        return inputs.has(key) ? std::optional(inputs.number(key) * units::erodibility_si_per_us) : std::nullopt;
    };
    factors::ErodibilityInputs soil;
    soil.survey_fine_earth = kind_us("kf_us");
    soil.survey_whole_soil = kind_us("kw_us");
    soil.sand_pct = number("sand_pct");
    soil.silt_pct = number("silt_pct");
    soil.clay_pct = number("clay_pct");
    soil.very_fine_sand_pct = number("vfs_pct");
    soil.organic_matter_pct = number("om_pct");
    soil.organic_carbon_pct = number("oc_pct");
    if (inputs.has("structure")) soil.structure_code = inputs.whole("structure");
    if (inputs.has("permeability")) soil.permeability_code = inputs.whole("permeability");
    soil.fragment_volume_pct = number("rock_pct");
    if (inputs.has("texture")) soil.texture = inputs.words("texture");
    return soil;
}

std::string methods_text(const std::vector<MethodResult>& results) {
    std::vector<std::vector<std::string>> rows = {{"K by every method", "US", "SI", "bounds, US", "with stones"}};
    for (const MethodResult& one : results)
        rows.push_back({one.name, one.us ? us_figure(one.us) : "-", one.si ? units::figures(*one.si, 2) : "-",
                        range_us(one.bounds_us), us_figure(one.whole_soil_us)});
    std::string text = table(rows, "");
    text += "\nWhat each was published for, and whose it is [how well that was seen]\n";
    for (const MethodResult& one : results) {
        text += wrapped(fmt::format("{}: {} {} [{}]", one.name, one.range_note, one.origin.from,
                                    source::words_for(one.origin.standing)),
                        "  ", "    ");
        if (!one.why_not.empty()) text += wrapped("No value: " + one.why_not, "    ", "    ");
        for (const source::Remark& remark : one.remarks) text += wrapped(remark.text, "    ", "    ");
    }
    text += wrapped(
        "An estimate takes the survey's K or the nomograph equation. Where these lie far apart, ask the local "
        "conservation office before you choose.");
    return text;
}

std::string methods_json(const std::vector<MethodResult>& results) {
    Json list = Json::array();
    for (const MethodResult& one : results) {
        Json remarks = Json::array();
        for (const source::Remark& remark : one.remarks)
            remarks.push_back({{"code", remark.code}, {"text", remark.text}});
        Json json = {{"method", one.method}, {"name", one.name}};
        json["value"] = or_null(one.si);
        json["unit"] = "t ha h/(ha MJ mm)";
        json["value_us"] = or_null(one.us);
        if (one.bounds_si) json["bounds"] = {{"low", one.bounds_si->low}, {"high", one.bounds_si->high}};
        json["with_stones"] = or_null(one.whole_soil_si);
        json["source"] = one.origin.from;
        json["standing"] = source::words_for(one.origin.standing);
        json["citation"] = one.origin.citation;
        json["published_for"] = one.range_note;
        if (!one.why_not.empty()) json["why_not"] = one.why_not;
        json["remarks"] = std::move(remarks);
        list.push_back(std::move(json));
    }
    return Json{{"quantity", "erodibility"}, {"methods", std::move(list)}}.dump(2) + "\n";
}

}  // namespace soilhold::report
