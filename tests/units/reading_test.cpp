#include "units/reading.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "units/printing.h"

namespace soilhold::units {
namespace {

using testing::HasSubstr;

std::string message(Kind kind, const std::string& text) {
    try {
        read(kind, text);
    } catch (const ReadingError& error) {
        return error.what();
    }
    return "(was read)";
}

TEST(Reading, FeetBecomeMetres) {
    EXPECT_DOUBLE_EQ(read(Kind::length, "200 ft").si, 60.96);  // the international foot is 0.3048 m by definition
    EXPECT_DOUBLE_EQ(read(Kind::length, "200ft").si, 60.96);
    EXPECT_DOUBLE_EQ(read(Kind::length, "  61 m ").si, 61.0);
}

TEST(Reading, SixDegreesIsTenAndAHalfPercent) {
    // tan 6 degrees = 0.10510, any table of tangents
    EXPECT_NEAR(read(Kind::steepness, "6 degrees").si, 0.10510, 5e-6);
    EXPECT_NEAR(read(Kind::steepness, "6°").si, 0.10510, 5e-6);
    EXPECT_DOUBLE_EQ(read(Kind::steepness, "6 %").si, 0.06);
}

TEST(Reading, TheUnitsOfTheEquationMatchTheirPublishedFactors) {
    // Foster, McCool, Renard & Moldenhauer 1981, J. Soil Water Conserv. 36:355-359: 17.02, 0.1317, 2.242; from memory
    EXPECT_NEAR(read(Kind::erosivity, "1 US").si, 17.02, 0.005);
    EXPECT_NEAR(read(Kind::erodibility, "1 US").si, 0.1317, 0.00005);
    EXPECT_NEAR(read(Kind::soil_loss, "1 t/ac/yr").si, 2.242, 0.0005);
    // the same paper: 0.006701 MJ/ha per ft tonf/acre; from memory
    EXPECT_NEAR(mj_ha_per_ft_tonf_acre, 0.006701, 0.0000005);
}

TEST(Reading, AUsedUnitGivesTheLossOfTheOtherSystem) {
    // A = R K LS C P holds in both systems: R and K of 1 US make 1 ton/acre.
    EXPECT_NEAR(read(Kind::erosivity, "175 US").si * read(Kind::erodibility, "0.37 US").si,
                read(Kind::soil_loss, "64.75 t/ac/yr").si, 1e-9);
}

TEST(Reading, ABareNumberShowsBothReadings) {
    EXPECT_THAT(message(Kind::length, "200"), HasSubstr("200 ft (61.0 m) or 200 m (656 ft)"));
    EXPECT_THAT(message(Kind::erosivity, "175"), HasSubstr("175 US (2980 SI) or 175 SI (10.3 US)"));
    EXPECT_THAT(message(Kind::steepness, "6"), HasSubstr("6 degrees is 10.5 %"));
}

TEST(Reading, ACommaIsNeverGuessedAt) {
    EXPECT_THAT(message(Kind::length, "1,200 ft"), HasSubstr("comma"));
    EXPECT_THAT(message(Kind::small_length, "8,5 mm"), HasSubstr("comma"));
}

TEST(Reading, NothingThatIsNoNumberPasses) {
    for (const char* text : {"", "NA", "nan ft", "inf ft", ".nan", "ft", "1.2.3 ft", "--3 ft", "1e999 ft"})
        EXPECT_THROW(read(Kind::length, text), ReadingError) << text;
}

TEST(Reading, AUnitOfAnotherKindIsNamed) {
    EXPECT_THAT(message(Kind::length, "200 ac"), HasSubstr("ac measures area"));
    EXPECT_THAT(message(Kind::length, "200 furlongs"), HasSubstr("no unit 'furlongs'"));
}

TEST(Reading, ARangeNeedsItsUnitOnce) {
    const auto [low, high] = read_range(Kind::small_length, "6 to 8 mm");
    EXPECT_DOUBLE_EQ(low.si, 6);
    EXPECT_DOUBLE_EQ(high.si, 8);
    const auto [top, bottom] = read_range(Kind::small_length, "0 in to 2 in");
    EXPECT_DOUBLE_EQ(top.si, 0);
    EXPECT_DOUBLE_EQ(bottom.si, 50.8);
    EXPECT_THROW(read_range(Kind::small_length, "8 to 6 mm"), ReadingError);
    EXPECT_THROW(read_range(Kind::small_length, "8 mm"), ReadingError);
}

TEST(Reading, WhatIsPrintedReadsBackAsTheSame) {
    for (const Kind kind :
         {Kind::length, Kind::rain_depth, Kind::steepness, Kind::area, Kind::soil_loss, Kind::erosivity,
          Kind::erodibility, Kind::bulk_density, Kind::share, Kind::mass_per_area, Kind::duration})
        for (const System system : {System::us, System::metric})
            EXPECT_TRUE(rc::check("print then read", [=] {
                const double si = *rc::gen::inRange(1, 1000000) / 997.0;
                const double back = read(kind, print(kind, si, system, 15)).si;
                RC_ASSERT(std::abs(back - si) <= 1e-11 * si);
            }));
}

TEST(Reading, NoTextMakesItCrash) {
    EXPECT_TRUE(rc::check("any text is read or refused", [](const std::string& text) {
        try {
            const Reading reading = read(Kind::length, text);
            RC_ASSERT(std::isfinite(reading.si));
        } catch (const ReadingError&) {
        }
    }));
}

TEST(Printing, TwoFiguresAndNoExponent) {
    EXPECT_EQ(figures(21.77, 2), "22");
    EXPECT_EQ(figures(9.96, 2), "10");
    EXPECT_EQ(figures(0.0487, 2), "0.049");
    EXPECT_EQ(figures(871.3, 2), "870");
    EXPECT_EQ(figures(2978.4, 4), "2978");
    EXPECT_EQ(figures(0, 2), "0");
}

}  // namespace
}  // namespace soilhold::units
