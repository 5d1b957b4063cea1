#include "report/page_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "report/words.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using loss::FieldEstimate;
using units::Kind;
using units::System;

std::string amount(double si, System system) { return units::figures(units::in_unit(Kind::soil_loss, si, system), 2); }

/// "two thirds", "half": a share without a percent sign.
std::string share_in_words(double share) {
    if (share > 0.85) return "nearly all";
    if (share > 0.6) return "about two thirds";
    if (share > 0.42) return "about half";
    if (share > 0.28) return "about a third";
    return "the largest part";
}

std::string against_mark(const spread::Interval& loss, double mark) {
    if (loss.high <= mark) return "The whole likely range lies at or below T.";
    if (loss.low > mark) return "That is still above T.";
    if (loss.central <= mark) return "The middle lies at or below T, but the high end does not.";
    return "The middle is above T, but the low end is not.";
}

std::string capital(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
}

struct Sourced {
    std::string value;
    source::Origin origin;
};

std::vector<Sourced> sourced_values(const FieldEstimate& estimate) {
    const loss::Field& field = estimate.field;
    std::vector<Sourced> list;
    for (const loss::FactorValue& factor : estimate.factors) {
        if (factor.symbol == "R") list.push_back({"rain", factor.origin});
        if (factor.symbol == "K") list.push_back({"soil", factor.origin});
        if (factor.symbol == "m" && estimate.structure.assessment)
            list.push_back({"weight of the soak tests", factor.origin});
        if (factor.symbol == "LS") {
            list.push_back({"slope length", field.slope.length_m.origin});
            list.push_back({"steepness", field.slope.gradient.origin});
            list.push_back({"slope rule", factor.origin});
        }
        if (factor.symbol == "C") list.push_back({"cover", factor.origin});
        if (factor.symbol == "P") list.push_back({"rows and strips", factor.origin});
        const bool in_doubt = factor.value.low < factor.value.high;
        if (in_doubt && factor.spread_origin.from != factor.origin.from)
            list.push_back({"ranges", factor.spread_origin});
    }
    if (field.tolerance) list.push_back({"T", field.tolerance->origin});
    if (estimate.bulk_density > 0) list.push_back({"weight of soil", estimate.bulk_density_origin});
    for (const loss::ChangeResult& change : estimate.changes) {
        if (change.changes_cover) list.push_back({"cover after a change", change.C.origin});
        if (change.changes_practice) list.push_back({"rows after a change", change.P.origin});
        if (change.changes_length) list.push_back({"length after a change", change.LS.origin});
    }
    return list;
}

}  // namespace

std::string held_in_words(const soiltest::SlakeSummary& slake) {
    if (slake.held == 0) return "none";
    return slake.held == slake.clods ? "all" : std::to_string(slake.held);
}

std::string field_sentence(const FieldEstimate& estimate, System system) {
    if (!estimate.loss_over_tolerance || *estimate.loss_over_tolerance >= 1.15) return loss_sentence(estimate, system);
    const char* mark = *estimate.loss_over_tolerance < 0.87 ? "below" : "close to";
    return fmt::format(
        "{} loses {} of soil in an average year (likely {}), {} the planners\xe2\x80\x99 mark T for its soil.",
        estimate.field.name, loss_in_words(estimate.loss.central, system), range_in_words(estimate.loss, system), mark);
}

std::string range_in_words(const spread::Interval& loss, System system) {
    if (units::in_unit(Kind::soil_loss, loss.high, system) < 1.0) return "less than 1 " + loss_unit(system);
    return fmt::format("{} to {} {}", amount(loss.low, system), amount(loss.high, system), loss_unit(system));
}

