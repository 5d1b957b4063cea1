#include "raster/height_unit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "raster/gdal_session.h"

namespace soilhold::raster {

namespace {

constexpr double us_survey_foot_m = 1200.0 / 3937.0;

bool any_of(const std::string& word, std::initializer_list<std::string_view> spellings) {
    return std::ranges::find(spellings, word) != spellings.end();
}

}  // namespace

std::optional<LengthUnit> length_unit(const std::string& text) {
    // Letters alone tell the spellings apart: "US_survey_foot", "us-ft", "Foot (US)".
    std::string word;
    for (const char letter : text) {
        if (letter >= 'A' && letter <= 'Z') word += static_cast<char>(letter - 'A' + 'a');
        if (letter >= 'a' && letter <= 'z') word += letter;
    }
    if (any_of(word, {"m", "metre", "metres", "meter", "meters"})) return LengthUnit{1, "metres"};
    if (any_of(word, {"ft", "foot", "feet", "internationalfoot", "internationalfeet", "footintl", "ifoot"}))
        return LengthUnit{0.3048, "feet"};
    if (any_of(word, {"usft", "ftus", "ussurveyfoot", "ussurveyfeet", "surveyfoot", "surveyfeet", "footus", "sfoot",
                      "ussurveyft"}))
        return LengthUnit{us_survey_foot_m, "US survey feet"};
    if (any_of(word, {"cm", "centimetre", "centimetres", "centimeter", "centimeters"}))
        return LengthUnit{0.01, "centimetres"};
    if (any_of(word, {"dm", "decimetre", "decimetres", "decimeter", "decimeters"}))
        return LengthUnit{0.1, "decimetres"};
    if (any_of(word, {"mm", "millimetre", "millimetres", "millimeter", "millimeters"}))
        return LengthUnit{0.001, "millimetres"};
    return std::nullopt;
}

std::optional<LengthUnit> vertical_unit(const Placement& placement) {
    const Reference reference = reference_of(placement.crs);
    if (!reference || OSRIsVertical(reference.get()) == 0) return std::nullopt;
    const Listening quiet;
    char* name = nullptr;
    const double metres = OSRGetTargetLinearUnits(reference.get(), "VERT_CS", &name);
    if (!(metres > 0)) return std::nullopt;
    for (const char* known : {"m", "ft", "ftUS"}) {
        const std::optional<LengthUnit> unit = length_unit(known);
        if (std::abs(metres / unit->metres - 1) < 1e-9) return unit;
    }
    return LengthUnit{metres, text_or_empty(name)};
}

}  // namespace soilhold::raster
