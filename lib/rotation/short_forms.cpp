#include "rotation/short_forms.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <sstream>
#include <stdexcept>

#include "rotation/crops.h"
#include "rotation/edits.h"

namespace soilhold::rotation {

namespace {

std::string trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

std::vector<std::string> parts_at_commas(std::string_view words) {
    std::vector<std::string> parts;
    std::istringstream stream{std::string(words)};
    for (std::string part; std::getline(stream, part, ',');) parts.push_back(trimmed(part));
    return parts;
}

/// People's other words for a crop.
std::string crop_name(std::string word) {
    constexpr std::array<std::pair<const char*, const char*>, 14> also = {{{"soybeans", "soybean"},
                                                                           {"beans", "soybean"},
                                                                           {"wheat", "winter wheat"},
                                                                           {"silage", "corn silage"},
                                                                           {"sod", "grass sod"},
                                                                           {"grass", "grass sod"},
                                                                           {"meadow", "grass-legume meadow"},
                                                                           {"hay", "grass-legume meadow"},
                                                                           {"rye", "cereal rye cover"},
                                                                           {"cereal rye", "cereal rye cover"},
                                                                           {"rye cover", "cereal rye cover"},
                                                                           {"vetch cover", "hairy vetch cover"},
                                                                           {"hairy vetch", "hairy vetch cover"},
                                                                           {"radish", "radish cover"}}};
    for (const auto& [said, name] : also)
        if (word == said) return name;
    return word;
}

std::vector<std::string> crops_of_words(std::string text) {
    constexpr std::string_view alone = "continuous ";
    if (text.starts_with(alone)) text = text.substr(alone.size());
    // The one name with a hyphen of its own.
    for (std::size_t at; (at = text.find("grass-legume meadow")) != std::string::npos;) text.replace(at, 19, "meadow");
    std::replace(text.begin(), text.end(), '/', '-');
    std::vector<std::string> crops;
    std::istringstream stream{text};
    for (std::string part; std::getline(stream, part, '-');) crops.push_back(crop_of(crop_name(trimmed(part))).name);
    if (crops.empty() || crops.size() > 20) throw std::invalid_argument("a rotation has 1 to 20 years of crops");
    return crops;
}

bool is_in_rows(const std::string& crop) {
    for (const char* drilled : {"winter wheat", "spring wheat", "oats", "barley", "field pea", "canola"})
        if (crop == drilled) return false;
    return crop_of(crop).kind != "perennial";
}

/// Makes the calendar year by year.
struct Writer {
    Rotation rotation{};
    std::string tillage{};
    std::vector<std::string> crops{};

    bool tilled(const char* word) const { return tillage.find(word) != std::string::npos; }
    bool perennial(std::size_t year) const { return crop_of(crops[year]).kind == "perennial"; }
    std::size_t before(std::size_t year) const { return (year + crops.size() - 1) % crops.size(); }
    Day day(std::size_t year, int day) const {
        return later({1, 1}, static_cast<int>(365 * year) + day - 1, rotation.years);
    }
    void done(const char* tool, const Day& on) {
        rotation.operations.push_back({tool, on, {}, {}, {}, source::origin_of("usual-dates")});
    }
    bool seeded_in_autumn(const Crop& crop) const { return crop.usual_planted > crop.usual_ended; }

    Day seeding(std::size_t year) const {
        const Crop& crop = crop_of(crops[year]);
        if (!seeded_in_autumn(crop)) return day(year, crop.usual_planted);
        // After a crop that is still standing on the usual day it is seeded five days after the harvest.
        const Crop& last = crop_of(crops[before(year)]);
        const int harvested =
            last.kind == "perennial" || seeded_in_autumn(last) ? last.usual_ended : last.usual_ended + 5;
        return day(before(year), std::max(crop.usual_planted, harvested));
    }

    void prepare(std::size_t year, const Day& seeded, bool rows) {
        const bool in_autumn = seeded.day > 213;
        const Day autumn = in_autumn ? later(seeded, -4, rotation.years) : day(before(year), 310);
        const Day early = in_autumn ? autumn : later(seeded, -14, rotation.years);
        if (tilled("no-till")) {
            done("herbicide", later(seeded, -7, rotation.years));
            done(rows ? "no-till planter" : "no-till drill", seeded);
            return;
        }
        if (tilled("strip-till") || tilled("ridge-till")) {
            done("herbicide", later(seeded, -7, rotation.years));
            if (tilled("strip-till") && rows) done("strip-till", early);
            done(!rows ? "no-till drill" : tilled("ridge-till") ? "ridge-till planter" : "no-till planter", seeded);
            return;
        }
        const Day primary = tilled("fall") ? autumn : early;
        if (tilled("plow")) done("moldboard plow", primary);
        if (tilled("chisel")) done("chisel plow", primary);
        if (tilled("disk")) done("tandem disk", primary);
        if (tilled("plow")) done("tandem disk", later(seeded, in_autumn ? -3 : -10, rotation.years));
        done("field cultivator", later(seeded, -2, rotation.years));
        done(rows ? "planter" : "drill", seeded);
        if (rows && tilled("plow")) done("row cultivator", later(seeded, 35, rotation.years));
    }

