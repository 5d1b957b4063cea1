// Real ground with C worked through the year: the records of a compilation of measured loss, each beside a prediction
// made by rules that were set before the first was run. The rules, the figures and why they run high: docs/evidence.md.
#include "field/measured_cover.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <set>

namespace soilhold::measured {
namespace {

struct Beside {
    Line record;
    Predicted predicted;
    double measured = 0;  // t/(ha yr)
};

const std::vector<Beside>& all_beside() {
    static const std::vector<Beside> all = [] {
        std::map<std::string, Line> places;
        for (const Line& place : lines_of("measured_places.csv")) places[place.at("place")] = place;
        std::vector<Beside> made;
        for (const Line& record : lines_of("measured_cover.csv"))
            made.push_back(
                {record, predicted(record, places.at(record.at("place"))), number(record, "measured_kg_ha") / 1000});
        return made;
    }();
    return all;
}

using Figure = double (*)(const Predicted&);
double at_gauge(const Predicted& p) { return p.at_gauge; }
double on_slope(const Predicted& p) { return p.on_slope; }
double by_class(const Predicted& p) { return p.by_class; }
double desk(const Predicted& p) { return p.desk; }

bool every(const Line&) { return true; }
bool five_years(const Line& record) { return number(record, "span_years") >= 5; }
bool shorter(const Line& record) { return !five_years(record); }
bool small_plot(const Line& record) { return number(record, "area_ha") < 0.1; }
bool field_size(const Line& record) { return !small_plot(record); }
bool dry(const Line& record) { return number(record, "runoff_mm") < 50; }
bool wet(const Line& record) { return !dry(record); }

struct Agreement {
    double r = 0, within_two = 0, within_three = 0;
    double bias = 0;  // geometric mean of predicted / measured
    double bias_of_median = 0;
    std::size_t records = 0;
};

Agreement agreement(Figure figure, bool (*counts)(const Line&) = every) {
    std::vector<double> x, y, ratios;
    for (const Beside& one : all_beside()) {
        if (!counts(one.record)) continue;
        x.push_back(std::log(one.measured));
        y.push_back(std::log(figure(one.predicted)));
        ratios.push_back(y.back() - x.back());
    }
    Agreement a;
    const auto n = static_cast<double>(x.size());
    a.records = x.size();
    double mx = 0, my = 0, xx = 0, yy = 0, xy = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        mx += x[i] / n;
        my += y[i] / n;
    }
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += (x[i] - mx) * (x[i] - mx);
        yy += (y[i] - my) * (y[i] - my);
        xy += (x[i] - mx) * (y[i] - my);
        a.within_two += (std::abs(ratios[i]) <= std::log(2.0)) / n;
        a.within_three += (std::abs(ratios[i]) <= std::log(3.0)) / n;
    }
    a.r = xy / std::sqrt(xx * yy);
    a.bias = std::exp(my - mx);
    std::sort(ratios.begin(), ratios.end());
    a.bias_of_median = std::exp(ratios[ratios.size() / 2]);
    return a;
}

/// Two tillage classes in one study of one place: geometric means of the class's records.
struct Pair {
    std::string place, study, more, less;  // classes from the most tilled to the least
    double predicted = 0, measured = 0;    // ratio of the less tilled to the more
    bool right() const { return (predicted < 1) == (measured < 1); }
    bool within_two() const { return std::abs(std::log(predicted / measured)) <= std::log(2.0); }
};

std::vector<Pair> pairs_of(Figure figure) {
    std::vector<Pair> pairs;
    std::set<std::string> studies;
    for (const Beside& one : all_beside()) {
        const std::string& study = one.record.at("study");
        if (!studies.insert(one.record.at("place") + study).second) continue;
        std::map<std::string, std::array<double, 3>> sums;  // records, ln predicted, ln measured
        for (const Beside& other : all_beside())
            if (other.record.at("study") == study && other.record.at("place") == one.record.at("place")) {
                auto& sum = sums[other.record.at("class")];
                sum[0] += 1;
                sum[1] += std::log(figure(other.predicted));
                sum[2] += std::log(other.measured);
            }
        const std::vector<std::string> order = {"conventional", "conservation", "no-till"};
        for (std::size_t a = 0; a < 3; ++a)
            for (std::size_t b = a + 1; b < 3; ++b) {
                if (!sums.contains(order[a]) || !sums.contains(order[b])) continue;
                const auto &more = sums[order[a]], &less = sums[order[b]];
                pairs.push_back({one.record.at("place"), study, order[a], order[b],
                                 std::exp(less[1] / less[0] - more[1] / more[0]),
                                 std::exp(less[2] / less[0] - more[2] / more[0])});
            }
    }
    return pairs;
}

