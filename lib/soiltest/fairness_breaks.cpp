#include "soiltest/fairness_breaks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <utility>

#include "soiltest/fairness_rules.h"
#include "soiltest/summary.h"

namespace soilhold::soiltest {

namespace {

/// Room for the rounding of 0.06 - 0.04 and of inches turned into mm.
constexpr double rounding = 1e-9;

/// "Rain water " and "rain water" are the same answer.
std::string plain(const std::string& text) {
    std::string result;
    for (const char c : text) {
        const bool space = std::isspace(static_cast<unsigned char>(c)) != 0;
        if (space && (result.empty() || result.back() == ' ')) continue;
        result += space ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
    if (!result.empty() && result.back() == ' ') result.pop_back();
    return result;
}

std::string days(double number) {
    if (number < 1.0) return fmt::format("{:.0f} hours", 24.0 * number);
    return fmt::format("{:.3g} day{}", number, number == 1.0 ? "" : "s");
}

/// Adds `words` to the unrecorded list unless both sides have the value; true when both have.
bool both(bool first, bool second, const char* words, Breaks& breaks) {
    if (first && second) return true;
    breaks.not_recorded.emplace_back(words);
    return false;
}

std::string text_of(const std::chrono::year_month_day& date) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                       static_cast<unsigned>(date.day()));
}

void judge_drying(const Handling& a, const Handling& b, bool needed, Breaks& breaks) {
    if (!a.drying_days || !b.drying_days) {
        if (needed) breaks.not_recorded.emplace_back("drying time");
        return;
    }
    const FairnessRules& rules = fairness_rules();
    const double x = *a.drying_days, y = *b.drying_days;
    const bool x_dry = x >= rules.least_drying_days, y_dry = y >= rules.least_drying_days;
    const std::string redo =
        "Air-dry both on one tray in the shade until the weight no longer changes, at least a day.";
    if (x_dry != y_dry)
        breaks.hard(
            "moisture-differs",
            fmt::format("One was dried for {} and the other for {}: half-dry soil looks stable.", days(x), days(y)),
            redo);
    else if (!x_dry && needed)
        breaks.hard("both-half-dry",
                    fmt::format("Both were dried for less than a day ({} and {}): half-dry clods look stable.", days(x),
                                days(y)),
                    redo);
    else if (x_dry && std::abs(x - y) > rules.drying_difference_days + rounding)
        breaks.soft("drying-differs", fmt::format("One was dried for {}, the other for {}.", days(x), days(y)), redo);
}

void judge_date(const Handling& a, const Handling& b, bool needed, Breaks& breaks) {
    if (!a.date || !b.date || !a.date->ok() || !b.date->ok()) {
        if (needed) breaks.not_recorded.emplace_back("date of sampling");
        return;
    }
    const auto apart = std::abs((std::chrono::sys_days(*a.date) - std::chrono::sys_days(*b.date)).count());
    if (static_cast<double>(apart) > fairness_rules().date_difference_days)
        breaks.soft("dates-apart",
                    fmt::format("Sampled on {} and on {}, {} days apart; stability moves with season and weather.",
                                text_of(*a.date), text_of(*b.date), apart),
                    fmt::format("Sample both within {:.0f} days.", fairness_rules().date_difference_days));
}

void judge_depth(const Handling& a, const Handling& b, bool needed, Breaks& breaks) {
    if (!a.depth_bottom_mm || !b.depth_bottom_mm) {
        if (needed) breaks.not_recorded.emplace_back("sampling depth");
        return;
    }
    const double a_top = a.depth_top_mm.value_or(0.0), b_top = b.depth_top_mm.value_or(0.0);
    const double allowed = fairness_rules().depth_difference_mm + rounding;
    if (std::abs(a_top - b_top) > allowed || std::abs(*a.depth_bottom_mm - *b.depth_bottom_mm) > allowed)
        breaks.hard("depth-differs",
                    fmt::format("One was taken from {:.0f} to {:.0f} mm, the other from {:.0f} to {:.0f} mm.", a_top,
                                *a.depth_bottom_mm, b_top, *b.depth_bottom_mm),
                    "Take both from one depth, the top 0 to 50 mm (2 in).");
}

void judge_clod_size(const Handling& a, const Handling& b, Breaks& breaks) {
    const auto known = [](const Handling& h) { return h.clod_least_mm.has_value() || h.clod_most_mm.has_value(); };
    if (!both(known(a), known(b), "clod size", breaks)) return;
    const auto range = [](const Handling& h) {
        const double low = h.clod_least_mm.value_or(h.clod_most_mm.value_or(0.0));
        return std::pair(low, h.clod_most_mm.value_or(low));
    };
    const auto [a_low, a_high] = range(a);
    const auto [b_low, b_high] = range(b);
    const double shared = std::min(a_high, b_high) - std::max(a_low, b_low);
    const double span = std::max(a_high, b_high) - std::min(a_low, b_low);
    const std::string sizes = fmt::format("{:g} to {:g} mm and {:g} to {:g} mm", a_low, a_high, b_low, b_high);
    const std::string redo = "Sort both with one sieve or template (6 to 8 mm).";
    if (shared < -rounding)
        breaks.hard("clod-size-differs",
                    fmt::format("The clods are of other sizes ({}); bigger ones slake differently.", sizes), redo);
    else if (shared < fairness_rules().clod_size_overlap * span - rounding)
        breaks.soft("clod-size-partly", fmt::format("The clod sizes only partly agree ({}).", sizes), redo);
}

void judge_tillage(const Handling& a, const Handling& b, Breaks& breaks) {
    const auto recent = [](const Handling& h) {
        return h.days_since_tillage && *h.days_since_tillage <= fairness_rules().recent_tillage_days;
    };
    if (recent(a) == recent(b)) return;
    const Handling& other = recent(a) ? b : a;
    if (!other.days_since_tillage) {
        breaks.not_recorded.emplace_back("days since tillage");
        return;
    }
    breaks.hard(
        "recent-tillage-differs",
        fmt::format("One was sampled {} after tillage, the other {} after.",
                    days(recent(a) ? *a.days_since_tillage : *b.days_since_tillage), days(*other.days_since_tillage)),
        fmt::format("Sample before tillage, or when both have lain for more than {:.0f} days.",
                    fairness_rules().recent_tillage_days));
}

void judge_position(const Handling& a, const Handling& b, Breaks& breaks) {
    const auto words = [](SpotPosition position) {
        switch (position) {
            case SpotPosition::fencerow:
                return "a fencerow";
            case SpotPosition::headland:
                return "a headland";
            case SpotPosition::wheel_track:
                return "a wheel track";
            case SpotPosition::field:
                return "the open field";
            case SpotPosition::not_recorded:
                return "a place not recorded";
        }
        return "a place not recorded";
    };
    const auto off = [](SpotPosition position) {
        return position == SpotPosition::fencerow || position == SpotPosition::headland ||
               position == SpotPosition::wheel_track;
    };
    if (off(a.position) || off(b.position))
        breaks.soft(
            "spot-position",
            fmt::format("One sample is from {}, the other from {}; an edge or a track does not stand for its field.",
                        words(a.position), words(b.position)),
            "Sample inside the field, 50 ft (15 m) or more from its edge, off wheel tracks.");
}

void judge_same_words(const std::string& a, const std::string& b, const char* code, const char* noun, const char* redo,
                      Breaks& breaks) {
    const std::string x = plain(a), y = plain(b);
    if (both(!x.empty(), !y.empty(), noun, breaks) && x != y)
        breaks.soft(code, fmt::format("The {} differs: '{}' and '{}'.", noun, a, b), redo);
}

void judge_clod_counts(const SlakeSummary& a, const SlakeSummary& b, Breaks& breaks) {
    const FairnessRules& rules = fairness_rules();
    const double fewest = std::min(a.clods, b.clods);
    const std::string redo = "Score 18 clods from each field: 6 from each of 3 spots; 9 at the least.";
    if (fewest < rules.clods_for_a_picture)
        breaks.hard("picture-only",
                    fmt::format("{} and {} clods were scored: with fewer than {:.0f} there is a picture and no number.",
                                a.clods, b.clods, rules.clods_for_a_picture),
                    redo);
    else if (fewest < rules.clods_for_a_number)
        breaks.soft("few-clods",
                    fmt::format("{} and {} clods were scored; {:.0f} or more of each are wanted.", a.clods, b.clods,
                                rules.clods_for_a_number),
                    redo);
    if (2 * a.floated > a.clods || 2 * b.floated > b.clods)
        breaks.soft("repellent-clods",
                    fmt::format("{} of {} and {} of {} clods floated: a clod that sheds water scores high whatever its "
                                "structure.",
                                a.floated, a.clods, b.floated, b.clods),
                    "");
}

void judge_slump(const Handling& a, const Handling& b, bool alone, Breaks& breaks) {
    const FairnessRules& rules = fairness_rules();
    if (a.slump_soak_s && b.slump_soak_s) {
        const double x = *a.slump_soak_s, y = *b.slump_soak_s;
        const auto usual = [&](double s) { return s >= rules.least_soak_s && s <= rules.most_soak_s; };
        if (!usual(x) || !usual(y))
            breaks.soft(
                "soak-time-differs",
                fmt::format("The loose soil soaked {:g} s and {:g} s; {:.0f} to {:.0f} s is usual.", x, y,
                            rules.least_soak_s, rules.most_soak_s),
                fmt::format("Soak both for the same {:.0f} to {:.0f} s.", rules.least_soak_s, rules.most_soak_s));
    } else if (alone) {
        breaks.not_recorded.emplace_back("soak time");
    }
    if (a.days_since_rain && b.days_since_rain &&
        (*a.days_since_rain < rules.dry_ground_days) != (*b.days_since_rain < rules.dry_ground_days))
        breaks.soft("rain-differs",
                    fmt::format("One was dug {} after rain, the other {} after.", days(*a.days_since_rain),
                                days(*b.days_since_rain)),
                    fmt::format("Dig both on one day, {:.0f} days or more after rain.", rules.dry_ground_days));
}

}  // namespace

