#include "units/reading.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <numbers>

#include "units/printing.h"

namespace soilhold::units {

namespace {

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos) return {};
    const auto last = text.find_last_not_of(" \t\r\n");
    return text.substr(first, last - first + 1);
}

bool starts_number(char c) { return (c >= '0' && c <= '9') || c == '+' || c == '-' || c == '.'; }

/// How far a decimal number reaches into the text; 0 when there is none. Locale-free.
std::size_t number_length(std::string_view text) {
    std::size_t at = 0;
    if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
    const std::size_t digits_from = at;
    bool digit = false;
    while (at < text.size() && ((text[at] >= '0' && text[at] <= '9') || text[at] == '.')) {
        digit = digit || text[at] != '.';
        ++at;
    }
    if (!digit) return 0;
    // An exponent only when digits follow: "5e3", but not the "e" of a unit.
    if (at + 1 < text.size() && (text[at] == 'e' || text[at] == 'E')) {
        std::size_t exponent = at + 1;
        if (text[exponent] == '+' || text[exponent] == '-') ++exponent;
        if (exponent < text.size() && text[exponent] >= '0' && text[exponent] <= '9') {
            while (exponent < text.size() && text[exponent] >= '0' && text[exponent] <= '9') ++exponent;
            at = exponent;
        }
    }
    return at > digits_from ? at : 0;
}

[[noreturn]] void comma(std::string_view text) {
    throw ReadingError("comma",
                       fmt::format("'{}' has a comma, which could mark decimals or thousands; write the number "
                                   "with a decimal point and no separators, like 1200 or 8.5",
                                   text));
}

std::string known_units(Kind kind) {
    std::string list;
    for (const Unit& unit : all_units())
        if (unit.kind == kind) list += fmt::format("{}{}", list.empty() ? "" : ", ", unit.symbol);
    if (kind == Kind::steepness) list += ", degrees";
    return list;
}

double parse(std::string_view digits, std::string_view whole) {
    if (digits.find('.') != digits.rfind('.'))
        throw ReadingError("not-a-number", fmt::format("'{}' is not a number: it has two decimal points", whole));
    const double value = std::strtod(std::string(digits).c_str(), nullptr);
    if (!std::isfinite(value))
        throw ReadingError("not-finite", fmt::format("'{}' is too large to be a number here", whole));
    return value;
}

Reading with_unit(Kind kind, double number, std::string_view symbol, std::string_view whole) {
    if (kind == Kind::steepness && (symbol == "degrees" || symbol == "degree" || symbol == "deg" || symbol == "°")) {
        if (!(number > -90.0 && number < 90.0))
            throw ReadingError("range", fmt::format("'{}' is no slope: an angle lies between 0 and 90 degrees", whole));
        return {std::tan(number * std::numbers::pi / 180.0), number, nullptr};
    }
    if (const Unit* unit = find_unit(kind, symbol)) return {number * unit->factor + unit->offset, number, unit};
    for (const Unit& unit : all_units())
        if (unit.symbol == symbol)
            throw ReadingError("wrong-kind",
                               fmt::format("'{}': {} measures {}, and {} is wanted; units that fit: {}", whole, symbol,
                                           name_of(unit.kind), name_of(kind), known_units(kind)));
    throw ReadingError("unknown-unit", fmt::format("'{}': no unit '{}' is known for {}; units that fit: {}", whole,
                                                   symbol, name_of(kind), known_units(kind)));
}

}  // namespace

double read_number(std::string_view text) {
    const std::string_view body = trimmed(text);
    if (body.find(',') != std::string_view::npos && !body.empty() && starts_number(body.front())) comma(body);
    const std::size_t length = number_length(body);
    if (length == 0 || length != body.size())
        throw ReadingError("not-a-number", fmt::format("'{}' is not a number", body));
    return parse(body, body);
}

Reading read(Kind kind, std::string_view text) {
    const std::string_view body = trimmed(text);
    if (body.find(',') != std::string_view::npos && !body.empty() && starts_number(body.front())) comma(body);
    const std::size_t length = number_length(body);
    if (length == 0)
        throw ReadingError("not-a-number",
                           fmt::format("'{}' does not give {}: a number and its unit belong here, like {}", body,
                                       name_of(kind), print(kind, 1.0, System::us)));
    const double number = parse(body.substr(0, length), body);
    const std::string_view symbol = trimmed(body.substr(length));
    if (symbol.empty())
        throw ReadingError("no-unit", fmt::format("'{}' has no unit: write {}", body, both_readings(kind, number)));
    return with_unit(kind, number, symbol, body);
}

std::pair<Reading, Reading> read_range(Kind kind, std::string_view text) {
    const std::string_view body = trimmed(text);
    const auto to = body.find(" to ");
    if (to == std::string_view::npos)
        throw ReadingError("not-a-number",
                           fmt::format("'{}' is not a range: write it as low to high with the unit", body));
    const Reading high = read(kind, body.substr(to + 4));
    const std::string_view low_text = trimmed(body.substr(0, to));
    const std::size_t length = number_length(low_text);
    Reading low;
    if (length == low_text.size() && length > 0) {
        const double number = parse(low_text, low_text);
        low = high.unit ? Reading{number * high.unit->factor + high.unit->offset, number, high.unit}
                        : with_unit(kind, number, "degrees", low_text);
    } else {
        low = read(kind, low_text);
    }
    if (low.si > high.si)
        throw ReadingError("range", fmt::format("'{}' runs from high to low; write the smaller value first", body));
    return {low, high};
}

std::string both_readings(Kind kind, double number) {
    const std::string shown = fmt::format("{:.10g}", number);
    if (kind == Kind::steepness) {
        std::string text = fmt::format("{0} % or {0} degrees", shown);
        if (number > -90 && number < 90)
            text += fmt::format(" ({} degrees is {} %)", shown,
                                figures(100 * std::tan(number * std::numbers::pi / 180.0), 3));
        return text;
    }
    const Unit& us = printed_unit(kind, System::us);
    const Unit& metric = printed_unit(kind, System::metric);
    if (us.symbol == metric.symbol) return fmt::format("{} {}", shown, us.symbol);
    return fmt::format("{} {} ({}) or {} {} ({})", shown, us.symbol,
                       print(kind, number * us.factor + us.offset, System::metric), shown, metric.symbol,
                       print(kind, number * metric.factor + metric.offset, System::us));
}

}  // namespace soilhold::units