double share_right(const std::vector<Pair>& pairs) {
    const auto right = std::count_if(pairs.begin(), pairs.end(), [](const Pair& pair) { return pair.right(); });
    return static_cast<double>(right) / static_cast<double>(pairs.size());
}

double share_within_two(const std::vector<Pair>& pairs) {
    const auto close = std::count_if(pairs.begin(), pairs.end(), [](const Pair& pair) { return pair.within_two(); });
    return static_cast<double>(close) / static_cast<double>(pairs.size());
}

/// Places all of whose pairs are in order.
double share_of_places_right(const std::vector<Pair>& pairs) {
    std::map<std::string, bool> right;
    for (const Pair& pair : pairs) right.try_emplace(pair.place, true).first->second &= pair.right();
    const auto all = std::count_if(right.begin(), right.end(), [](const auto& place) { return place.second; });
    return static_cast<double>(all) / static_cast<double>(right.size());
}

void print(const char* name, const Agreement& a) {
    std::printf(
        "  %-40s %2zu records: r of logs %.2f, within two %.0f %%, within three %.0f %%, bias %.2f, median %.2f\n",
        name, a.records, a.r, 100 * a.within_two, 100 * a.within_three, a.bias, a.bias_of_median);
}

void print_pairs(const char* name, Figure figure) {
    std::printf("  pairs, %s\n", name);
    for (const Pair& pair : pairs_of(figure))
        std::printf("    %-18s %-30s %-12s to %-12s predicted %.2f measured %.2f %s%s\n", pair.place.c_str(),
                    pair.study.c_str(), pair.more.c_str(), pair.less.c_str(), pair.predicted, pair.measured,
                    pair.right() ? "right" : "WRONG", pair.within_two() ? ", within two" : "");
    std::printf("  %s: order right in %.0f %% of pairs, at %.0f %% of places; ratio within two in %.0f %%\n", name,
                100 * share_right(pairs_of(figure)), 100 * share_of_places_right(pairs_of(figure)),
                100 * share_within_two(pairs_of(figure)));
}

TEST(MeasuredCover, IsPrintedBesideWhatWasMeasured) {
    ASSERT_EQ(all_beside().size(), 80U);
    for (const Beside& one : all_beside()) {
        const auto& record = one.record;
        std::printf("  %-4s %-18s %-30s %-13s C %.3f predicted %6.2f (on the slope %6.2f, desk %6.2f) measured %6.2f\n",
                    record.at("id").c_str(), record.at("place").c_str(), record.at("study").c_str(),
                    record.at("class").c_str(), one.predicted.C, one.predicted.at_gauge, one.predicted.on_slope,
                    one.predicted.desk, one.measured);
        EXPECT_GT(one.measured, 0);
        EXPECT_GT(one.predicted.at_gauge, 0);
    }
    print("calendar, at the gauge", agreement(at_gauge));
    print("calendar, on the slope", agreement(on_slope));
    print("one C a class, at the gauge", agreement(by_class));
    print("desk estimate", agreement(desk));
    print("calendar, five years or more", agreement(at_gauge, five_years));
    print("one C a class, five years or more", agreement(by_class, five_years));
    print("desk estimate, five years or more", agreement(desk, five_years));
    print("calendar, shorter", agreement(at_gauge, shorter));
    print("one C a class, shorter", agreement(by_class, shorter));
    print("desk estimate, shorter", agreement(desk, shorter));
    print("calendar, plots below 0.1 ha", agreement(at_gauge, small_plot));
    print("one C a class, plots below 0.1 ha", agreement(by_class, small_plot));
    print("desk estimate, plots below 0.1 ha", agreement(desk, small_plot));
    print("calendar, larger", agreement(at_gauge, field_size));
    print("one C a class, larger", agreement(by_class, field_size));
    print("desk estimate, larger", agreement(desk, field_size));
    print("calendar, runoff below 50 mm a year", agreement(at_gauge, dry));
    print("calendar, runoff from 50 mm a year", agreement(at_gauge, wet));
    print_pairs("calendar", at_gauge);
    print_pairs("one C a class", by_class);
    print_pairs("desk estimate", desk);
}