void Breaks::hard(std::string code, std::string text, std::string redo) {
    reasons.push_back({std::move(code), std::move(text), std::move(redo), true});
}

void Breaks::soft(std::string code, std::string text, std::string redo) {
    reasons.push_back({std::move(code), std::move(text), std::move(redo), false});
}

void judge_ground(const Site& first, const Site& second, bool tested, Breaks& breaks) {
    const FairnessRules& rules = fairness_rules();
    const std::string pair_up = "Pair two fields of one map unit, or of one texture and nearly one K.";
    const std::string a = plain(first.texture_class), b = plain(second.texture_class);
    const std::string a_unit = plain(first.map_unit), b_unit = plain(second.map_unit);
    const bool one_unit = !a_unit.empty() && a_unit == b_unit;
    const bool k_known = first.erodibility_us && second.erodibility_us;
    if (!a.empty() && !b.empty() && a != b)
        breaks.hard("texture-differs",
                    fmt::format("The soils are {} and {}; clods of other textures slake differently.",
                                first.texture_class, second.texture_class),
                    pair_up);
    if (!one_unit && k_known &&
        std::abs(*first.erodibility_us - *second.erodibility_us) > rules.erodibility_difference_us + rounding)
        breaks.hard("soil-differs",
                    fmt::format("K is {:.2f} and {:.2f} (US): more than {:.2f} apart, so these are two soils.",
                                *first.erodibility_us, *second.erodibility_us, rules.erodibility_difference_us),
                    pair_up);
    // Untested fields whose K agree need no more: the estimate knows the soil by K alone.
    const bool same_texture_and_k = !a.empty() && a == b && k_known;
    if (!one_unit && !same_texture_and_k && (a.empty() || b.empty() || a == b) && (tested || !k_known))
        breaks.not_recorded.emplace_back("soil (map unit, or texture and K)");
    if (first.gradient && second.gradient &&
        std::abs(*first.gradient - *second.gradient) > rules.gradient_difference + rounding)
        breaks.hard("slope-differs",
                    fmt::format("The slopes are {:.3g} % and {:.3g} %, more than {:.0f} points apart.",
                                100.0 * *first.gradient, 100.0 * *second.gradient, 100.0 * rules.gradient_difference),
                    "Pair hillsides whose slopes lie within two points.");
}

