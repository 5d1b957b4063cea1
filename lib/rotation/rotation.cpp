#include "rotation/rotation.h"

#include <algorithm>
#include <stdexcept>

#include "rotation/crops.h"
#include "rotation/decomposition.h"
#include "rotation/operations.h"

namespace soilhold::rotation {

namespace {

constexpr std::array<int, 13> month_start = {1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335, 366};

/// Collects the problems of one entry.
struct Entry {
    std::vector<Problem>* problems;
    Part part;
    std::size_t index;
    int years;

    void say(const char* code, std::string text) const { problems->push_back({part, index, code, std::move(text)}); }
    void day(const Day& day, const char* what) const {
        if (day.year < 1 || day.year > years)
            say("rotation-year", std::string(what) + ": year " + std::to_string(day.year) + " is not within the " +
                                     std::to_string(years) + " years of the rotation");
        if (day.day < 1 || day.day > 365)
            say("rotation-day", std::string(what) + ": day " + std::to_string(day.day) + " is not within 1 to 365");
    }
    void share(const std::optional<spread::Stated>& stated, const char* what) const {
        if (stated && !(stated->value >= 0 && stated->value <= 1))
            say("share-outside", std::string(what) + " is a share from 0 to 100 %");
    }
    void amount(const std::optional<spread::Stated>& stated, const char* what) const {
        if (stated && !(stated->value >= 0 && stated->value < 1e6))
            say("amount-outside", std::string(what) + " must not be negative, nor past all belief");
    }
    template <class Look>
    void name(const char* code, Look look) const {
        try {
            look();
        } catch (const std::invalid_argument& error) {
            say(code, error.what());
        }
    }
};

}  // namespace

int first_day(std::size_t half_month) {
    if (half_month >= half_months) return 366;
    return month_start[half_month / 2] + (half_month % 2 == 1 ? 15 : 0);
}

std::size_t half_month_of(int day) {
    std::size_t month = 0;
    while (month < 11 && day >= month_start[month + 1]) ++month;
    return 2 * month + (day - month_start[month] >= 15 ? 1 : 0);
}

int day_of_year(int month, int day_of_month) {
    if (month < 1 || month > 12) throw std::invalid_argument("a month is 1 to 12");
    const auto m = static_cast<std::size_t>(month - 1);
    if (month == 2 && day_of_month == 29) return 59;
    if (day_of_month < 1 || day_of_month > month_start[m + 1] - month_start[m])
        throw std::invalid_argument("there is no day " + std::to_string(day_of_month) + " in month " +
                                    std::to_string(month));
    return month_start[m] + day_of_month - 1;
}

std::vector<Problem> problems_of(const Rotation& rotation) {
    std::vector<Problem> problems;
    const auto entry = [&](Part part, std::size_t index) { return Entry{&problems, part, index, rotation.years}; };
    const Entry whole = entry(Part::rotation, 0);
    if (rotation.years < 1 || rotation.years > 20)
        whole.say("rotation-years", "a rotation has 1 to 20 years, not " + std::to_string(rotation.years));
    if (!(rotation.residue_effectiveness_b >= 0.005 && rotation.residue_effectiveness_b <= 0.15))
        whole.say("residue-effectiveness", "b of residue cover lies from 0.005 to 0.15 per %; 0.035 is usual");
    if (rotation.crops.empty() && rotation.operations.empty() && rotation.added.empty())
        whole.say("rotation-empty", "the rotation has no crop, no tool and no residue");
    for (std::size_t i = 0; i < rotation.crops.size(); ++i) {
        const CropGrown& crop = rotation.crops[i];
        const Entry at = entry(Part::crop, i);
        at.name("unknown-crop", [&] { crop_of(crop.crop); });
        if (crop.planted) at.day(*crop.planted, "planted");
        if (crop.ended) at.day(*crop.ended, "ended");
        if (crop.planted.has_value() != crop.ended.has_value())
            at.say("crop-half-dated", crop.crop +
                                          " needs both the day it was planted and the day it ended, or neither "
                                          "for an old stand");
        if (crop.planted && crop.planted == crop.ended)
            at.say("crop-no-time", crop.crop + " ends on the day it is planted");
        at.share(crop.canopy, "canopy");
        at.amount(crop.yield, "yield");
        at.amount(crop.residue, "residue");
        at.amount(crop.height, "height");
        at.amount(crop.roots, "mass of roots");
    }
    for (std::size_t i = 0; i < rotation.operations.size(); ++i) {
        const OperationDone& done = rotation.operations[i];
        const Entry at = entry(Part::operation, i);
        at.name("unknown-operation", [&] { operation_of(done.operation); });
        at.day(done.on, done.operation.c_str());
        at.share(done.left, "residue left");
        at.share(done.disturbed, "surface disturbed");
        at.amount(done.roughness, "roughness");
        if (done.roughness && !(done.roughness->value > 0)) at.say("roughness-none", "roughness must be above 0");
    }
    for (std::size_t i = 0; i < rotation.removed.size(); ++i) {
        entry(Part::removed, i).day(rotation.removed[i].on, "residue removed");
        entry(Part::removed, i).share(rotation.removed[i].share, "residue removed");
    }
    for (std::size_t i = 0; i < rotation.added.size(); ++i) {
        const Entry at = entry(Part::added, i);
        at.name("unknown-residue", [&] { residue_of(rotation.added[i].residue); });
        at.day(rotation.added[i].on, "residue added");
        at.amount(rotation.added[i].mass, "residue added");
    }
    for (std::size_t i = 0; i < rotation.grazing.size(); ++i) {
        const Grazing& grazing = rotation.grazing[i];
        const Entry at = entry(Part::grazing, i);
        at.day(grazing.from, "grazing begins");
        at.day(grazing.to, "grazing ends");
        at.share(grazing.taken, "taken by grazing");
        if (grazing.taken.value > 0.95) at.say("grazing-all", "grazing takes 95 % at most; all is a removal");
        if (grazing.from == grazing.to) at.say("grazing-no-time", "grazing ends on the day it begins");
    }
    return problems;
}

}  // namespace soilhold::rotation