TEST(MeasuredCover, TheRulesOfLengthAndRainWereAppliedAlikeToAll) {
    std::map<std::string, Line> places;
    for (const Line& place : lines_of("measured_places.csv")) places[place.at("place")] = place;
    for (const Beside& one : all_beside()) {
        const Line& record = one.record;
        const double s = number(record, "slope_pct"), area_m2 = 1e4 * number(record, "area_ha");
        const double length = record.at("terraced") == "1" ? 0.3048 * 100 * (0.6 * s + 2) / s
                              : area_m2 < 1e4              ? std::sqrt(5 * area_m2)
                                                           : 0.5 * std::sqrt(area_m2);
        EXPECT_NEAR(number(record, "length_m"), std::min(90.0, length), 0.06) << record.at("id");
        const Line& place = places.at(record.at("place"));
        double normal = 0, R = number(place, "R_us");
        for (int month = 1; month <= 12; ++month) normal += number(place, "rain" + std::to_string(month) + "_mm");
        if (!record.at("rain_mm").empty()) {
            const double ratio = number(record, "rain_mm") / normal;
            R *= ratio < 0.5 ? ratio : std::pow(ratio, 1.61);
        }
        EXPECT_NEAR(number(record, "R_us"), R, 0.06) << record.at("id");
    }
}

TEST(MeasuredCover, OrdersTheTillageOfFivePlacesInSixRight) {
    const auto pairs = pairs_of(at_gauge);
    EXPECT_EQ(pairs.size(), 13U);
    EXPECT_GE(share_of_places_right(pairs), 0.8);
    EXPECT_GT(share_right(pairs), 11.0 / 15.0);  // what a plain desk estimate had reached before
}

TEST(MeasuredCover, IsNearerTheTonsThanADeskEstimate) {
    const Agreement ours = agreement(at_gauge), of_desk = agreement(desk);
    EXPECT_GT(ours.within_two, of_desk.within_two);
    EXPECT_GT(ours.within_three, of_desk.within_three);
    EXPECT_LT(ours.bias, of_desk.bias);
    EXPECT_GT(ours.within_three, 0.38);  // what a plain desk estimate had reached before, five times too high
    EXPECT_LT(ours.bias, 5);
}

TEST(MeasuredCover, TheCalendarAddsALittleToOneCAClassUnderTheSameRules) {
    const Agreement ours = agreement(at_gauge), of_class = agreement(by_class);
    EXPECT_GT(ours.r, of_class.r);
    EXPECT_GT(ours.within_two, of_class.within_two);
    EXPECT_GT(ours.within_three, of_class.within_three);
    EXPECT_LT(ours.bias, of_class.bias);
    EXPECT_GT(share_within_two(pairs_of(at_gauge)), share_within_two(pairs_of(by_class)));
}

// What docs/evidence.md prints, so that the page can't outlive a change of the calendar. Two of these are no better
// than a desk estimate's: the records' rank (its r of logs was 0.38), and the ratio of the pairs (8 of 15).
TEST(MeasuredCover, StandsAsThePageSays) {
    const Agreement ours = agreement(at_gauge);
    EXPECT_GE(ours.r, 0.275);
    EXPECT_GE(ours.within_two, 0.285);
    EXPECT_GE(ours.within_three, 0.395);
    EXPECT_LE(ours.bias, 3.7);
    const auto pairs = pairs_of(at_gauge);
    EXPECT_GE(share_right(pairs), 12.0 / 13.0 - 1e-9);
    EXPECT_GE(share_within_two(pairs), 6.0 / 13.0 - 1e-9);
}

}  // namespace
}  // namespace soilhold::measured