void judge_tests(const Record& first, const Record& second, Breaks& breaks) {
    if (first.empty() || second.empty()) {
        breaks.soft("one-side-untested", "Only one of the two fields was tested.",
                    "Test the other field the same way, on the same day.");
        return;
    }
    const Summary a = summarise(first, ""), b = summarise(second, "");
    const bool clods = a.slake && b.slake, loose = a.slump && b.slump;
    const bool laboratory =
        (a.water_stable_pct && b.water_stable_pct) || (a.mean_weight_diameter_mm && b.mean_weight_diameter_mm);
    if (!clods && !loose && !laboratory) {
        breaks.soft("tests-differ", "The two fields were not tested by the same test.",
                    "Use one test for both fields, and the same people and water.");
        return;
    }
    const Handling &x = first.handling, &y = second.handling;
    judge_drying(x, y, clods, breaks);
    judge_date(x, y, clods || loose, breaks);
    judge_depth(x, y, clods, breaks);
    judge_tillage(x, y, breaks);
    judge_position(x, y, breaks);
    if (clods) {
        judge_clod_size(x, y, breaks);
        judge_same_words(x.water, y.water, "water-differs", "water", "Soak both in one jug of distilled or rain water.",
                         breaks);
        judge_same_words(x.scorer, y.scorer, "scorer-differs", "scorer",
                         "Let one person score both, without knowing which is which.", breaks);
        judge_clod_counts(*a.slake, *b.slake, breaks);
    }
    if (loose) judge_slump(x, y, !clods, breaks);
    if (first.cloudiness == Cloudiness::strong || second.cloudiness == Cloudiness::strong)
        breaks.soft("possible-dispersion",
                    "The water turned strongly cloudy: clay may be dispersing, which is another trouble than slaking.",
                    "Send a sample for sodium before drawing a conclusion about tillage.");
}

}  // namespace soilhold::soiltest
