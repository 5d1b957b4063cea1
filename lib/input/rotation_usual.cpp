#include "input/rotation_usual.h"

#include "rotation/edits.h"
#include "rotation/operations.h"

namespace soilhold::input {

namespace {

/// Days from one day to another the shorter way round, negative backwards.
int days_between(const rotation::Day& from, const rotation::Day& to, int years) {
    const int length = 365 * years;
    int days = (365 * (to.year - from.year) + to.day - from.day) % length;
    if (days > length / 2) days -= length;
    if (days < -(length / 2)) days += length;
    return days;
}

bool within(int days, int least, int most) { return days >= least && days <= most; }

void move_seeding(rotation::Rotation& usual, std::size_t index, const rotation::Day& to) {
    const rotation::Day from = *usual.crops[index].planted;
    const int by = days_between(from, to, usual.years);
    for (rotation::OperationDone& done : usual.operations)
        if (rotation::operation_of(done.operation).kind != "harvest" &&
            within(days_between(from, done.on, usual.years), -20, 40))
            done.on = rotation::later(done.on, by, usual.years);
    for (rotation::CropGrown& other : usual.crops)
        if (other.cover_crop && other.ended && within(days_between(from, *other.ended, usual.years), -20, 0))
            other.ended = rotation::later(*other.ended, by, usual.years);
    usual.crops[index].planted = to;
}

void move_harvest(rotation::Rotation& usual, std::size_t index, const rotation::Day& to) {
    const rotation::Day from = *usual.crops[index].ended;
    const int by = days_between(from, to, usual.years);
    const auto sows_cover = [&](const rotation::OperationDone& done) {
        for (const rotation::CropGrown& other : usual.crops)
            if (other.cover_crop && other.planted == done.on) return true;
        return false;
    };
    for (rotation::OperationDone& done : usual.operations) {
        const int after = days_between(from, done.on, usual.years);
        const std::string& kind = rotation::operation_of(done.operation).kind;
        if (kind == "harvest" ? after == 0 : kind == "planting" && within(after, 0, 10) && sows_cover(done))
            done.on = rotation::later(done.on, by, usual.years);
    }
    for (rotation::ResidueRemoved& removed : usual.removed)
        if (within(days_between(from, removed.on, usual.years), 0, 10))
            removed.on = rotation::later(removed.on, by, usual.years);
    for (rotation::CropGrown& other : usual.crops)
        if (other.cover_crop && other.planted && within(days_between(from, *other.planted, usual.years), 0, 10))
            other.planted = rotation::later(*other.planted, by, usual.years);
    usual.crops[index].ended = to;
}

}  // namespace

void say_of_usual(rotation::Rotation& usual, std::size_t index, const rotation::CropGrown& told) {
    if (told.planted && usual.crops[index].planted) move_seeding(usual, index, *told.planted);
    if (told.ended && usual.crops[index].ended) move_harvest(usual, index, *told.ended);
    rotation::CropGrown& crop = usual.crops[index];
    if (told.planted) crop.planted = told.planted;
    if (told.ended) crop.ended = told.ended;
    if (told.yield) crop.yield = told.yield;
    if (told.residue) crop.residue = told.residue;
    if (told.canopy) crop.canopy = told.canopy;
    if (told.height) crop.height = told.height;
    if (told.roots) crop.roots = told.roots;
    crop.origin = told.origin;
}

}  // namespace soilhold::input
