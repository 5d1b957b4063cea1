/// The rotation that stands beside a record of measured loss, by the rules of docs/evidence.md.
#pragma once

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <map>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "rotation/edits.h"
#include "rotation/rotation.h"
#include "rotation/short_forms.h"
#include "source/reference_table.h"

namespace soilhold::measured {

/// One line of a table by its headings.
using Line = std::map<std::string, std::string>;

/// Lines of a file of tests/field/data.
inline std::vector<Line> lines_of(const std::string& file) {
    std::ifstream stream(std::string(SOILHOLD_ROOT) + "/tests/field/data/" + file);
    std::stringstream text;
    text << stream.rdbuf();
    const auto rows = source::split_csv(text.str());
    std::vector<Line> lines;
    for (std::size_t i = 1; i < rows.size(); ++i) {
        Line line;
        for (std::size_t c = 0; c < rows[0].size(); ++c) line[rows[0][c]] = rows[i].at(c);
        lines.push_back(line);
    }
    return lines;
}

inline double number(const Line& line, const std::string& column) { return std::stod(line.at(column)); }

inline const source::Origin ours{"rules of docs/evidence.md", "", source::Standing::our_assumption};

inline spread::Stated assumed(double value) { return {value, {}, ours}; }

inline int day_of(const std::string& month_day) {
    int month = 0, day = 0;
    if (std::sscanf(month_day.c_str(), "%d-%d", &month, &day) != 2)
        throw std::invalid_argument("no month-day: " + month_day);
    return rotation::day_of_year(month, day);
}

inline std::vector<std::string> parts(const std::string& text, char at) {
    std::vector<std::string> result;
    std::istringstream stream(text);
    for (std::string part; std::getline(stream, part, at);) result.push_back(part);
    return result;
}

inline bool is_clay(const Line& record) {
    return record.at("texture") == "clay" || record.at("texture") == "silty clay";
}

/// One crop of a rotation with its place's days.
struct Grown {
    std::string crop;
    rotation::Day planted, ended;
};

inline std::vector<Grown> crops_of(const Line& record, int years) {
    static const std::vector<Line> dates = lines_of("measured_dates.csv");
    std::vector<Grown> grown;
    int year = 0;
    for (const std::string& of_year : parts(record.at("crops"), '-')) {
        ++year;
        const auto crops = parts(of_year, '+');
        for (const std::string& crop : crops) {
            if (crop == "fallow") continue;
            const std::string row = crops.size() > 1 && crop == "soybean" ? "soybean after wheat" : crop;
            const auto found = std::find_if(dates.begin(), dates.end(), [&](const Line& line) {
                return line.at("place") == record.at("place") && line.at("crop") == row;
            });
            if (found == dates.end()) throw std::invalid_argument("no days for " + row);
            const int planted = day_of(found->at("planted")), ended = day_of(found->at("ended"));
            const int seeded = planted < ended ? year : year == 1 ? years : year - 1;
            grown.push_back({crop, {seeded, planted}, {year, ended}});
        }
    }
    return grown;
}

/// Days from one day of the rotation round to another, 1 .. its length.
inline int days_between(const rotation::Day& from, const rotation::Day& to, int years) {
    const int length = 365 * years;
    const int days = 365 * (to.year - from.year) + to.day - from.day;
    return (days % length + length - 1) % length + 1;
}

/// Passes between the harvest before and a seeding, as docs/evidence.md sets them out.
inline void prepare(rotation::Rotation& rotation, const Line& record, const Grown& before, const Grown& crop) {
    const auto done = [&](const char* tool, const rotation::Day& on) {
        rotation.operations.push_back({tool, on, {}, {}, {}, ours});
    };
    const auto from_seeding = [&](int days) { return rotation::later(crop.planted, days, rotation.years); };
    const std::string& tillage = record.at("class");
    const bool rows = crop.crop != "winter wheat" && crop.crop != "oats";
    if (tillage == "no-till") {
        done("herbicide", from_seeding(-7));
        done(rows ? "no-till planter" : "no-till drill", crop.planted);
        return;
    }
    const int idle = days_between(before.ended, crop.planted, rotation.years);
    const rotation::Day primary =
        is_clay(record) && idle > 44 ? rotation::later(before.ended, 30, rotation.years) : from_seeding(-14);
    if (tillage == "conventional") {
        done("moldboard plow", primary);
        done("tandem disk", from_seeding(-10));
    } else if (record.at("place") == "Bushland") {
        for (int year = 1; year <= rotation.years; ++year)
            for (const int day : {day_of("4-15"), day_of("6-1"), day_of("7-15"), day_of("9-1")})
                if (days_between(before.ended, {year, day}, rotation.years) < idle - 10)
                    done("blade plow", {year, day});
        done("blade plow", from_seeding(-10));
    } else {
        done("chisel plow", primary);
    }
    if (record.at("place") != "Bushland") done("field cultivator", from_seeding(-2));
    done(rows ? "planter" : "drill", crop.planted);
    if (tillage == "conventional" && rows) done("row cultivator", from_seeding(35));
}

inline rotation::Rotation cane_of(const Line& record) {
    const Grown cane = crops_of(record, 1).front();
    rotation::Rotation rotation;
    rotation.name = "sugar cane";
    rotation::CropGrown grown;
    grown.crop = "corn";
    grown.planted = cane.planted;
    grown.ended = cane.ended;
    grown.residue = assumed(8000);
    grown.height = assumed(3);
    rotation.crops.push_back(grown);
    if (record.at("residue_burnt") == "1")
        rotation.removed.push_back({rotation::later(cane.ended, 5, 1), assumed(0.9)});
    if (record.at("class") == "conventional")
        for (const int after : {20, 60, 90})
            rotation.operations.push_back(
                {"row cultivator", rotation::later(cane.planted, after, 1), {}, {}, {}, ours});
    return rotation;
}

/// In the Corn Belt: the short form, which has the days.
inline std::optional<std::string> short_form(const Line& record) {
    const std::string& place = record.at("place");
    if (place != "Treynor" && place != "Story County" && place != "Lincoln" && place != "Northeast Indiana")
        return std::nullopt;
    const std::string& tillage = record.at("class");
    return record.at("crops") + (tillage == "conventional"   ? ", spring plow"
                                 : tillage == "conservation" ? ", spring chisel"
                                                             : ", no-till");
}

/// The short form in the Corn Belt, elsewhere passes about the place's own days.
inline rotation::Rotation rotation_of(const Line& record) {
    rotation::Rotation rotation;
    if (record.at("crops") == "sugar cane") {
        rotation = cane_of(record);
    } else if (const auto words = short_form(record)) {
        rotation = rotation::rotation_of_words(*words);
    } else {
        rotation.name = record.at("crops");
        rotation.years = static_cast<int>(parts(record.at("crops"), '-').size());
        const auto crops = crops_of(record, rotation.years);
        for (std::size_t i = 0; i < crops.size(); ++i) {
            rotation::CropGrown grown;
            grown.crop = crops[i].crop;
            grown.planted = crops[i].planted;
            grown.ended = crops[i].ended;
            rotation.crops.push_back(grown);
            rotation.operations.push_back({"harvest", crops[i].ended, {}, {}, {}, ours});
            prepare(rotation, record, crops[(i + crops.size() - 1) % crops.size()], crops[i]);
        }
    }
    for (const std::string& given : parts(record.at("yields_kg_ha"), ' ')) {
        const auto crop_yield = parts(given, ':');
        for (auto& crop : rotation.crops)
            if (crop.crop == crop_yield.at(0)) crop.yield = assumed(std::stod(crop_yield.at(1)));
    }
    return rotation;
}

}  // namespace soilhold::measured
