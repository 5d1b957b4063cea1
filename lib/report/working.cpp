#include "report/working.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
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
    {"mm/30 yr", "mm", "in", 1.0 / 25.4},
    {"yr/cm", "yr/cm", "yr/in", 2.54},
    {"kg/ha", "kg/ha", "lb/ac", 1.0 / units::kg_ha_per_lb_acre},
    {"kg/(ha yr)", "kg/ha", "lb/ac", 1.0 / units::kg_ha_per_lb_acre},
    {"km2", "km2", "ac", 100.0 / units::hectare_per_acre},
    {"1", "", "", 0},
});

std::string with_unit(double value, int figures, std::string_view unit) {
    // No brackets round a negative result: only within a working do they part it from the sign before it.
    const std::string number = (value < 0 ? "-" : "") + in_working(std::abs(value), figures);
    return unit.empty() ? number : fmt::format("{} {}", number, unit);
}

std::string printed(double value, const std::string& unit) {
    std::string_view shown = unit;
    for (const UnitWords& words : unit_words)
        if (words.unit == unit) shown = words.printed;
    const std::string other = second_reading(value, unit);
    return with_unit(value, 5, shown) + (other.empty() ? "" : " (" + other + ")");
}

std::string first_letter_large(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

/// "sum p^2 / P = 68973 / 889 = 77.585 mm"; a working that is the value alone is not said twice.
std::string arithmetic(const std::string& equation, const std::string& working, double value, const std::string& unit) {
    std::string text;
    for (const std::string& part : {equation, working})
        if (!part.empty() && part != in_working(value)) text += part + " = ";
    return text + printed(value, unit);
}

/// What it is and whose, then the arithmetic on lines of its own:
///   Modified Fournier index [Arnoldus; read in the source]
///       F = sum p^2 / P = 68973 / 889 = 77.585 mm
std::string lines_of(const source::Step& step, bool names_source) {
    std::string head = first_letter_large(step.words);
    const std::string_view standing = source::words_for(step.origin.standing);
    if (names_source && step.words == step.origin.from)
        head += fmt::format(" [{}]", standing);
    else if (names_source)
        head += fmt::format(" [{}; {}]", step.origin.from, standing);
    const std::string text = wrapped(head, "  ", "    ");
    if (!step.upper)
        return text + wrapped(step.symbol + " = " + arithmetic(step.equation, step.working, step.value, step.unit),
                              "      ", "        ");
    const std::string low = arithmetic("", step.working, step.value, step.unit);
    const std::string high = arithmetic("", step.upper_working, *step.upper, step.unit);
    if (low.size() + high.size() < 64) return text + wrapped("from " + low + " to " + high, "      ", "        ");
    return text + wrapped("from " + low, "      ", "        ") + wrapped("to " + high, "      ", "        ");
}

std::string lines_of(const source::Steps& steps) {
    std::string text;
    const source::Origin* before = nullptr;
    for (const source::Step& step : steps) {
        text += lines_of(step, before == nullptr || !(*before == step.origin));
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
        text += wrapped(fmt::format("\n{} after the change: {} (A1 as now, A2 after)", name, change.name));
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
        if (words.unit == unit && !words.other.empty()) return with_unit(value * words.factor, 4, words.other);
    return "";
}

std::string working_text(const change::Comparison& comparison) {
    std::string text = "\nHow each value came about\n";
    text += wrapped(
        "Five figures stand here so that a calculator can follow; the estimate itself has two of meaning. In brackets: "
        "whose equation or figure it is, and how well that was seen; it holds until another is named. The power "
        "0.65386 is "
        "1.2816 / 1.96: it leads from the ends of 19 times in 20 to those of the middle 80 %.",
        "  ", "  ");
    text +=
        "  R is in MJ mm/(ha h yr), here SI, or in 100 ft tonf in/(ac h yr), here US;\n"
        "  K is in t ha h/(ha MJ mm), here SI, or in ton ac h/(100 ac ft tonf in), US;\n"
        "  a loss A is in t/ha or t/ac a year.\n";
    for (const loss::FieldEstimate& estimate : comparison.fields) text += field_working(estimate);
    for (const change::Pair& pair : comparison.pairs)
        if (!pair.steps.empty())
            text += wrapped(fmt::format("\n{} (A1) and {} (A2)", comparison.fields[pair.from].field.name,
                                        comparison.fields[pair.to].field.name)) +
                    lines_of(pair.steps) + (pair.structure ? lines_of(pair.structure->steps) : std::string());
    return text;
}

}  // namespace soilhold::report