std::string depth_sentence(const FieldEstimate& estimate, System system) {
    const spread::Interval& depth = estimate.depth_mm_per_year;
    const double layer = system == System::us ? 25.4 : 10.0;
    const char* layer_in_words = system == System::us ? "an inch" : "a centimeter";
    if (!(depth.low > 0) || layer / depth.central > 999 || layer / depth.high < 1) return "";
    const auto years = [&](double mm_per_year) {
        const double number = layer / mm_per_year;
        return number >= 4 && number < 10 ? fmt::format("{:.0f}", number) : units::figures(number, 2);
    };
    return fmt::format("{} loses {} of soil in about {} years (likely {} to {} years).", estimate.field.name,
                       layer_in_words, years(depth.central), years(depth.high), years(depth.low));
}

std::string slope_part_sentence(const FieldEstimate& estimate, System system) {
    const auto& parts = estimate.slope_parts;
    if (parts.empty()) return "";
    const auto most =
        std::max_element(parts.begin(), parts.end(), [](const auto& a, const auto& b) { return a.share < b.share; });
    return fmt::format("On {} {:.0f} % of it comes off part {} of {} from the top: {} of {}.", estimate.field.name,
                       100 * most->share, most - parts.begin() + 1, parts.size(),
                       units::print(Kind::length, most->length_m, system, 2),
                       units::print(Kind::steepness, most->gradient, system, 2));
}

std::string leaving_sentences(const FieldEstimate& estimate, System system) {
    std::string text;
    const auto add = [&](const std::string& who, const std::optional<loss::Leaving>& leaving) {
        if (leaving)
            text += fmt::format("{}{}: about {} leaves the field, the rest is caught below.", text.empty() ? "" : " ",
                                who, range_in_words(leaving->loss, system));
    };
    add(estimate.field.name, estimate.leaving);
    for (const loss::ChangeResult& change : estimate.changes) add(capital(change.name), change.leaving);
    return text;
}

std::string input_in_plain_words(const std::string& input) {
    const auto begins = [&](const char* start) { return input.rfind(start, 0) == 0; };
    if (begins("rain")) return "how hard the rain falls";
    if (begins("soil")) return "how fast this soil washes";
    if (begins("soak")) return "what the soak tests mean in tons";
    if (begins("slope length")) return "how far water runs down the slope";
    if (begins("slope")) return "how steep the slope is";
    if (begins("cover")) return "how well plants and stalks cover the soil";
    if (begins("practice")) return "how much the rows slow the water";
    return input;
}

std::string tests_sentence(const FieldEstimate& estimate) {
    const soiltest::Summary& tests = estimate.tests;
    const std::string& name = estimate.field.name;
    std::string text;
    if (tests.slake)
        text = fmt::format("{} of {} clods of {} held in water.", capital(held_in_words(*tests.slake)),
                           tests.slake->clods, name);
    if (tests.slump)
        text += fmt::format("{}Loose soil of {} held its shape in {} of {} tries.", text.empty() ? "" : " ", name,
                            tests.slump->holds, tests.slump->replicates());
    if (text.empty() && tests.water_stable_pct)
        text = fmt::format("{:.0f} % of the soil of {} stayed in crumbs when wet.", tests.water_stable_pct->mean, name);
    if (text.empty() && tests.mean_weight_diameter_mm)
        text = fmt::format("The wet crumbs of {} are {} mm wide on the whole.", name,
                           units::figures(tests.mean_weight_diameter_mm->mean, 2));
    return text;
}

std::string without_tests_sentence(const std::vector<const FieldEstimate*>& estimates, System system) {
    std::string list;
    for (const FieldEstimate* estimate : estimates) {
        if (!estimate->structure.assessment) continue;
        list += fmt::format("{}{} {}", list.empty() ? "" : " and ", estimate->field.name,
                            loss_in_words(estimate->loss_without_tests.central, system));
    }
    if (list.empty()) return "";
    return "With the tests left out, we would give " + list +
           ". How much they count is our own rule, not a handbook\xe2\x80\x99s.";
}

