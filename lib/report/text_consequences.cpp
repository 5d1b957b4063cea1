#include "report/text_consequences.h"

#include <fmt/format.h>

#include <algorithm>

#include "factors/tolerance.h"
#include "report/columns.h"
#include "report/words.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using units::Kind;
using units::System;

std::string amount(double si, System system) { return units::figures(units::in_unit(Kind::soil_loss, si, system), 2); }

std::string sourced(const source::Origin& origin) {
    return fmt::format("{} [{}]", origin.from, source::words_for(origin.standing));
}

/// A record's full title, where its short name would not read well in a sentence.
std::string cited(std::string_view key) {
    const source::Citation& record = source::citation(key);
    return fmt::format("{} [{}]", record.text, source::words_for(record.standing));
}

std::string line(const std::string& text) { return wrapped(text, "  ", "    "); }

std::string slope_parts(const loss::FieldEstimate& estimate, System system) {
    if (estimate.slope_parts.empty()) return "";
    const std::string unit(units::printed_unit(Kind::soil_loss, system).symbol);
    std::string text = line(estimate.field.name + ": where on the slope the soil goes, from the top down");
    std::vector<std::vector<std::string>> rows = {{"", "length", "steepness", unit, "likely range", "of all tons"}};
    for (std::size_t i = 0; i < estimate.slope_parts.size(); ++i) {
        const loss::SlopePartLoss& part = estimate.slope_parts[i];
        rows.push_back({"part " + std::to_string(i + 1), units::print(Kind::length, part.length_m, system),
                        units::print(Kind::steepness, part.gradient, system), amount(part.loss.central, system),
                        amount(part.loss.low, system) + " to " + amount(part.loss.high, system),
                        fmt::format("{:.0f} %", 100 * part.share)});
    }
    return text + table(rows, "    ");
}

std::string layer_and_contents(const loss::FieldEstimate& estimate, System system) {
    const loss::Consequences& c = estimate.consequences;
    const bool us = system == System::us;
    const double per_layer = us ? 2.54 : 1.0;
    const auto years = [&](double value) { return units::figures(value * per_layer, 2); };
    const auto mass = [&](double kg_ha) { return units::print(Kind::mass_per_area, kg_ha, system, 2); };
    std::string text = fmt::format(
        "{}: {} of soil lasts about {} years (likely {} to {}). With the soil go about {} of "
        "nitrogen",
        estimate.field.name, us ? "an inch" : "a centimetre", years(c.years_per_cm.central), years(c.years_per_cm.low),
        years(c.years_per_cm.high), mass(c.nitrogen_kg_ha));
    const std::string phosphorus = mass(c.phosphorus_kg_ha) + " of phosphorus";
    if (c.organic_matter_kg_ha)
        text += ", " + phosphorus + " and " + mass(*c.organic_matter_kg_ha) + " of organic matter";
    else
        text += " and " + phosphorus;
    return line(text + " a year.");
}

std::string delivery(const loss::FieldEstimate& estimate, System system) {
    const loss::Consequences& c = estimate.consequences;
    if (c.delivered.empty()) return "";
    std::string list;
    for (const loss::Delivered& one : c.delivered)
        list += fmt::format("{}{} by {}", list.empty() ? "" : ", ", amount(one.loss.central, system),
                            sourced(one.relation));
    return line(
        fmt::format("{}: of what leaves the field, perhaps this many {} reach the point that drains {}: {}. The "
                    "relations were fitted to basins and differ among themselves.",
                    estimate.field.name, loss_unit(system),
                    units::print(Kind::area, 100 * estimate.field.drainage_area_km2->value, system), list));
}

}  // namespace

std::string leaving_sentence(const loss::Leaving& leaving, System system) {
    return fmt::format(
        "about {} {} leave the field (likely {} to {}); the rest is caught below, and the slope above loses it all "
        "the same ({})",
        amount(leaving.loss.central, system), loss_unit(system), amount(leaving.loss.low, system),
        amount(leaving.loss.high, system), sourced(leaving.share.origin));
}

std::string what_follows(const change::Comparison& comparison, System system) {
    std::string text = "\nWhat follows from it\n";
    bool any_index = false;
    for (const loss::FieldEstimate& estimate : comparison.fields) {
        text += slope_parts(estimate, system);
        if (estimate.leaving)
            text += line(estimate.field.name + ": " + leaving_sentence(*estimate.leaving, system) + ".");
        text += layer_and_contents(estimate, system);
        text += delivery(estimate, system);
        if (const auto& index = estimate.consequences.erodibility_index) {
            any_index = true;
            text += line(fmt::format("{}: index of the land, R x K x LS / T, {}.", estimate.field.name,
                                     units::figures(*index, 2)));
        }
    }
    text += wrapped("Nitrogen and phosphorus by " + cited("soil-value") + ". Published contents differ five-fold.",
                    "  ", "  ");
    if (any_index)
        text += wrapped(
            fmt::format("The index grades the land as it lies, not what is done on it; from {:.0f} up {} calls land "
                        "highly erodible. It is an index, never a determination: that is the local office's alone, "
                        "from its own values.",
                        factors::highly_erodible_index, cited("highly-erodible")),
            "  ", "  ");
    return text;
}

}  // namespace soilhold::report
