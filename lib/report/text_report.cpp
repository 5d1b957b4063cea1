#include "report/text_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/cautions.h"
#include "report/columns.h"
#include "report/text_consequences.h"
#include "report/text_factors.h"
#include "report/words.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using units::Kind;
using units::System;

std::string amount(double si, System system) { return units::figures(units::in_unit(Kind::soil_loss, si, system), 2); }

std::string range(const spread::Interval& value, System system) {
    return amount(value.low, system) + " to " + amount(value.high, system);
}

std::string heading(const std::string& text) { return "\n" + text + "\n"; }

std::string answer_of_pair(const change::Comparison& comparison, const change::Pair& pair) {
    const std::string& from = comparison.fields[pair.from].field.name;
    const std::string& to = comparison.fields[pair.to].field.name;
    if (pair.ratio) return wrapped(ratio_sentence(*pair.ratio, from, to));
    const bool shown = pair.fairness.grade == soiltest::Grade::show_only;
    std::string text = wrapped(fmt::format("{} and {}: {}", from, to,
                                           shown ? "to show side by side, but no ratio is drawn (show only)."
                                                 : "no comparison is drawn (not comparable)."));
    for (const soiltest::Reason& reason : pair.fairness.reasons) {
        text += wrapped(reason.text, "  - ", "    ");
        if (!reason.redo.empty()) text += wrapped("Next time: " + reason.redo, "    ", "    ");
    }
    return text;
}

std::string losses(const change::Comparison& comparison, System system) {
    const std::string unit(units::printed_unit(Kind::soil_loss, system).symbol);
    const std::string depth_unit = system == System::us ? "inches" : "mm";
    const double depth_factor = system == System::us ? 1.0 / 25.4 : 1.0;
    std::vector<std::vector<std::string>> rows = {
        {"", unit, "likely range", "T", "times T", depth_unit + "/30 yr", "untested"}};
    for (const loss::FieldEstimate& estimate : comparison.fields)
        rows.push_back({estimate.field.name, amount(estimate.loss.central, system), range(estimate.loss, system),
                        estimate.tolerance ? amount(*estimate.tolerance, system) : "-",
                        estimate.loss_over_tolerance ? units::figures(*estimate.loss_over_tolerance, 2) : "-",
                        units::figures(30 * estimate.depth_mm_per_year.central * depth_factor, 2),
                        amount(estimate.loss_without_tests.central, system)});
    std::string text = heading("Soil lost in an average year") + table(rows);
    text += wrapped(
        "Likely range: the middle 80 %; one time in ten below it, one in ten above. T is the planners' mark for "
        "the soil, not a safe line. Untested: the estimate without the soak tests (m = 1).",
        "  ", "  ");
    for (const loss::FieldEstimate& estimate : comparison.fields)
        if (estimate.total)
            text += wrapped(
                fmt::format("{}: {} a year from {}.", estimate.field.name, total_in_words(*estimate.total, system),
                            units::print(Kind::area, estimate.field.area_ha->value, system)),
                "  ", "    ");
    return text;
}

/// "C 0.11 (local table) [your figure], LS 0.96": what the change changes, and whose figure it is.
std::string changed_factors(const loss::ChangeResult& change) {
    std::string list;
    const auto add = [&](bool changed, const loss::FactorValue& factor) {
        if (!changed) return;
        list += fmt::format("{}{} {} ({}) [{}]", list.empty() ? "" : ", ", factor.symbol,
                            units::figures(factor.value.central, 2), factor.origin.from,
                            source::words_for(factor.origin.standing));
    };
    add(change.changes_length, change.LS);
    add(change.changes_cover, change.C);
    add(change.changes_practice, change.P);
    return list.empty() ? "no factor changes" : list;
}

std::string changes(const loss::FieldEstimate& estimate, System system) {
    if (estimate.changes.empty()) return "";
    const std::string unit(units::printed_unit(Kind::soil_loss, system).symbol);
    std::vector<std::vector<std::string>> rows = {{"", unit, "likely range", "saved", "likely saved"}};
    rows.push_back({"as now", amount(estimate.loss.central, system), range(estimate.loss, system), "", ""});
    for (const loss::ChangeResult& change : estimate.changes)
        rows.push_back({change.name, amount(change.loss.central, system), range(change.loss, system),
                        amount(change.saved.central, system), range(change.saved, system)});
    std::string text = heading("What a change would do on " + estimate.field.name) + table(rows);
    for (const loss::ChangeResult& change : estimate.changes) {
        text += wrapped(change.name + ": " + changed_factors(change) + ".", "  ", "    ");
        if (change.leaving)
            text += wrapped("Then " + leaving_sentence(*change.leaving, system) + ".", "    ", "    ");
        if (!change.note.empty()) text += wrapped(change.note, "    ", "    ");
        for (const source::Remark& remark : change.remarks) text += wrapped(remark.text, "    ", "    ");
    }
    if (estimate.largest_cover_times_practice)
        text += wrapped(
            fmt::format("To stay at T, C x P may be at most {} here (now {}).",
                        units::figures(*estimate.largest_cover_times_practice, 2),
                        units::figures(estimate.factor("C").value.central * estimate.factor("P").value.central, 2)),
            "  ", "    ");
    return text;
}

std::string doubt(const change::Comparison& comparison) {
    std::string text = heading("What we are least sure of");
    for (const loss::FieldEstimate& estimate : comparison.fields) {
        std::string list;
        for (const loss::DoubtShare& share : estimate.doubt)
            if (share.share >= 0.1)
                list += fmt::format("{}{} {:.0f} %", list.empty() ? "" : ", ", share.input, 100 * share.share);
        text += wrapped(fmt::format("{}: {} of the doubt. Measure the first again before anything else.",
                                    estimate.field.name, list),
                        "  ", "    ");
    }
    for (const change::Pair& pair : comparison.pairs) {
        if (!pair.ratio || pair.shared.empty()) continue;
        std::string list;
        for (const std::string& input : pair.shared) list += (list.empty() ? "" : ", ") + input;
        text +=
            wrapped(fmt::format("Stated alike for {} and {}, so no doubt about their ratio: {}.",
                                comparison.fields[pair.from].field.name, comparison.fields[pair.to].field.name, list),
                    "  ", "    ");
    }
    return text;
}

std::string remarks(const change::Comparison& comparison) {
    std::string text;
    for (const loss::FieldEstimate& estimate : comparison.fields)
        for (const source::Remark& remark : estimate.remarks)
            text += wrapped(estimate.field.name + ": " + remark.text, "  - ", "    ");
    return text.empty() ? "" : heading("To look at again") + text;
}

}  // namespace

std::string text_report(const change::Comparison& comparison, units::System system) {
    std::string text;
    for (const change::Pair& pair : comparison.pairs) text += answer_of_pair(comparison, pair);
    if (comparison.pairs.empty())
        for (const loss::FieldEstimate& estimate : comparison.fields) text += wrapped(loss_sentence(estimate, system));
    text += losses(comparison, system);
    for (const loss::FieldEstimate& estimate : comparison.fields) text += changes(estimate, system);
    text += what_follows(comparison, system);
    text += factors_side_by_side(comparison, system);
    text += tests_in_text(comparison);
    text += doubt(comparison);
    text += remarks(comparison);
    text += heading("Before you use these figures");
    for (const std::string& caution : cautions()) text += wrapped(caution, "  - ", "    ");
    return text;
}

}  // namespace soilhold::report
