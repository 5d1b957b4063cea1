#include "rotation/rotation_cover.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "rotation/canopy.h"
#include "source/reference_table.h"

namespace soilhold::rotation {

namespace {

using source::in_working;

// No ground is without loss; the least C of handbook tables is 0.0001.
constexpr double least_C = 0.0001, most_C = 1.2;

/// The adjustment that a row of doubts moves; none for those that move C itself.
double* part_of(Adjustments& adjustments, const std::string& part) {
    if (part == "residue" || part == "residue-read") return &adjustments.residue;
    if (part == "left" || part == "left-read") return &adjustments.left;
    if (part == "decay") return &adjustments.decay;
    if (part == "roots") return &adjustments.roots;
    if (part == "growth") return &adjustments.growth;
    if (part == "canopy-height") return &adjustments.fall_height;
    if (part == "roughness") return &adjustments.roughness;
    if (part == "residue-effectiveness") return &adjustments.residue_effectiveness;
    if (part == "consolidation") return &adjustments.consolidation;
    return nullptr;
}

/// The range of the residue where the farmer gave one for every crop that is harvested, as factors; the widest of them.
std::optional<spread::Range> given_range(const Rotation& rotation) {
    std::optional<spread::Range> widest;
    for (const CropGrown& grown : rotation.crops) {
        const Crop& crop = crop_of(grown.crop);
        if (grown.cover_crop || crop.kind == "cover" || crop.kind == "perennial") continue;
        if (!grown.residue || !grown.residue->range || !(grown.residue->value > 0)) return std::nullopt;
        const double low = grown.residue->range->low / grown.residue->value;
        const double high = grown.residue->range->high / grown.residue->value;
        widest =
            widest ? spread::Range{std::min(low, widest->low), std::max(high, widest->high)} : spread::Range{low, high};
    }
    return widest;
}

std::vector<Doubt> doubts_of(const Rotation& rotation, const Climate& climate, const Adjustments& central, double C,
                             bool read) {
    std::vector<Doubt> doubts;
    for (const source::Row& row : source::table("rotation-doubts").rows) {
        const std::string& part = row.text("doubt");
        if (part == (read ? "residue" : "residue-read") || part == (read ? "left" : "left-read")) continue;
        Doubt doubt{part, row.number("low"), row.number("high"), C, C};
        if (const auto given = given_range(rotation); given && part == "residue") {
            doubt.low = given->low;
            doubt.high = given->high;
        }
        for (const auto& [by, moved] : {std::pair{doubt.low, &doubt.C_low}, std::pair{doubt.high, &doubt.C_high}}) {
            Adjustments adjustments = central;
            if (double* one = part_of(adjustments, part)) {
                *one *= by;
                *moved = cover_calendar(rotation, climate, adjustments).C;
            } else {
                *moved = by * C;
            }
        }
        doubts.push_back(doubt);
    }
    return doubts;
}

/// What the weather of the place comes to in a year, for whose figures it is.
void say_weather(const Climate& climate, source::Steps& steps) {
    double mean = 0, rain = 0;
    std::size_t most = 0;
    for (std::size_t i = 0; i < half_months; ++i) {
        mean += climate.temperature_C[i] * (first_day(i + 1) - first_day(i)) / 365.0;
        rain += climate.rain_mm[i];
        if (climate.erosivity_share[i] > climate.erosivity_share[most]) most = i;
    }
    const auto say = [&](const char* symbol, std::string words, double value, const char* unit,
                         const source::Origin& origin) {
        if (!origin.from.empty()) steps.push_back({symbol, std::move(words), "", "", value, unit, origin});
    };
    say("warmth", "temperature of the place, mean of the year", mean, "C", climate.temperature_origin);
    say("rain", "rain of the place, a year", rain, "mm", climate.rain_origin);
    say("peak",
        "erosivity of the year that falls in its most erosive half-month, no. " + std::to_string(most + 1) + " of 24",
        100.0 * climate.erosivity_share[most], "%", climate.erosivity_origin);
}

source::Steps steps_of(const Rotation& rotation, const Climate& climate, const RotationCover& result,
                       const std::optional<TransectReading>& reading) {
    source::Steps steps;
    say_weather(climate, steps);
    std::set<std::string> said;
    for (const CropGrown& grown : rotation.crops) {
        const Crop& crop = crop_of(grown.crop);
        if (!said.insert(crop.name).second) continue;
        if (grown.residue) {
            steps.push_back({"residue", crop.name + ": residue left, as given", "", "", grown.residue->value, "kg/ha",
                             grown.residue->origin});
        } else if (crop.residue_per_yield > 0 && crop.kind != "perennial") {
            const double yield = grown.yield ? grown.yield->value : crop.usual_yield_kg_ha;
            steps.push_back({"yield", crop.name + (grown.yield ? ": yield, as given" : ": yield, the usual one"), "",
                             "", yield, "kg/ha", grown.yield ? grown.yield->origin : crop.origin});
            steps.push_back({"residue", crop.name + ": residue left", "yield x ratio",
                             in_working(yield) + " x " + in_working(crop.residue_per_yield),
                             yield * crop.residue_per_yield, "kg/ha", crop.origin});
        }
    }
    for (const OperationDone& done : rotation.operations) {
        const Operation& tool = operation_of(done.operation);
        if (tool.left_nonfragile >= 1.0 || !said.insert(tool.name).second) continue;
        const double left = done.left ? done.left->value : tool.left_nonfragile;
        source::Step step{"left", tool.name + ": leaves of the residue cover", "", "", 100.0 * left,
                          "%",    done.left ? done.left->origin : tool.origin};
        if (!done.left && tool.left_fragile != tool.left_nonfragile) {
            step.words += ", fragile to other";
            step.value = 100.0 * tool.left_fragile;
            step.upper = 100.0 * tool.left_nonfragile;
            step.symbol.clear();
        }
        steps.push_back(std::move(step));
    }
    if (!reading && result.set_by)
        steps.push_back({"f", "residue and burial moved as the reading moved them before the change, factor", "", "",
                         result.set_by->factor, "1", source::origin_of("cover-calendar")});
    if (reading && result.set_by) {
        steps.push_back({"read", "residue cover read along a tape", "", "", reading->cover_pct, "%", reading->origin});
        steps.push_back({"f", "residue and burial moved so that the calendar comes to it, factor", "", "",
                         result.set_by->factor, "1", source::origin_of("cover-calendar")});
    }
    const source::Origin handbook = source::origin_of("cover-calendar");
    const Calendar& calendar = result.calendar;
    steps.push_back({"cover", "surface cover, mean weighted by erosivity", "", "", calendar.cover_pct, "%", handbook});
    steps.push_back({"Cf", "consolidation, likewise", "", "", calendar.mean_consolidation, "1", handbook});
    steps.push_back({"PLU", "prior land use, likewise", "", "", calendar.PLU, "1", handbook});
    steps.push_back({"CC", "canopy, likewise", "", "", calendar.CC, "1", handbook});
    steps.push_back({"SC", "surface cover as a subfactor, likewise", "", "", calendar.SC, "1", handbook});
    steps.push_back({"SR", "surface roughness, likewise", "", "", calendar.SR, "1", handbook});
    for (std::size_t year = 0; year < calendar.C_of_year.size() && calendar.C_of_year.size() > 1; ++year)
        steps.push_back({"C" + std::to_string(year + 1), "year " + std::to_string(year + 1) + " of the rotation",
                         "sum of PLU CC SC SR x share of erosivity, 24 half-months", "", calendar.C_of_year[year], "1",
                         handbook});
    const bool one = calendar.C_of_year.size() == 1;
    steps.push_back(
        {"C", "cover and management of the rotation",
         one ? "sum of PLU CC SC SR x share of erosivity, 24 half-months" : "mean of the years",
         one ? ""
             : "(" + source::sum_in_working(calendar.C_of_year) + ") / " + std::to_string(calendar.C_of_year.size()),
         calendar.C, "1", handbook});
    return steps;
}

/// Dates and warmth that don't fit each other.
void remark_on_growth(const Rotation& rotation, const Climate& climate, source::Remarks& remarks) {
    const auto time_of = [](const Day& day) { return 365.0 * (day.year - 1) + (day.day - 1); };
    const double length = 365.0 * rotation.years;
    std::vector<std::pair<double, double>> spans;
    std::vector<const CropGrown*> whose;
    for (const CropGrown& grown : rotation.crops) {
        if (!grown.planted) continue;
        const Crop& crop = crop_of(grown.crop);
        const double start = time_of(*grown.planted);
        double end = time_of(*grown.ended);
        if (end <= start) end += length;
        const Warmth warmth(climate.temperature_C, crop.base_C);
        const double had = warmth.until(end) - warmth.until(start);
        const bool cover = grown.cover_crop || crop.kind == "cover";
        if (cover && had < crop.warmth_emerged + 0.1 * (crop.warmth_full - crop.warmth_emerged))
            remarks.push_back({source::Weight::note, "cover-hardly-grown",
                               crop.name + " hardly grows between its dates here: seeded late or ended early, it does "
                                           "little for the soil."});
        if (crop.kind == "grain" && !cover && had < 0.7 * crop.warmth_mature)
            remarks.push_back({source::Weight::caution, "cover-unripe",
                               crop.name +
                                   " does not ripen between its dates at this warmth; look at the dates and the "
                                   "temperatures."});
        if (cover) continue;
        for (std::size_t i = 0; i < spans.size(); ++i)
            for (const double turn : {-length, 0.0, length})
                if (std::min(end, spans[i].second + turn) - std::max(start, spans[i].first + turn) > 1)
                    remarks.push_back({source::Weight::caution, "cover-crops-overlap",
                                       crop.name + " and " + whose[i]->crop + " stand at one time by their dates."});
        spans.emplace_back(start, end);
        whose.push_back(&grown);
    }
}

void remark_on(const Rotation& rotation, const RotationCover& result, source::Remarks& remarks) {
    remarks.push_back({source::Weight::note, "cover-calendar-memory",
                       "The calendar's equations and many of its rows are from memory or our own reading: trust the "
                       "order of two ways of farming before the figure of one."});
    for (const std::string& crop : result.calendar.cold_deaths)
        remarks.push_back({source::Weight::note, "cover-killed-by-cold",
                           crop + " is killed by cold before the day that was given for its end."});
    if (!result.calendar.steady)
        remarks.push_back({source::Weight::caution, "cover-not-steady",
                           "Residue rots so slowly here that the rotation did not settle within 500 rounds."});
    if (result.set_by) remarks.insert(remarks.end(), result.set_by->remarks.begin(), result.set_by->remarks.end());
    const bool seeds =
        std::any_of(rotation.operations.begin(), rotation.operations.end(),
                    [](const OperationDone& done) { return operation_of(done.operation).kind == "planting"; });
    const bool sown = std::any_of(rotation.crops.begin(), rotation.crops.end(),
                                  [](const CropGrown& grown) { return grown.planted.has_value(); });
    if (sown && !seeds)
        remarks.push_back({source::Weight::caution, "cover-no-seeding-tool",
                           "Crops are planted, but no planter or drill is among the tools: what it does to the residue "
                           "is not counted."});
}

}  // namespace

namespace {

RotationCover worked(const Rotation& rotation, const Climate& climate, std::optional<Calibration> set_by,
                     const std::optional<TransectReading>& reading) {
    RotationCover result;
    result.set_by = std::move(set_by);
    const Adjustments central = result.set_by ? result.set_by->adjustments : Adjustments{};
    result.calendar = cover_calendar(rotation, climate, central);
    const double C = std::max(result.calendar.C, 1e-9);
    result.doubts = doubts_of(rotation, climate, central, C, result.set_by.has_value());
    double up = 0, down = 0;
    for (const Doubt& doubt : result.doubts) {
        const double a = std::log(doubt.C_low / C), b = std::log(doubt.C_high / C);
        up += std::pow(std::max({0.0, a, b}), 2);
        down += std::pow(std::max({0.0, -a, -b}), 2);
    }
    result.C.central = std::clamp(C, least_C, most_C);
    result.C.least = least_C;
    result.C.most = most_C;
    result.C.shape = spread::Shape::lognormal;
    result.C.low = std::clamp(result.C.central * std::exp(-std::sqrt(down)), least_C, result.C.central);
    result.C.high = std::clamp(result.C.central * std::exp(std::sqrt(up)), result.C.central, most_C);
    result.C.origin = source::origin_of("cover-calendar");
    if (!rotation.origin.from.empty()) result.C.origin.from += "; rotation: " + rotation.origin.from;
    result.C.spread_origin = source::origin_of("rotation-doubts");
    result.C.steps = steps_of(rotation, climate, result, reading);
    if (C < least_C) {
        source::Step& last = result.C.steps.back();
        last.words += ", held at 0.0001";
        last.value = least_C;
        last.working = last.working.empty() ? "" : "max(0.0001, " + last.working + ")";
    }
    source::Step range;
    range.words = "range that holds it 19 times in 20: each part moved alone, joined as squares of ln C";
    range.value = result.C.low;
    range.upper = result.C.high;
    range.unit = "1";
    range.origin = result.C.spread_origin;
    result.C.steps.push_back(std::move(range));
    result.C.remarks = climate.remarks;
    remark_on(rotation, result, result.C.remarks);
    remark_on_growth(rotation, climate, result.C.remarks);
    return result;
}

}  // namespace

RotationCover cover_of_rotation(const Rotation& rotation, const Climate& climate,
                                const std::optional<TransectReading>& reading) {
    std::optional<Calibration> set_by;
    if (reading) set_by = calibrated(rotation, climate, *reading);
    return worked(rotation, climate, std::move(set_by), reading);
}

RotationCover cover_of_rotation(const Rotation& rotation, const Climate& climate, const Calibration& set_before) {
    Calibration same = set_before;
    same.remarks.clear();  // they were said where the reading was used
    return worked(rotation, climate, std::move(same), {});
}

double log_move(const Doubt& doubt, double C, double score) {
    const double end = std::log((score < 0 ? doubt.C_low : doubt.C_high) / C);
    return end * std::abs(score) / spread::score_of_stated_range;
}

}  // namespace soilhold::rotation
