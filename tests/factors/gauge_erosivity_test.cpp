#include "factors/gauge_erosivity.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <stdexcept>

#include "factors/erosivity.h"

namespace soilhold::factors {
namespace {

double minute_of(int year, unsigned month, unsigned day) {
    const std::chrono::sys_days days{std::chrono::year{year} / static_cast<int>(month) / static_cast<int>(day)};
    return 1440.0 * static_cast<double>(days.time_since_epoch().count());
}

/// Whole calendar years with one storm of 25 mm in an even hour each July, `times` of the year times over.
GaugeRecord years_of_storms(const std::vector<int>& times) {
    GaugeRecord record;
    int year = 2001;
    for (const int count : times) {
        for (int n = 0; n < count; ++n) {
            const double start = minute_of(year, 7, static_cast<unsigned>(1 + 2 * n));
            record.rain.push_back({start, start + 60, 25});
        }
        ++year;
    }
    record.whole = {minute_of(2001, 1, 1), minute_of(year, 1, 1)};
    return record;
}

const source::Origin school{"gauge of the school", "", source::Standing::users_figure};

bool has(const source::Remarks& remarks, const std::string& code) {
    return std::any_of(remarks.begin(), remarks.end(), [&](const auto& one) { return one.code == code; });
}

TEST(GaugeErosivity, IsTheMeanOfItsYears) {
    // One storm by hand, Handbook 537 in SI (from memory): e = 0.119 + 0.0873 log10 25 = 0.24104 MJ/(ha mm), E = 6.026,
    // I30 = 25 mm/h, EI30 = 150.65. Two, four and six such storms: 301.3, 602.6, 903.9, mean 602.6.
    const auto R = erosivity_of_gauge(gauge_erosivity(years_of_storms({2, 4, 6}), RainEnergy::handbook_537, school));
    EXPECT_NEAR(R.central, 602.6, 0.5);
    EXPECT_EQ(R.origin.citation, "unit-energy-537");
    EXPECT_NE(R.origin.from.find("3 full years (2001 to 2003)"), std::string::npos);
    EXPECT_NE(R.origin.from.find("gauge of the school"), std::string::npos);
}

TEST(GaugeErosivity, HoldsTheEightyPercentOfTheYearsAtHand) {
    const GaugeErosivity gauge = gauge_erosivity(years_of_storms({2, 4, 6}), RainEnergy::brown_foster, school);
    const auto R = erosivity_of_gauge(gauge);
    const double at_10 = spread::at_score(R, -spread::score_of_80_percent);
    const double at_90 = spread::at_score(R, spread::score_of_80_percent);
    EXPECT_NEAR(at_10, gauge.long_term.R_brown_foster.low, 1e-9 * R.central);
    EXPECT_NEAR(at_90, gauge.long_term.R_brown_foster.high, 1e-9 * R.central);
    // By hand: v^2 = (4 x 0.2025 + 0.25 + 0 + 0.25)/6 = 0.21833, t(0.9; 6) = 1.4398 (tables),
    // h = 1.4398 sqrt(ln(1 + 0.21833/3)) = 0.3816.
    EXPECT_NEAR(std::log(at_90 / R.central), 0.3816, 2e-4);
}

TEST(GaugeErosivity, OfOneYearIsFarWiderThanOfTwenty) {
    const auto of = [](std::vector<int> times) {
        const auto R = erosivity_of_gauge(gauge_erosivity(years_of_storms(times), RainEnergy::brown_foster, school));
        return R.high / R.low;
    };
    std::vector<int> twenty(20, 3);
    EXPECT_GT(of({3}), 4);
    EXPECT_LT(of(twenty), 1.6);
}

TEST(GaugeErosivity, OfFewYearsIsACautionAndOfManyANote) {
    const auto weight = [](std::vector<int> times) {
        const auto R = erosivity_of_gauge(gauge_erosivity(years_of_storms(times), RainEnergy::brown_foster, school));
        for (const auto& remark : R.remarks)
            if (remark.code == "rain-gauge") return remark.weight;
        ADD_FAILURE() << "nothing is said of the gauge";
        return source::Weight::note;
    };
    EXPECT_EQ(weight({3, 2}), source::Weight::caution);
    EXPECT_EQ(weight({3, 2, 4, 3, 3, 3}), source::Weight::note);
}

TEST(GaugeErosivity, SaysWhatIsMissingAndDoesNotReadItAsDry) {
    GaugeRecord record = years_of_storms({3, 3});
    record.missing = {{minute_of(2001, 3, 1), minute_of(2001, 3, 11)}};
    const auto R = erosivity_of_gauge(gauge_erosivity(record, RainEnergy::brown_foster, school));
    EXPECT_TRUE(has(R.remarks, "record-missing"));
    // Five weeks are more than a twentieth of the year: it is no full year, and the mean is that of the other alone.
    record.missing = {{minute_of(2001, 7, 2) + 60, minute_of(2001, 8, 10)}};
    const auto gauge = gauge_erosivity(record, RainEnergy::brown_foster, school);
    ASSERT_EQ(gauge.long_term.years.size(), 1U);
    EXPECT_EQ(gauge.long_term.years[0].year, 2002);
}

TEST(GaugeErosivity, RaisesCoarseIntervalsAndSaysSo) {
    GaugeRecord record = years_of_storms({3, 3});
    const double fine = erosivity_of_gauge(gauge_erosivity(record, RainEnergy::brown_foster, school)).central;
    record.fixed_interval_min = 60.0;
    const auto R = erosivity_of_gauge(gauge_erosivity(record, RainEnergy::brown_foster, school));
    EXPECT_NEAR(R.central / fine, 1.730, 1e-9);  // Yin et al. 2007, read
    EXPECT_TRUE(has(R.remarks, "record-interval"));
}

TEST(GaugeErosivity, OfLessThanAYearIsAnErrorThatSaysWhatThereIs) {
    GaugeRecord record = years_of_storms({4});
    record.whole.end_min = minute_of(2001, 9, 1);
    try {
        gauge_erosivity(record, RainEnergy::brown_foster, school);
        FAIL() << "eight months gave an R";
    } catch (const std::invalid_argument& error) {
        EXPECT_NE(std::string(error.what()).find("4 counted storms"), std::string::npos) << error.what();
    }
}

TEST(GaugeErosivity, IsTheErosivityOfThePlace) {
    RainDescription rain;
    rain.gauge = gauge_erosivity(years_of_storms({2, 4, 6}), RainEnergy::brown_foster, school);
    EXPECT_EQ(erosivity(rain).central, erosivity_of_gauge(*rain.gauge).central);
}

TEST(GaugeErosivity, KeepsWhenInTheYearItFalls) {
    // All storms began in the first half of July: the thirteenth half month.
    const auto gauge = gauge_erosivity(years_of_storms({2, 4, 6}), RainEnergy::brown_foster, school);
    EXPECT_DOUBLE_EQ(gauge.half_month_share[12], 1.0);
}

TEST(GaugeErosivity, OfTheSameRainInInchesIsTheSame) {
    GaugeRecord inches = years_of_storms({2, 4, 6});
    for (auto& one : inches.rain) one.depth_mm = (25 / 25.4) * 25.4;
    const auto us = erosivity_of_gauge(gauge_erosivity(inches, RainEnergy::brown_foster, school));
    const auto si = erosivity_of_gauge(gauge_erosivity(years_of_storms({2, 4, 6}), RainEnergy::brown_foster, school));
    EXPECT_NEAR(us.central / si.central, 1.0, 1e-9);
}

}  // namespace
}  // namespace soilhold::factors
