#include "factors/slope_class.h"

#include <cstdlib>
#include <limits>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace soilhold::factors {

namespace {

std::optional<double> number_in(const std::string& text) {
    char* end = nullptr;
    const double value = std::strtod(text.c_str(), &end);
    while (end && *end == ' ') ++end;
    if (text.empty() || *end != '\0' || !(value >= 0)) return std::nullopt;
    return value;
}

}  // namespace

ClassLimits class_limits(std::string_view written) {
    const std::string text(written);
    if (text == "all") return {0.0, std::numeric_limits<double>::infinity()};
    if (!text.empty() && text[0] == '<')
        if (const auto to = number_in(text.substr(1))) return {0.0, *to};
    if (const auto one = number_in(text)) return {*one, *one};
    const auto dash = text.find('-');
    if (dash != std::string::npos && dash > 0) {
        auto a = number_in(text.substr(0, dash)), b = number_in(text.substr(dash + 1));
        if (a && b) {
            if (*a > *b) std::swap(a, b);
            return {*a, *b};
        }
    }
    throw std::invalid_argument("'" + text + "' is no number and no range such as 3-5 or <16");
}

std::optional<std::size_t> row_of_class(const source::Table& table, std::string_view column, ClassLimits sought,
                                        bool (*belongs)(const source::Row&, std::string_view), std::string_view key) {
    std::vector<std::pair<std::size_t, ClassLimits>> classes;
    for (std::size_t i = 0; i < table.rows.size(); ++i)
        if (!belongs || belongs(table.rows[i], key)) classes.emplace_back(i, class_limits(table.rows[i].text(column)));
    constexpr double hair = 1e-9;
    for (std::size_t i = 0; i < classes.size(); ++i) {
        const ClassLimits own = classes[i].second;
        const double low = i == 0 ? own.from : 0.5 * (classes[i - 1].second.to + own.from);
        const double high = i + 1 == classes.size() ? own.to : 0.5 * (own.to + classes[i + 1].second.from);
        // Where two classes share a printed limit ("<16", "16-20"; "110-140", "140-180") it belongs to the upper one,
        // but a range written with that limit as its end means the class it is the end of.
        const bool above = sought.from >= low - hair;
        const bool below =
            sought.from == sought.to && i + 1 < classes.size() ? sought.to < high - hair : sought.to <= high + hair;
        if (above && below) return classes[i].first;
    }
    return std::nullopt;
}

}  // namespace soilhold::factors
