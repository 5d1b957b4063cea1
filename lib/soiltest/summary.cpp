#include "soiltest/summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <stdexcept>

#include "soiltest/fairness_rules.h"
#include "soiltest/rank_test.h"

namespace soilhold::soiltest {

namespace {

using source::Weight;

double mean_of(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

std::optional<double> sd_of(const std::vector<double>& values) {
    if (values.size() < 2) return std::nullopt;
    const double mean = mean_of(values);
    double squares = 0.0;
    for (const double value : values) squares += (value - mean) * (value - mean);
    return std::sqrt(squares / static_cast<double>(values.size() - 1));
}

std::optional<double> standard_error_of(const std::vector<double>& values) {
    const std::optional<double> sd = sd_of(values);
    if (!sd) return std::nullopt;
    return *sd / std::sqrt(static_cast<double>(values.size()));
}

std::optional<MeanSummary> mean_summary(const std::vector<double>& values) {
    if (values.empty()) return std::nullopt;
    return MeanSummary{static_cast<int>(values.size()), mean_of(values), standard_error_of(values), values};
}

std::optional<SlakeSummary> slake_summary(const Record& record) {
    SlakeSummary slake;
    std::vector<double> classes;
    for (const Spot& spot : record.slake_spots)
        for (const Clod& clod : spot.clods) {
            if (clod.held_by_stone_or_root) {
                ++slake.left_out;
                continue;
            }
            if (clod.slake_class < 0 || clod.slake_class > 6)
                throw std::invalid_argument(fmt::format("slake class {}: classes run from 0 to 6", clod.slake_class));
            ++slake.by_class[static_cast<std::size_t>(clod.slake_class)];
            classes.push_back(clod.slake_class);
            slake.floated += clod.floated ? 1 : 0;
            slake.held += clod.slake_class >= 5 ? 1 : 0;
            slake.fell_apart += clod.slake_class <= 3 ? 1 : 0;
        }
    if (classes.empty()) return std::nullopt;
    const std::vector<double> means = spot_means(record);
    slake.clods = static_cast<int>(classes.size());
    slake.spots = static_cast<int>(means.size());
    slake.mean_class = mean_of(means);
    slake.standard_error = standard_error_of(means);
    slake.sd_all_clods = sd_of(classes);
    slake.means = means;
    return slake;
}

std::optional<SlumpSummary> slump_summary(std::vector<SlumpVerdict> verdicts) {
    if (verdicts.empty()) return std::nullopt;
    SlumpSummary slump;
    for (const SlumpVerdict verdict : verdicts) {
        slump.holds += verdict == SlumpVerdict::holds ? 1 : 0;
        slump.partial += verdict == SlumpVerdict::partial ? 1 : 0;
        slump.slurry += verdict == SlumpVerdict::slurry ? 1 : 0;
    }
    std::sort(verdicts.begin(), verdicts.end());  // holds before partial before slurry
    const SlumpVerdict lower = verdicts[(verdicts.size() - 1) / 2], upper = verdicts[verdicts.size() / 2];
    // An even count whose middle pair differs lies between the two: partial is the only verdict that can be meant.
    slump.typical = lower == upper ? lower : SlumpVerdict::partial;
    return slump;
}

std::string lower_case(std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

void remark_on_clods(const SlakeSummary& slake, const std::string& texture_class, source::Remarks& remarks) {
    const FairnessRules& rules = fairness_rules();
    if (slake.clods == 1)
        remarks.push_back({Weight::caution, "single-clod",
                           "One clod was scored. It shows what can happen, but nothing about how much clods vary."});
    else if (slake.clods < rules.clods_for_a_picture)
        remarks.push_back({Weight::caution, "few-clods",
                           fmt::format("Only {} clods were scored: enough for a picture, not for a number ({:.0f}).",
                                       slake.clods, rules.clods_for_a_number)});
    else if (slake.clods < rules.clods_for_a_number)
        remarks.push_back({Weight::caution, "few-clods",
                           fmt::format("{} clods were scored; {:.0f} or more are wanted for a number.", slake.clods,
                                       rules.clods_for_a_number)});
    if (slake.spots == 1 && slake.clods > 1)
        remarks.push_back(
            {Weight::caution, "single-spot",
             "All clods came from one spot. Spots are the replicates, so how much the field varies is not "
             "known."});
    if (slake.by_class[6] == slake.clods &&
        (lower_case(texture_class).find("sand") != std::string::npos || is_gravelly(texture_class)))
        remarks.push_back(
            {Weight::caution, "all-sixes-coarse",
             fmt::format("Every clod scored 6 on {}. Sand and stones can stay on the sieve and pass for a "
                         "stable clod: look at what is left.",
                         texture_class)});
    const int weak = slake.by_class[0] + slake.by_class[1] + slake.by_class[2];
    if (3 * weak >= slake.clods && 3 * slake.held >= slake.clods && slake.clods >= rules.clods_for_a_number)
        remarks.push_back({Weight::note, "clods-of-two-kinds",
                           fmt::format("{} clods fell apart within 30 seconds and {} held; the mean class hides that. "
                                       "Look at the counts.",
                                       weak, slake.held)});
    if (slake.floated > 0)
        remarks.push_back(
            {Weight::caution, "repellent-clods",
             fmt::format("{} of {} clods floated. A clod that sheds water scores 6 whatever its structure.",
                         slake.floated, slake.clods)});
    if (slake.left_out > 0)
        remarks.push_back({Weight::note, "void-clods",
                           fmt::format("{} clod{} held together by a stone or root {} left out.", slake.left_out,
                                       slake.left_out == 1 ? "" : "s", slake.left_out == 1 ? "was" : "were")});
}

void remark_on_handling(const Record& record, const Summary& summary, source::Remarks& remarks) {
    const FairnessRules& rules = fairness_rules();
    const Handling& handling = record.handling;
    if (summary.slake && handling.drying_days && *handling.drying_days < rules.least_drying_days)
        remarks.push_back({Weight::caution, "half-dry",
                           fmt::format("The clods dried for {:g} days, less than the day that is usual. Half-dry clods "
                                       "slake less and look stable.",
                                       *handling.drying_days)});
    if (summary.slump && handling.slump_soak_s &&
        (*handling.slump_soak_s < rules.least_soak_s || *handling.slump_soak_s > rules.most_soak_s))
        remarks.push_back({Weight::caution, "soak-time-unusual",
                           fmt::format("The loose soil soaked {:g} s; {:.0f} to {:.0f} s is usual.",
                                       *handling.slump_soak_s, rules.least_soak_s, rules.most_soak_s)});
    if (record.cloudiness == Cloudiness::strong)
        remarks.push_back(
            {Weight::caution, "possible-dispersion",
             "The water turned strongly cloudy: the clay may be dispersing. Send a sample for sodium before "
             "drawing a conclusion about tillage."});
    if (handling.position == SpotPosition::fencerow || handling.position == SpotPosition::headland)
        remarks.push_back({Weight::caution, "not-the-field",
                           "The sample is from a fencerow or headland: a reference, not the field."});
    if (handling.position == SpotPosition::wheel_track)
        remarks.push_back({Weight::caution, "wheel-track",
                           "The sample is from a wheel track. Pressed clods can stay whole while the field seals."});
    if (handling.days_since_tillage && *handling.days_since_tillage <= rules.recent_tillage_days)
        remarks.push_back(
            {Weight::note, "recent-tillage",
             fmt::format("The ground was tilled {:g} days before sampling; scores move in the weeks after.",
                         *handling.days_since_tillage)});
    if (handling.days_since_rain && *handling.days_since_rain < rules.dry_ground_days)
        remarks.push_back(
            {Weight::note, "recent-rain",
             fmt::format("It rained {:g} days before sampling; wet ground changes the result. Wait {:.0f} "
                         "days.",
                         *handling.days_since_rain, rules.dry_ground_days)});
}

}  // namespace

bool is_sandy(const std::string& texture_class) {
    const std::string texture = lower_case(texture_class);
    // "sand", "fine sand", "loamy sand"; but not "sandy clay" or "sandy loam", where clay binds.
    return texture.size() >= 4 && texture.compare(texture.size() - 4, 4, "sand") == 0;
}

bool is_gravelly(const std::string& texture_class) {
    const std::string texture = lower_case(texture_class);
    for (const char* word : {"gravel", "cobbl", "channery", "stony"})
        if (texture.find(word) != std::string::npos) return true;
    return false;
}

std::vector<double> spot_means(const Record& record) {
    std::vector<double> means;
    for (const Spot& spot : record.slake_spots) {
        int sum = 0, clods = 0;
        for (const Clod& clod : spot.clods)
            if (!clod.held_by_stone_or_root) {
                sum += clod.slake_class;
                ++clods;
            }
        if (clods > 0) means.push_back(static_cast<double>(sum) / clods);
    }
    return means;
}

Summary summarise(const Record& record, const std::string& texture_class) {
    Summary summary;
    summary.slake = slake_summary(record);
    summary.slump = slump_summary(record.slump);
    summary.water_stable_pct = mean_summary(record.water_stable_pct);
    summary.mean_weight_diameter_mm = mean_summary(record.mean_weight_diameter_mm);
    summary.cloudiness = record.cloudiness;
    summary.drying_days = record.handling.drying_days;
    summary.position = record.handling.position;
    if (record.empty()) return summary;
    if (summary.slake) remark_on_clods(*summary.slake, texture_class, summary.remarks);
    remark_on_handling(record, summary, summary.remarks);
    return summary;
}

Difference difference(const Record& first, const std::string& first_name, const Record& second,
                      const std::string& second_name) {
    const std::optional<SlakeSummary> a = slake_summary(first), b = slake_summary(second);
    if (!a || !b) throw std::invalid_argument("a difference needs scored clods of both fields");
    const RankTest test = rank_test(spot_means(first), spot_means(second));
    return {b->mean_class - a->mean_class, test.chance_higher, test.p_value,
            fmt::format("{} of {} clods of '{}' held; {} of {} of '{}' did.", a->held, a->clods, first_name, b->held,
                        b->clods, second_name)};
}

}  // namespace soilhold::soiltest