    void annual(std::size_t year) {
        const Crop& crop = crop_of(crops[year]);
        CropGrown grown;
        grown.crop = crop.name;
        grown.planted = seeding(year);
        grown.ended = day(year, crop.usual_ended);
        grown.origin = source::origin_of("usual-dates");
        prepare(year, *grown.planted, is_in_rows(crop.name));
        done(crop.name == "potato"       ? "potato digger"
             : crop.name == "sugar beet" ? "beet lifter"
                                         : "harvest",
             *grown.ended);
        rotation.crops.push_back(grown);
    }

    /// A stand from its first year to its last.
    void stand(std::size_t first, std::size_t years) {
        const Crop& crop = crop_of(crops[first]);
        const std::size_t last = (first + years - 1) % crops.size(), after = (last + 1) % crops.size();
        CropGrown grown;
        grown.crop = crop.name;
        grown.planted = day(first, crop.usual_planted);
        const Crop& next = crop_of(crops[after]);
        grown.ended = day(last, seeded_in_autumn(next) && next.kind != "perennial" ? next.usual_planted - 10 : 300);
        grown.origin = source::origin_of("usual-dates");
        prepare(first, *grown.planted, false);
        rotation.crops.push_back(grown);
        for (std::size_t i = 0; i < years; ++i) cut_for_hay(crop, (first + i) % crops.size(), i == 0);
    }

    void cut_for_hay(const Crop& crop, std::size_t year, bool new_stand) {
        if (crop.name == "grass sod" || crop.name == "pasture") return;
        for (const int cut : {155, 195, 240})
            if (!new_stand || cut == 240) done("hay harvest", day(year, cut));
    }

    void write() {
        const std::size_t n = crops.size();
        if (std::all_of(crops.begin(), crops.end(), [&](const std::string& c) { return c == crops[0]; }) &&
            perennial(0)) {
            CropGrown old;
            old.crop = crops[0];
            old.origin = source::origin_of("usual-dates");
            rotation.crops.push_back(old);
            for (std::size_t year = 0; year < n; ++year) cut_for_hay(crop_of(crops[0]), year, false);
            return;
        }
        for (std::size_t year = 0; year < n; ++year) {
            if (!perennial(year)) {
                annual(year);
            } else if (crops[before(year)] != crops[year]) {
                std::size_t years = 1;
                while (crops[(year + years) % n] == crops[year]) ++years;
                stand(year, years);
            }
        }
    }
};

/// "cereal rye cover after corn ended 10 days before"; without "after", after every annual crop.
bool with_cover(Rotation& rotation, std::string words, const std::vector<std::string>& crops) {
    int days = 14;
    if (const auto at = words.find(" ended "); at != std::string::npos) {
        days = std::atoi(words.c_str() + at + 7);
        if (words[at + 7] < '0' || words[at + 7] > '9')
            throw std::invalid_argument("'" + words + "': say 'ended 10 days before'");
        words = trimmed(words.substr(0, at));
    }
    std::vector<std::string> after;
    if (const auto at = words.find(" after "); at != std::string::npos) {
        after.push_back(crop_of(crop_name(trimmed(words.substr(at + 7)))).name);
        words = trimmed(words.substr(0, at));
    } else {
        for (const std::string& crop : crops)
            if (crop_of(crop).kind != "perennial" && std::find(after.begin(), after.end(), crop) == after.end())
                after.push_back(crop);
    }
    const std::string cover = crop_name(words);
    const auto& all = all_crops();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Crop& crop) { return crop.name == cover; });
    if (found == all.end() || found->kind != "cover") return false;
    for (const std::string& crop : after) rotation = cover_crop_after(rotation, crop, cover, days).rotation;
    return true;
}

}  // namespace

const std::vector<std::string>& tillage_words() {
    static const std::vector<std::string> words = {"fall plow",     "spring plow", "fall chisel",
                                                   "spring chisel", "fall disk",   "spring disk",
                                                   "strip-till",    "ridge-till",  "no-till"};
    return words;
}

Rotation rotation_of_words(std::string_view words) {
    const std::vector<std::string> parts = parts_at_commas(words);
    if (parts.empty() || parts[0].empty())
        throw std::invalid_argument("a rotation in words begins with its crops: 'corn-soybean, fall chisel'");
    Writer writer;
    writer.crops = crops_of_words(parts[0]);
    writer.rotation.years = static_cast<int>(writer.crops.size());
    writer.rotation.name = std::string(words);
    writer.rotation.origin = source::origin_of("usual-dates");
    std::vector<std::string> rest;
    for (std::size_t i = 1; i < parts.size(); ++i) {
        if (std::find(tillage_words().begin(), tillage_words().end(), parts[i]) != tillage_words().end())
            writer.tillage = parts[i];
        else
            rest.push_back(parts[i]);
    }
    const bool annuals = std::any_of(writer.crops.begin(), writer.crops.end(),
                                     [](const std::string& crop) { return crop_of(crop).kind != "perennial"; });
    if (writer.tillage.empty() && annuals) {
        std::string known;
        for (const std::string& word : tillage_words()) known += (known.empty() ? "" : ", ") + word;
        throw std::invalid_argument("how is the ground tilled? say one of: " + known);
    }
    writer.write();
    for (const std::string& part : rest) {
        if (part == "stalks baled")
            writer.rotation = take_the_stalks(writer.rotation, 0.7).rotation;
        else if (!with_cover(writer.rotation, part, writer.crops))
            throw std::invalid_argument("'" + part + "' is no tillage, no cover crop and not 'stalks baled'");
    }
    return writer.rotation;
}

}  // namespace soilhold::rotation
