#include "rotation/edits.h"

#include <algorithm>
#include <optional>
#include <stdexcept>

#include "rotation/crops.h"
#include "rotation/operations.h"

namespace soilhold::rotation {

namespace {

/// A name as a sentence begins with it.
std::string begun(std::string_view name) {
    std::string text(name);
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

int time_of(const Day& day) { return 365 * (day.year - 1) + day.day - 1; }

/// Days from one day on to the next time the other comes, 1 to the whole rotation.
int days_until(const Day& from, const Day& to, int years) {
    const int length = 365 * years, days = (time_of(to) - time_of(from)) % length;
    return days <= 0 ? days + length : days;
}

bool is_grown_for_itself(const CropGrown& grown) {
    return !grown.cover_crop && crop_of(grown.crop).kind != "cover" && grown.planted && grown.ended;
}

bool is_annual(const CropGrown& grown) { return is_grown_for_itself(grown) && crop_of(grown.crop).kind != "perennial"; }

/// The crop seeded next after a day, cover crops aside.
const CropGrown* next_seeded(const Rotation& rotation, const Day& after) {
    const CropGrown* next = nullptr;
    for (const CropGrown& grown : rotation.crops)
        if (is_grown_for_itself(grown) && (!next || days_until(after, *grown.planted, rotation.years) <
                                                        days_until(after, *next->planted, rotation.years)))
            next = &grown;
    return next;
}

std::string counted(std::size_t n, const std::string& one, const std::string& many) {
    return n == 1 ? "1 " + one : std::to_string(n) + " " + many;
}

source::Origin by_edit() { return source::origin_of("usual-dates"); }

OperationDone pass(const char* tool, const Day& on) { return {tool, on, {}, {}, {}, by_edit()}; }

bool is_tillage_tool(const OperationDone& done) { return operation_of(done.operation).kind == "tillage"; }

bool removes(const OperationDone& done) { return operation_of(done.operation).removes > 0; }

}  // namespace

Day later(const Day& day, int days, int years_of_rotation) {
    const int length = 365 * years_of_rotation;
    const int time = ((time_of(day) + days) % length + length) % length;
    return {time / 365 + 1, time % 365 + 1};
}

Edited no_till(const Rotation& rotation) {
    Edited edited{rotation, {}};
    auto& done = edited.rotation.operations;
    const std::size_t before = done.size();
    std::erase_if(done, is_tillage_tool);
    const std::size_t left_out = before - done.size();
    std::size_t seeders = 0;
    for (OperationDone& one : done) {
        const char* now = one.operation == "planter" || one.operation == "ridge-till planter" ? "no-till planter"
                          : one.operation == "drill"                                          ? "no-till drill"
                                                                                              : nullptr;
        if (!now) continue;
        one = pass(now, one.on);
        ++seeders;
    }
    std::size_t sprays = 0;
    for (const CropGrown& grown : rotation.crops) {
        if (!is_grown_for_itself(grown)) continue;
        const Day spray = later(*grown.planted, -7, rotation.years);
        const bool sprayed = std::any_of(done.begin(), done.end(), [&](const OperationDone& one) {
            return one.operation == "herbicide" && days_until(one.on, *grown.planted, rotation.years) <= 30;
        });
        if (sprayed) continue;
        done.push_back(pass("herbicide", spray));
        ++sprays;
    }
    edited.changed = left_out + seeders > 0;
    edited.sentence = edited.changed
                          ? "No-till: " + counted(left_out, "pass of tillage", "passes of tillage") +
                                " left out, seeding by no-till planter or drill, weeds sprayed a week before "
                                "seeding" +
                                (sprays == 0 ? " as already." : ".")
                          : "No-till: there was no tillage to leave out.";
    return edited;
}

Edited tool_instead(const Rotation& rotation, std::string_view old_tool, std::string_view new_tool) {
    operation_of(old_tool);
    operation_of(new_tool);
    Edited edited{rotation, {}};
    std::size_t passes = 0;
    for (OperationDone& one : edited.rotation.operations)
        if (one.operation == old_tool) {
            one = {std::string(new_tool), one.on, {}, {}, {}, by_edit()};
            ++passes;
        }
    edited.changed = passes > 0;
    edited.sentence = passes > 0 ? begun(new_tool) + " instead of " + std::string(old_tool) + ", " +
                                       counted(passes, "pass", "passes") + " on the same days."
                                 : "There was no " + std::string(old_tool) + " to replace.";
    return edited;
}

Edited chisel_instead_of_plow(const Rotation& rotation) {
    return tool_instead(rotation, "moldboard plow", "chisel plow");
}

Edited cover_crop_after(const Rotation& rotation, std::string_view crop, std::string_view cover, int days_before) {
    if (!(days_before >= 0 && days_before <= 60))
        throw std::invalid_argument("a cover crop ends 0 to 60 days before the next seeding");
    const Crop& kind = crop_of(cover);
    Edited edited{rotation, {}};
    std::size_t sown = 0, waited = 0;
    for (const CropGrown& grown : rotation.crops) {
        if (!is_annual(grown) || grown.crop != crop) continue;
        const CropGrown* next = next_seeded(rotation, *grown.ended);
        if (!next) continue;
        Day seeded = later(*grown.ended, 3, rotation.years);
        const Day usual = later({seeded.year, 1}, kind.usual_planted - 1, rotation.years);
        if (usual > seeded) seeded = usual;
        const Day ended = later(*next->planted, -days_before, rotation.years);
        const int stands = days_until(seeded, ended, rotation.years);
        if (stands + days_before >= days_until(*grown.ended, *next->planted, rotation.years) || stands < 14)
            throw std::invalid_argument("between " + grown.crop + " and " + next->crop +
                                        " there is no time for a cover crop that ends " + std::to_string(days_before) +
                                        " days before seeding");
        CropGrown sown_cover;
        sown_cover.crop = cover;
        sown_cover.cover_crop = true;
        sown_cover.planted = seeded;
        sown_cover.ended = ended;
        sown_cover.origin = by_edit();
        edited.rotation.crops.push_back(sown_cover);
        for (OperationDone& one : edited.rotation.operations)
            if (is_tillage_tool(one) &&
                days_until(*grown.ended, one.on, rotation.years) < days_until(*grown.ended, ended, rotation.years)) {
                one.on = ended;
                ++waited;
            }
        auto& done = edited.rotation.operations;
        done.insert(done.begin(), pass("no-till drill", seeded));
        done.insert(done.begin(), pass("herbicide", ended));
        ++sown;
    }
    if (sown == 0) throw std::invalid_argument("no " + std::string(crop) + " is grown for a cover crop to follow");
    edited.sentence = begun(cover) + " after " + std::string(crop) + ", ended " + std::to_string(days_before) +
                      " days before the next seeding";
    if (waited > 0) edited.sentence += "; " + counted(waited, "pass", "passes") + " of tillage wait until then";
    edited.sentence += ".";
    return edited;
}

Edited leave_the_stalks(const Rotation& rotation) {
    Edited edited{rotation, {}};
    const std::size_t before = rotation.operations.size() + rotation.removed.size();
    edited.rotation.removed.clear();
    std::erase_if(edited.rotation.operations, removes);
    const std::size_t gone = before - edited.rotation.operations.size();
    edited.changed = gone > 0;
    edited.sentence = gone > 0 ? "All residue left on the field; " + counted(gone, "removal", "removals") + " left out."
                               : "No residue was taken, so none can be left.";
    return edited;
}

Edited take_the_stalks(const Rotation& rotation, double share, std::string_view crop) {
    if (!(share > 0 && share <= 1)) throw std::invalid_argument("the residue taken is a share above 0, at most 1");
    Edited edited{rotation, {}};
    std::size_t taken = 0;
    for (const CropGrown& grown : rotation.crops) {
        if (!is_annual(grown) || (crop.empty() ? crop_of(grown.crop).kind != "grain" : grown.crop != crop)) continue;
        edited.rotation.removed.push_back({later(*grown.ended, 5, rotation.years), {share, {}, by_edit()}});
        ++taken;
    }
    edited.changed = taken > 0;
    edited.sentence = std::to_string(static_cast<int>(100 * share + 0.5)) + " % of the residue taken five days after " +
                      counted(taken, "harvest", "harvests") + ".";
    return edited;
}

Edited tillage_in_spring(const Rotation& rotation) {
    Edited edited{rotation, {}};
    std::size_t moved = 0;
    for (OperationDone& one : edited.rotation.operations) {
        if (!is_tillage_tool(one) || one.on.day < 213) continue;
        const CropGrown* next = next_seeded(rotation, later(one.on, -1, rotation.years));
        // What is done for a crop of autumn stays in autumn, and so does tillage while a crop stands.
        if (!next || next->planted->day > 182 || days_until(one.on, *next->planted, rotation.years) > 300) continue;
        one.on = later(*next->planted, -14, rotation.years);
        ++moved;
    }
    edited.changed = moved > 0;
    edited.sentence = moved > 0 ? counted(moved, "pass", "passes") +
                                      " of tillage moved from autumn to 14 days before the seeding in spring."
                                : "There was no autumn tillage before a crop of spring.";
    return edited;
}

Edited years_of_sod(const Rotation& rotation, std::string_view crop, int years) {
    const Crop& sod = crop_of(crop);
    if (sod.kind != "perennial") throw std::invalid_argument(std::string(crop) + " is no perennial");
    if (!(years >= 1 && years <= 10)) throw std::invalid_argument("1 to 10 years of sod can be added");
    if (rotation.years + years > 20) throw std::invalid_argument("a rotation has 20 years at most");
    Edited edited{rotation, {}};
    Rotation& longer = edited.rotation;
    const int first = rotation.years + 1, last = rotation.years + years;
    longer.years = last;
    CropGrown stand;
    stand.crop = crop;
    stand.planted = Day{first, sod.usual_planted};
    stand.ended = Day{last, 300};
    stand.origin = by_edit();
    // A crop that stands over the turn of the rotation was sown in its last year: that year is now the last of the sod.
    for (CropGrown& grown : longer.crops)
        if (grown.planted && grown.ended && *grown.ended <= *grown.planted) {
            grown.planted->year += years;
            if (grown.planted->day <= 300) stand.ended = Day{last, std::max(1, grown.planted->day - 5)};
        }
    for (OperationDone& one : longer.operations) {
        const CropGrown* next = next_seeded(rotation, later(one.on, -1, rotation.years));
        // Autumn work for the first crop goes along with it.
        if (one.on.year == rotation.years && next && time_of(*next->planted) < time_of(one.on) &&
            std::none_of(rotation.crops.begin(), rotation.crops.end(),
                         [&](const CropGrown& grown) { return grown.ended && *grown.ended == one.on; }))
            one.on.year += years;
    }
    longer.crops.push_back(stand);
    longer.operations.push_back(pass("tandem disk", later(*stand.planted, -5, last)));
    longer.operations.push_back(pass("drill", *stand.planted));
    for (int year = first; year <= last; ++year)
        for (const int day : {155, 195, 240})
            if ((year > first || day == 240) && Day{year, day} < *stand.ended)
                longer.operations.push_back(pass("hay harvest", {year, day}));
    edited.sentence = counted(static_cast<std::size_t>(years), "year", "years") + " of " + std::string(crop) +
                      " added, seeded in spring, cut for hay, killed in autumn of the last.";
    return edited;
}

}  // namespace soilhold::rotation
