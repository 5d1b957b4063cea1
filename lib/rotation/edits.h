/// Other ways to farm a rotation, each made by changing its calendar, never its number.
///
/// Every edit takes a rotation and returns the changed one with a sentence on what was changed. Days that an edit has
/// to choose are usual ones, our assumption, and its sentence says them.
#pragma once

#include <string>
#include <string_view>

#include "rotation/rotation.h"

namespace soilhold::rotation {

struct Edited {
    Rotation rotation;
    std::string sentence;  ///< "No-till: 4 passes of tillage left out; seeded by no-till planter, weeds sprayed."
    bool changed = true;   ///< false where there was nothing to change
};

/// All tillage left out; planters and drills become no-till ones; weeds sprayed a week before each seeding.
Edited no_till(const Rotation& rotation);

/// One tool in place of another, on the same days. @throws std::invalid_argument for a tool there is not
Edited tool_instead(const Rotation& rotation, std::string_view old_tool, std::string_view new_tool);

/// 'Chisel instead of plow'.
Edited chisel_instead_of_plow(const Rotation& rotation);

/// A cover crop after every harvest of `crop`: drilled three days after it, or on the cover crop's usual day if that is
/// later; ended by herbicide `days_before` the next seeding. Tillage that would fall on it waits until the day it ends.
/// @param days_before  0..60
/// @throws std::invalid_argument for a cover crop there is not, or where the crop is not grown or leaves no time
Edited cover_crop_after(const Rotation& rotation, std::string_view crop, std::string_view cover, int days_before = 14);

/// Nothing baled or otherwise taken after grain; hay and silage go as before.
Edited leave_the_stalks(const Rotation& rotation);

/// A share of the residue baled five days after each harvest of `crop`, or of every grain crop if it is empty.
Edited take_the_stalks(const Rotation& rotation, double share, std::string_view crop = {});

/// Tillage of autumn waits until 14 days before the seeding in spring.
Edited tillage_in_spring(const Rotation& rotation);

/// Years of a perennial at the end of the rotation: seeded in spring, cut three times a year for hay, killed in autumn.
/// @param years  1..10
Edited years_of_sod(const Rotation& rotation, std::string_view crop, int years);

/// So many days later (or earlier), around the turn of the rotation.
Day later(const Day& day, int days, int years_of_rotation);

}  // namespace soilhold::rotation
