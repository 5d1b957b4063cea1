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

struct Agreement {
    double r = 0, within_two = 0, within_three = 0;
    double bias = 0;  // geometric mean of predicted / measured
    double bias_of_median = 0;
    std::size_t records = 0;
};

Agreement agreement(Figure figure, const std::string& without_place = {}) {
    std::vector<double> x, y, ratios;
    for (const Beside& one : all_beside()) {
        if (one.record.at("place") == without_place || one.measured <= 0) continue;
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

void print(const char* name, const Agreement& a) {
    std::printf(
        "  %-34s %zu records: r of logs %.2f, within two %.0f %%, within three %.0f %%, bias %.2f (median %.2f)\n",
        name, a.records, a.r, 100 * a.within_two, 100 * a.within_three, a.bias, a.bias_of_median);
}

TEST(MeasuredCover, TheTable) {
    for (const Beside& one : all_beside())
        std::printf(
            "  %-4s %-18s %-34s %-13s C %.3f  predicted %7.2f (slope %7.2f, class C %7.2f)  measured %7.2f  x %.2f\n",
            one.record.at("id").c_str(), one.record.at("place").c_str(), one.record.at("study").c_str(),
            one.record.at("class").c_str(), one.predicted.C, one.predicted.at_gauge, one.predicted.on_slope,
            one.predicted.by_class, one.measured, one.predicted.at_gauge / one.measured);
    print("calendar, at the gauge", agreement(at_gauge));
    print("calendar, on the slope", agreement(on_slope));
    print("one C a class, at the gauge", agreement(by_class));
    for (const Pair& pair : pairs_of(at_gauge))
        std::printf("  %-18s %-34s %-12s > %-12s predicted %.2f measured %.2f %s %s\n", pair.place.c_str(),
                    pair.study.c_str(), pair.more.c_str(), pair.less.c_str(), pair.predicted, pair.measured,
                    pair.right() ? "right" : "WRONG", pair.within_two() ? "within two" : "");
}

}  // namespace
}  // namespace soilhold::measured
