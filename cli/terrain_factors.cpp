#include "terrain_factors.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <stdexcept>

#include "raster/layer.h"
#include "units/printing.h"
#include "units/reading.h"

namespace soilhold::cli {

namespace {

using watershed::FactorGiven;

std::optional<double> number_in(const std::string& text) {
    try {
        return units::read_number(text);
    } catch (const units::ReadingError&) {
        return std::nullopt;
    }
}

/// The mean of the middle of a raster: what its values would be in either unit, a reader can tell.
std::optional<double> mean_in_the_middle(const std::string& path) {
    const raster::Layer layer(path);
    const raster::Placement& place = layer.placement();
    constexpr std::int64_t side = 64;
    const raster::Window middle{std::max<std::int64_t>(0, place.rows / 2 - side / 2),
                                std::max<std::int64_t>(0, place.columns / 2 - side / 2), std::min(side, place.rows),
                                std::min(side, place.columns)};
    double sum = 0, cells = 0;
    const auto values = layer.values(1, middle);
    for (const float value : values.values())
        if (!std::isnan(value)) sum += static_cast<double>(value), cells += 1;
    return cells > 0 ? std::optional<double>(sum / cells) : std::nullopt;
}

/// R or K: a figure with its unit, or a raster with the unit of its values after its name.
FactorGiven with_unit(const char* option, units::Kind kind, const std::string& text, const char* range, double most) {
    const std::size_t space = text.rfind(' ');
    const std::string last = space == std::string::npos ? "" : text.substr(space + 1);
    const units::Unit* unit = units::find_unit(kind, last);
    const std::string name = unit ? text.substr(0, text.find_last_not_of(' ', space) + 1) : text;
    FactorGiven given;
    if (number_in(name)) {
        try {
            given.value = units::read(kind, text).si;
        } catch (const units::ReadingError& error) {
            throw std::invalid_argument(fmt::format("{} {}: {}", option, text, error.what()));
        }
        if (!(given.value >= 0 && given.value <= most))
            throw std::invalid_argument(fmt::format("{} {}: that can't be; {}.", option, text, range));
        return given;
    }
    given.path = name;
    if (unit) {
        given.unit = unit->factor;
        return given;
    }
    const std::optional<double> mean = mean_in_the_middle(name);
    throw std::invalid_argument(
        fmt::format("{0} {1}: say in which unit its values are: {0} \"{1} US\" or {0} \"{1} SI\".{2}", option, name,
                    mean ? fmt::format(" In its middle they are about {}.",
                                       units::both_readings(kind, std::stod(units::figures(*mean, 3))))
                         : ""));
}

FactorGiven without_unit(const char* option, const std::string& text, double most) {
    FactorGiven given;
    if (const auto number = number_in(text)) {
        if (!(*number >= 0 && *number <= most))
            throw std::invalid_argument(fmt::format("{} {}: it lies between 0 and {:g}.", option, text, most));
        given.value = *number;
    } else {
        given.path = text;
    }
    return given;
}

}  // namespace

std::optional<watershed::FactorsGiven> read_factors(const FactorWords& words) {
    if (!words.any()) return std::nullopt;
    const std::pair<const char*, const std::string*> wanted[] = {
        {"--rain", &words.rain}, {"--soil", &words.soil}, {"--cover", &words.cover}};
    for (const auto& [option, text] : wanted)
        if (text->empty())
            throw std::invalid_argument(
                fmt::format("A loss needs --rain, --soil and --cover (and takes --practice); {} is missing.", option));
    watershed::FactorsGiven given;
    given[0] =
        with_unit("--rain", units::Kind::erosivity, words.rain, "R lies between 0 and 1760 US (30 000 SI)", 30000);
    given[1] = with_unit("--soil", units::Kind::erodibility, words.soil,
                         "K lies between 0.02 and 0.7 US (0.003 and 0.09 SI)", units::erodibility_si_per_us);
    given[2] = without_unit("--cover", words.cover, 1.2);
    if (!words.practice.empty()) given[3] = without_unit("--practice", words.practice, 1);
    return given;
}

std::string factor_words(const watershed::FactorsGiven& given) {
    std::string all;
    for (std::size_t i = 0; i < given.size(); ++i) {
        const FactorGiven& one = given[i];
        const char* unit = i < 2 ? " SI" : "";
        all += fmt::format("{}{} ", all.empty() ? "" : "; ", watershed::factor_symbols[i]);
        if (one.path.empty())
            all += fmt::format("{:.4g}{}", one.value, unit);
        else
            all += one.path + (one.unit == 1 ? unit : fmt::format(" times {:.4g}{}", one.unit, unit));
    }
    return all;
}

}  // namespace soilhold::cli
