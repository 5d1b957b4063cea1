#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <ctime>

#include "places.h"
#include "rotation/cover_calendar.h"
#include "rotation/edits.h"
#include "rotation/short_forms.h"

namespace soilhold::rotation {
namespace {

int whole(int from, int before) { return *rc::gen::inRange(from, before); }

std::string one_of(const std::vector<std::string>& words) {
    return words[static_cast<std::size_t>(whole(0, static_cast<int>(words.size())))];
}

/// A rotation of the trade in short form.
std::string usual_words() {
    std::string crops;
    for (int year = whole(1, 5); year > 0; --year)
        crops += (crops.empty() ? "" : "-") + one_of({"corn", "soybean", "wheat", "oats", "sorghum", "alfalfa"});
    return crops + ", " + one_of(tillage_words());
}

/// Anything on any day.
Rotation wild_rotation() {
    Rotation rotation;
    rotation.years = whole(1, 5);
    const auto day = [&] { return Day{whole(1, rotation.years + 1), whole(1, 366)}; };
    for (int n = whole(1, 4); n > 0; --n) {
        CropGrown grown;
        grown.crop = all_crops()[static_cast<std::size_t>(whole(0, static_cast<int>(all_crops().size())))].name;
        grown.planted = day();
        grown.ended = later(*grown.planted, whole(1, 365 * rotation.years), rotation.years);
        if (whole(0, 2) == 0) grown.yield = spread::Stated{static_cast<double>(whole(0, 40000)), {}, {}};
        rotation.crops.push_back(grown);
    }
    for (int n = whole(0, 9); n > 0; --n)
        rotation.operations.push_back(
            {all_operations()[static_cast<std::size_t>(whole(0, static_cast<int>(all_operations().size())))].name,
             day(),
             {},
             {},
             {},
             {}});
    if (whole(0, 2) == 0) rotation.removed.push_back({day(), {whole(0, 101) / 100.0, {}, {}}});
    if (whole(0, 2) == 0) rotation.added.push_back({day(), "straw", {whole(0, 9000) * 1.0, {}, {}}});
    if (whole(0, 2) == 0) {
        const Day from = day();
        rotation.grazing.push_back({from, later(from, whole(1, 200), rotation.years), {whole(0, 90) / 100.0, {}, {}}});
    }
    return rotation;
}

Climate any_climate() {
    Weather weather;
    weather.mean_temperature_C = whole(-2, 27);
    weather.temperature_amplitude_C = whole(0, 18);
    ByMonth rain{};
    for (double& month : rain) month = whole(2, 220);
    weather.month_rain_mm = rain;
    weather.erosivity = whole(100, 12000);
    return climate_of(weather);
}

TEST(CoverCalendarProperties, CLiesAboveNoneAndAtMost1_2) {
    EXPECT_TRUE(rc::check([] {
        const Calendar calendar = cover_calendar(wild_rotation(), any_climate());
        RC_ASSERT(calendar.C > 0.0);
        RC_ASSERT(calendar.C <= 1.2);
        RC_ASSERT(calendar.mean_consolidation >= 0.45 && calendar.mean_consolidation <= 1.0);
        for (const CalendarRow& row : calendar.rows) {
            RC_ASSERT(row.cover_pct >= 0 && row.cover_pct <= 100 + 1e-9);
            RC_ASSERT(row.canopy >= -1e-12 && row.canopy <= 1 + 1e-9);
            RC_ASSERT(row.residue_on_kg_ha >= 0 && row.residue_in_kg_ha >= 0 && row.roots_kg_ha >= 0);
        }
    }));
}

TEST(CoverCalendarProperties, HalvedStepsChangeCByLessThanTwoPercent) {
    EXPECT_TRUE(rc::check([] {
        const Rotation rotation = wild_rotation();
        const Climate climate = any_climate();
        const double C = cover_calendar(rotation, climate).C;
        const double halved = cover_calendar(rotation, climate, {}, {}, 2.5).C;
        RC_ASSERT(std::abs(halved / C - 1.0) < 0.02);
    }));
}

// On smooth ground under thick residue these equations take more from the residue than roughness gives
// (docs/factors.md), and more biomass keeps more roughness: at most some 5 % of C.
constexpr double interaction = 1.05;

TEST(CoverCalendarProperties, MoreResidueNeverRaisesC) {
    EXPECT_TRUE(rc::check([] {
        const Rotation rotation = rotation_of_words(usual_words());
        const Climate climate = any_climate();
        Adjustments more;
        more.residue = 1.0 + whole(5, 100) / 100.0;
        RC_ASSERT(cover_calendar(rotation, climate, more).C <= interaction * cover_calendar(rotation, climate).C);
    }));
}

TEST(CoverCalendarProperties, LaterTillageNeverRaisesCWhereThereIsResidueToKeep) {
    EXPECT_TRUE(rc::check([] {
        const std::string crops = one_of({"continuous corn", "corn-soybean", "corn-sorghum", "oats-corn"});
        const Rotation autumn = rotation_of_words(crops + one_of({", fall plow", ", fall chisel", ", fall disk"}));
        Weather weather = corn_belt_weather();
        weather.mean_temperature_C = whole(4, 14);
        weather.temperature_amplitude_C = whole(8, 16);
        weather.month_temperature_C.reset();
        const Climate climate = climate_of(weather);
        const double C = cover_calendar(autumn, climate).C;
        RC_ASSERT(cover_calendar(tillage_in_spring(autumn).rotation, climate).C <= interaction * C);
    }));
}

TEST(CoverCalendarProperties, ALongerCoverCropNeverRaisesC) {
    EXPECT_TRUE(rc::check([] {
        const std::string crops = one_of({"continuous corn", "corn-soybean", "corn silage"});
        const Rotation bare = rotation_of_words(crops + one_of({", no-till", ", spring chisel", ", strip-till"}));
        const std::string after = bare.crops[0].crop;
        const int early = whole(10, 50), late = whole(0, early);
        // Without tillage that waits for the end of the cover crop: the soil is moved on the same days.
        const Rotation untilled = no_till(bare).rotation;
        const double C_early =
            cover_calendar(cover_crop_after(untilled, after, "cereal rye cover", early).rotation, corn_belt()).C;
        const double C_late =
            cover_calendar(cover_crop_after(untilled, after, "cereal rye cover", late).rotation, corn_belt()).C;
        RC_ASSERT(C_late <= interaction * C_early);
    }));
}

TEST(CoverCalendarProperties, AThousandRotationsOfSixYearsTakeNoTimeToSpeakOf) {
    // A second of one core, in an optimised build; a build that looks for bugs is let off.
#if defined(NDEBUG) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
    constexpr double allowed_s = 1.0;
#else
    constexpr double allowed_s = 30.0;
#endif
    Rotation rotation = rotation_of_words("corn-corn-oats-alfalfa-alfalfa-alfalfa, fall plow");
    const Climate climate = corn_belt();
    double sum = 0;
    const std::clock_t begin = std::clock();
    for (int i = 0; i < 1000; ++i) {
        rotation.operations[0].on.day = 300 + i % 20;
        sum += cover_calendar(rotation, climate).C;
    }
    const double seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    RecordProperty("milliseconds", static_cast<int>(1000 * seconds));
    EXPECT_GT(sum, 0);
    EXPECT_LT(seconds, allowed_s);
}

}  // namespace
}  // namespace soilhold::rotation
