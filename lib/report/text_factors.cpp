#include "report/text_factors.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/columns.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using units::Kind;
using units::System;

struct FactorName {
    const char* symbol;
    const char* words;
};

constexpr FactorName names[] = {{"R", "R  rain"},   {"K", "K  soil"},  {"m", "m  structure"},
                                {"LS", "LS slope"}, {"C", "C  cover"}, {"P", "P  practice"}};

std::string value_of(const loss::FactorValue& factor, System system) {
    if (factor.symbol == "R") return units::print(Kind::erosivity, factor.value.central, system);
    if (factor.symbol == "K") return units::print(Kind::erodibility, factor.value.central, system, 2);
    return units::figures(factor.value.central, factor.symbol == "LS" || factor.symbol == "m" ? 3 : 2);
}

std::string range_of(const loss::FactorValue& factor, System system) {
    const auto number = [&](double si) {
        if (factor.symbol == "R") return units::figures(units::in_unit(Kind::erosivity, si, system), 3);
        if (factor.symbol == "K") return units::figures(units::in_unit(Kind::erodibility, si, system), 2);
        return units::figures(si, 2);
    };
    if (factor.value.low == factor.value.high) return "";
    return fmt::format("({}-{})", number(factor.value.low), number(factor.value.high));
}

std::string origin_words(const source::Origin& origin) {
    return fmt::format("{} [{}]", origin.from, source::words_for(origin.standing));
}

/// "first, second" for the fields that share one origin; nothing when all do.
std::string owners(const change::Comparison& comparison, const std::vector<std::size_t>& fields) {
    if (fields.size() == comparison.fields.size()) return "";
    std::string list;
    for (const std::size_t i : fields) list += (list.empty() ? "" : ", ") + comparison.fields[i].field.name;
    return list + ": ";
}

/// The lines that say where one value of every field comes from; fields with one origin share a line.
template <class OriginOf>
std::string sources_of(const change::Comparison& comparison, const std::string& label, OriginOf origin_of) {
    std::vector<std::pair<source::Origin, std::vector<std::size_t>>> groups;
    for (std::size_t i = 0; i < comparison.fields.size(); ++i) {
        const std::optional<source::Origin> stated = origin_of(comparison.fields[i]);
        if (!stated) continue;
        const source::Origin& origin = *stated;
        const auto found =
            std::find_if(groups.begin(), groups.end(), [&](const auto& group) { return group.first == origin; });
        if (found == groups.end())
            groups.push_back({origin, {i}});
        else
            found->second.push_back(i);
    }
    std::string text;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        std::string words = owners(comparison, groups[g].second) + origin_words(groups[g].first);
        text += wrapped(words, g == 0 ? fmt::format("  {:<3}", label) : "     ", "     ");
    }
    return text;
}

std::string structure_steps(const loss::FieldEstimate& estimate) {
    if (!estimate.structure.assessment)
        return wrapped(fmt::format("{}: m = 1, because {}.", estimate.field.name, estimate.structure.why_not), "  ",
                       "    ");
    const structure::Assessment& a = *estimate.structure.assessment;
    const std::string unstable =
        a.m_unstable_fraction ? units::figures(*a.m_unstable_fraction, 3) : std::string("not used, K is too low");
    return wrapped(
        fmt::format(
            "{}: {:.0f} % stable, {:.0f} % expected. By the nomograph's structure step m {}, by the unstable fraction "
            "{}, by slaking between rills {}; together {}, pulled towards 1 by doubt: m {} (middle 80 %: {} to {}). "
            "Counting: {}.",
            estimate.field.name, a.W, a.W_ref, units::figures(a.m_nomograph, 3), unstable,
            units::figures(a.m_interrill, 3), units::figures(a.m_pooled, 3), units::figures(a.m, 3),
            units::figures(a.low_80, 2), units::figures(a.high_80, 2),
            a.mode == structure::CountingMode::credited ? "against what C already credits"
                                                        : "C holds cover only, so m stands in for past farming"),
        "  ", "    ");
}

}  // namespace

