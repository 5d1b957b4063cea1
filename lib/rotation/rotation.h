/// A crop rotation as a farmer tells it: what was grown, when, which tools went over it, what was left or taken.
///
/// A rotation of N years repeats for ever; a day after the last is the first again, so that winter wheat sown in year 2
/// of a two-year rotation and harvested in year 1 is written just so. Dates are days of a year of 365 days. Every
/// figure that somebody knows better than our tables may be given with its owner; what is left out comes from
/// data/reference/crops.csv, operations.csv and residues.csv. Masses are dry, per hectare.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "source/citation.h"
#include "spread/uncertain.h"

namespace soilhold::rotation {

/// A day of a rotation.
struct Day {
    int year = 1;  ///< of the rotation, 1..N
    int day = 1;   ///< of the year, 1..365; 29 February counts as 28
    auto operator<=>(const Day&) const = default;
};

/// Day of the year of a month (1..12) and a day of it (1..31). @throws std::invalid_argument for a date there is not
int day_of_year(int month, int day_of_month);

/// A crop or a cover crop, from seeding to harvest or death.
struct CropGrown {
    std::string crop;                     ///< a name of crops.csv: "corn", "winter wheat", "cereal rye cover"
    bool cover_crop = false;              ///< grown for the soil; all that it grew stays on the ground
    std::optional<Day> planted;           ///< none: stands all through the rotation, an old stand (sod, pasture)
    std::optional<Day> ended;             ///< harvest of an annual, or the day it was killed or ploughed out; none with
                                          ///< no `planted`
    std::optional<spread::Stated> yield;  ///< harvest, kg/ha as sold; else the crop's usual
    std::optional<spread::Stated> residue;  ///< left at the end, kg/ha, in place of yield x the crop's ratio; for a
                                            ///< cover crop its top growth at its end
    std::optional<spread::Stated> canopy;   ///< share of the ground under the full canopy, 0..1
    std::optional<spread::Stated> height;   ///< m, full grown
    std::optional<spread::Stated> roots;    ///< full grown, kg/ha in the top 4 inches
    source::Origin origin;                  ///< who says that it was grown
};

/// One pass of a tool.
struct OperationDone {
    std::string operation;  ///< a name of operations.csv: "moldboard plow"
    Day on;
    std::optional<spread::Stated> roughness;  ///< random roughness it leaves in rough soil, mm
    std::optional<spread::Stated> left;       ///< share of the residue cover that it leaves, 0..1
    std::optional<spread::Stated> disturbed;  ///< share of the surface that it moves, 0..1
    source::Origin origin;
};

/// Residue baled, burnt or otherwise taken.
struct ResidueRemoved {
    Day on;
    spread::Stated share;  ///< of the mass then on the ground, 0..1; `origin` is its owner
};

/// Straw, manure or mulch brought in.
struct ResidueAdded {
    Day on;
    std::string residue;  ///< a name of residues.csv: "wheat", "manure"
    spread::Stated mass;  ///< dry, kg/ha
};

/// Animals on the field from one day to another.
struct Grazing {
    Day from, to;
    spread::Stated taken;  ///< share of the canopy and of the residue gone when they leave, 0..1
};

struct Rotation {
    std::string name;  ///< "corn-soybean, fall chisel"
    int years = 1;     ///< 1..20
    std::vector<CropGrown> crops;
    std::vector<OperationDone> operations;  ///< those of one day in the order done
    std::vector<ResidueRemoved> removed;
    std::vector<ResidueAdded> added;
    std::vector<Grazing> grazing;
    double residue_effectiveness_b = 0.035;  ///< per % cover: 0.025 where rills do little, 0.035 usual, 0.045-0.050
    source::Origin origin;                   ///< of the whole: the farmer, or the usual dates of a short form
};

inline constexpr std::size_t half_months = 24;
using ByHalfMonth = std::array<double, half_months>;  ///< 1-15 January, 16-31 January, 1-15 February, ...

/// The year's weather in half-months, the same in every year; what the calendar needs of a place.
struct Climate {
    ByHalfMonth temperature_C{};    ///< mean of the half-month
    ByHalfMonth rain_mm{};          ///< sum
    ByHalfMonth erosivity_share{};  ///< of the year's R; they sum to 1 within 0.005
    double erosivity = 0.0;         ///< R of the year, MJ mm/(ha h yr): how fast rain wears roughness down
    source::Origin temperature_origin, rain_origin, erosivity_origin;  ///< erosivity_origin: of the shares
    source::Remarks remarks{};
};

/// One line-transect reading of residue on a known day.
struct TransectReading {
    Day on;
    double cover_pct = 0.0;  ///< 0..100, residue only
    source::Origin origin;
};

/// Which part of a rotation a problem lies in, for a reader of files to point at.
enum class Part { rotation, crop, operation, removed, added, grazing };

struct Problem {
    Part part = Part::rotation;
    std::size_t index = 0;  ///< in the vector of that part
    std::string code;       ///< stable: "unknown-crop"
    std::string text;       ///< a plain sentence with what would be right
};

/// What cannot be worked with: unknown names (with the nearest one), days outside the rotation, shares outside 0..1,
/// ...
std::vector<Problem> problems_of(const Rotation& rotation);

/// First day (1..365) of half-month i, 0..23; for i = 24 it is 366.
int first_day(std::size_t half_month);

/// The half-month, 0..23, of a day of the year.
std::size_t half_month_of(int day);

}  // namespace soilhold::rotation
