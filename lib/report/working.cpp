#include "report/working.h"

#include <fmt/format.h>

#include <array>
#include <string_view>

#include "report/columns.h"
#include "units/unit.h"

namespace soilhold::report {

namespace {

using source::in_working;

/// How a unit of a step is printed, and what it is in the other system.
struct UnitWords {
    std::string_view unit, printed, other;
    double factor;  ///< the other system's figure = value x factor
};

constexpr auto unit_words = std::to_array<UnitWords>({
    {"MJ mm/(ha h yr)", "SI", "US", 1.0 / units::erosivity_si_per_us},
    {"t ha h/(ha MJ mm)", "SI", "US", 1.0 / units::erodibility_si_per_us},
    {"t/(ha yr)", "t/ha", "t/ac", 1.0 / units::t_ha_per_ton_acre},
    {"US A", "t/ac", "", 0},
    {"US K", "US", "", 0},
    {"m", "m", "ft", 1.0 / units::metre_per_foot},
    {"ha", "ha", "ac", 1.0 / units::hectare_per_acre},
    {"t/yr", "t", "US tons", 1.0 / units::tonne_per_short_ton},
    {"mm/yr", "mm", "in", 1.0 / 25.4},
    {"1", "", "", 0},
});

std::string with_unit(double value, std::string_view unit) {
    const std::string number = source::in_working(value);
    return unit.empty() ? number : fmt::format("{} {}", number, unit);
}

std::string printed(double value, const std::string& unit) {
    std::string_view shown = unit;
    for (const UnitWords& words : unit_words)
        if (words.unit == unit) shown = words.printed;
    const std::string other = second_reading(value, unit);
    return with_unit(value, shown) + (other.empty() ? "" : " (" + other + ")");
}

std::string origin_words(const source::Origin& origin) {
    return fmt::format("[{}; {}]", origin.from, source::words_for(origin.standing));
}

/// "F = sum p^2 / P = 69093 / 889 = 77.72 mm: modified Fournier index [...]"
std::string line_of(const source::Step& step, const source::Origin* named_before) {
    std::string text;
    if (step.upper) {
        const auto end = [&](const std::string& working, double value) {
            return (working.empty() ? "" : working + " = ") + printed(value, step.unit);
        };
        text = fmt::format("from {} to {}: {}", end(step.working, step.value), end(step.upper_working, *step.upper),
                           step.words);
    } else {
        for (const std::string& part : {step.symbol, step.equation, step.working})
            if (!part.empty()) text += part + " = ";
        text += printed(step.value, step.unit);
        if (!step.words.empty()) text += ": " + step.words;
    }
    if (named_before == nullptr || !(*named_before == step.origin)) text += " " + origin_words(step.origin);
    return wrapped(text, "  ", "      ");
}

std::string lines_of(const source::Steps& steps) {
    std::string text;
    const source::Origin* before = nullptr;
    for (const source::Step& step : steps) {
        text += line_of(step, before);
        before = &step.origin;
    }
    return text;
}

const char* title_of(const std::string& symbol) {
    return symbol == "R"    ? "R, the rain"
           : symbol == "K"  ? "K, the soil"
           : symbol == "m"  ? "m, its structure by the soak tests"
           : symbol == "LS" ? "LS, the slope"
           : symbol == "C"  ? "C, cover and management"
                            : "P, support practice";
}

std::string field_working(const loss::FieldEstimate& estimate) {
    const std::string& name = estimate.field.name;
    std::string text;
    for (const loss::FactorValue& factor : estimate.factors)
        text += wrapped(fmt::format("\n{}: {}", name, title_of(factor.symbol))) + lines_of(factor.steps);
    text += wrapped(fmt::format("\n{}: A, the yearly loss", name)) + lines_of(estimate.steps);
    for (const loss::ChangeResult& change : estimate.changes) {
        text += wrapped(fmt::format("\n{}, after the change '{}'", name, change.name));
        if (change.changes_length) text += lines_of(change.LS.steps);
        if (change.changes_cover) text += lines_of(change.C.steps);
        if (change.changes_practice) text += lines_of(change.P.steps);
        text += lines_of(change.steps);
    }
    return text;
}

}  // namespace

std::string second_reading(double value, const std::string& unit) {
    for (const UnitWords& words : unit_words)
        if (words.unit == unit && !words.other.empty()) return with_unit(value * words.factor, words.other);
    return "";
}

std::string working_text(const change::Comparison& comparison) {
    std::string text = "\nHow each value came about\n";
    text += wrapped(
        "Five figures stand here so that a calculator can follow; the estimate itself has two of meaning. In brackets: "
        "whose equation or figure it is and how well that was seen; it holds until another is named. SI and US are the "
        "two systems' units of R, MJ mm/(ha h yr) and hundreds of ft tonf in/(ac h yr), and of K, t ha h/(ha MJ mm) "
        "and t ac h/(hundreds of ac ft tonf in). A is in t/ha or t/ac a year.",
        "  ", "  ");
    for (const loss::FieldEstimate& estimate : comparison.fields) text += field_working(estimate);
    for (const change::Pair& pair : comparison.pairs)
        if (!pair.steps.empty())
            text += wrapped(fmt::format("\n{} (A1) and {} (A2)", comparison.fields[pair.from].field.name,
                                        comparison.fields[pair.to].field.name)) +
                    lines_of(pair.steps);
    return text;
}

}  // namespace soilhold::report