std::string factors_side_by_side(const change::Comparison& comparison, System system) {
    std::string text = "\nThe factors: A = R x K x m x LS x C x P (with the middle 80 %)\n";
    // Three fields side by side fit the terminal; more come in further tables.
    constexpr std::size_t abreast = 3;
    for (std::size_t first = 0; first < comparison.fields.size(); first += abreast) {
        const std::size_t last = std::min(first + abreast, comparison.fields.size());
        std::vector<std::vector<std::string>> rows = {{""}};
        for (std::size_t i = first; i < last; ++i) rows[0].push_back(comparison.fields[i].field.name);
        for (const FactorName& name : names) {
            std::vector<std::string> row = {name.words};
            for (std::size_t i = first; i < last; ++i) {
                const loss::FactorValue& factor = comparison.fields[i].factor(name.symbol);
                const std::string range = range_of(factor, system);
                row.push_back(value_of(factor, system) + (range.empty() ? "" : " " + range));
            }
            rows.push_back(std::move(row));
        }
        text += table(rows);
    }
    text += "Where they come from [how well that was seen]\n";
    for (const FactorName& name : names)
        text += sources_of(comparison, name.symbol, [&](const loss::FieldEstimate& field) {
            source::Origin origin = field.factor(name.symbol).origin;
            if (std::string(name.symbol) == "LS") origin.from = field.slope_method + ": " + origin.from;
            return std::optional(origin);
        });
    text += sources_of(comparison, "T", [](const loss::FieldEstimate& field) {
        return field.field.tolerance ? std::optional(field.field.tolerance->origin) : std::nullopt;
    });
    text += sources_of(comparison, "BD", [](const loss::FieldEstimate& field) {
        source::Origin origin = field.bulk_density_origin;
        origin.from = fmt::format("bulk density {:.2f} g/cm3, for the depth: {}", field.bulk_density, origin.from);
        return std::optional(origin);
    });
    text += wrapped("Spreads that the file does not give are our assumption (docs/uncertainty.md).", "     ", "     ");
    return text;
}

std::string tests_in_text(const change::Comparison& comparison) {
    const bool any = std::any_of(comparison.fields.begin(), comparison.fields.end(),
                                 [](const loss::FieldEstimate& field) { return !field.field.tests.empty(); });
    if (!any) return "";
    std::string text = "\nThe soak tests\n";
    std::vector<std::vector<std::string>> rows = {{"clods by class", "0", "1", "2", "3", "4", "5", "6", "mean"}};
    for (const loss::FieldEstimate& estimate : comparison.fields) {
        if (!estimate.tests.slake) continue;
        std::vector<std::string> row = {estimate.field.name};
        for (const int count : estimate.tests.slake->by_class) row.push_back(count ? std::to_string(count) : ".");
        row.push_back(fmt::format("{:.1f}", estimate.tests.slake->mean_class));
        rows.push_back(std::move(row));
    }
    if (rows.size() > 1)
        text += table(rows) + "  Class 0 falls apart at once; 6 is nearly whole after five minutes and dips.\n";
    for (const loss::FieldEstimate& estimate : comparison.fields) {
        if (const auto& slump = estimate.tests.slump)
            text += wrapped(fmt::format("{}: loose soil tipped out {} held, {} partly, {} slurry.", estimate.field.name,
                                        slump->holds, slump->partial, slump->slurry),
                            "  ", "    ");
        if (const auto& stable = estimate.tests.water_stable_pct)
            text += wrapped(fmt::format("{}: {:.0f} % water-stable aggregates ({} spots).", estimate.field.name,
                                        stable->mean, stable->spots),
                            "  ", "    ");
        if (const auto& diameter = estimate.tests.mean_weight_diameter_mm)
            text += wrapped(fmt::format("{}: mean weight diameter {:.2f} mm ({} spots).", estimate.field.name,
                                        diameter->mean, diameter->spots),
                            "  ", "    ");
    }
    for (const change::Pair& pair : comparison.pairs) {
        if (pair.tests) text += wrapped(pair.tests->counts_sentence, "  ", "    ");
        if (!pair.agreement.empty()) text += wrapped(pair.agreement, "  ", "    ");
        if (pair.structure)
            text +=
                wrapped(fmt::format("From structure alone, {} over {}: {} (middle 90 %: {} to {}).",
                                    comparison.fields[pair.to].field.name, comparison.fields[pair.from].field.name,
                                    units::figures(pair.structure->ratio, 2), units::figures(pair.structure->low_90, 2),
                                    units::figures(pair.structure->high_90, 2)),
                        "  ", "    ");
    }
    text += "How the tests shift the soil factor (our assumption: docs/structure-factor.md)\n";
    for (const loss::FieldEstimate& estimate : comparison.fields)
        if (!estimate.field.tests.empty()) text += structure_steps(estimate);
    return text;
}

}  // namespace soilhold::report