std::string next_step_sentence(const FieldEstimate& estimate, System system) {
    const loss::ChangeResult* best = nullptr;
    for (const loss::ChangeResult& change : estimate.changes)
        if (change.saved.central > 0 && (!best || change.saved.central > best->saved.central)) best = &change;
    const std::string& name = estimate.field.name;
    if (best) {
        std::string text =
            fmt::format("Talk over this change for {}: {}. The loss would be {} (likely {}).", name, best->name,
                        loss_in_words(best->loss.central, system), range_in_words(best->loss, system));
        if (estimate.tolerance) text += " " + against_mark(best->loss, *estimate.tolerance);
        return best->note.empty() ? text : text + " " + best->note;
    }
    const std::string first = estimate.doubt.empty() ? "cover factor C" : estimate.doubt.front().input;
    return fmt::format("Walk {} and look again at {}. No other figure moves the result as much.", name,
                       input_in_plain_words(first));
}

std::vector<std::string> unknowns(const std::vector<const FieldEstimate*>& estimates, const change::Pair* pair) {
    std::vector<std::string> list;
    std::vector<std::string> said;
    for (const FieldEstimate* estimate : estimates) {
        if (estimate->doubt.empty()) continue;
        const loss::DoubtShare& first = estimate->doubt.front();
        const bool alike = std::all_of(estimates.begin(), estimates.end(), [&](const FieldEstimate* other) {
            return !other->doubt.empty() && other->doubt.front().input == first.input;
        });
        std::string text =
            fmt::format("{} of the doubt{} is in {}.", capital(share_in_words(first.share)),
                        alike ? "" : " about " + estimate->field.name, input_in_plain_words(first.input));
        if (std::find(said.begin(), said.end(), first.input) == said.end()) list.push_back(std::move(text));
        said.push_back(first.input);
    }
    if (pair && pair->ratio) {
        const double ratio_span = pair->ratio->high / pair->ratio->low;
        const bool surer = std::all_of(estimates.begin(), estimates.end(), [&](const FieldEstimate* one) {
            return ratio_span < one->loss.high / one->loss.low;
        });
        if (surer) list.emplace_back("We are surer of how many times than of the tons.");
    }
    if (list.size() < 2) list.emplace_back("We can\xe2\x80\x99t tell what one year or one storm will do.");
    const bool any_tests = std::any_of(estimates.begin(), estimates.end(),
                                       [](const FieldEstimate* one) { return one->structure.assessment.has_value(); });
    if (any_tests) list.emplace_back("A soak test shows how soil stands up to water. It does not weigh tons.");
    return list;
}

std::string sources_line(const std::vector<const FieldEstimate*>& estimates) {
    struct Source {
        std::string from;
        std::vector<std::string> values;
    };
    // By standing, so that its words are said once for all the values that share it.
    std::vector<std::pair<source::Standing, std::vector<Source>>> standings;
    const auto place = [](auto& list, const auto& same, auto made) -> auto& {
        const auto found = std::find_if(list.begin(), list.end(), same);
        return found != list.end() ? *found : list.emplace_back(std::move(made));
    };
    for (const FieldEstimate* estimate : estimates)
        for (const Sourced& one : sourced_values(*estimate)) {
            if (one.origin.from.empty()) continue;
            auto& sources = place(
                                standings, [&](const auto& group) { return group.first == one.origin.standing; },
                                std::pair(one.origin.standing, std::vector<Source>()))
                                .second;
            auto& values = place(
                               sources, [&](const Source& known) { return known.from == one.origin.from; },
                               Source{one.origin.from, {}})
                               .values;
            if (std::find(values.begin(), values.end(), one.value) == values.end()) values.push_back(one.value);
        }
    std::string text;
    for (const auto& [standing, sources] : standings) {
        std::string list;
        for (const Source& source : sources) {
            std::string names;
            for (const std::string& value : source.values) names += (names.empty() ? "" : ", ") + value;
            list += (list.empty() ? "" : "; ") + names + ": " + source.from;
        }
        text += fmt::format("{}{} \xe2\x80\x93 {}.", text.empty() ? "" : " ",
                            capital(std::string(source::words_for(standing))), list);
    }
    return text;
}

}  // namespace soilhold::report
