#include "input/gauge_value.h"

#include <cstdint>

namespace soilhold::input {

namespace {

constexpr double powers_of_ten[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                    1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

bool same_letters(std::string_view text, std::string_view lower) {
    if (text.size() != lower.size()) return false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i] >= 'A' && text[i] <= 'Z' ? static_cast<char>(text[i] - 'A' + 'a') : text[i];
        if (c != lower[i]) return false;
    }
    return true;
}

bool is_word_for_missing(std::string_view text) {
    for (const char* word : {"",   "-",  "--",  "---", "na",  "n/a", "nan", "null", "none", "m",
                             "mm", "nd", "eqp", "ice", "bkw", "dis", "mnt", "ssn",  "***",  "missing"})
        if (same_letters(text, word)) return true;
    return false;
}

/// Nines alone, but for a point and zeros after it: -9999, -99.9, -999.000.
bool only_nines(std::string_view digits) {
    bool point = false, zeros = false, nine = false;
    for (const char c : digits) {
        if (c == '.')
            point = true;
        else if (c == '9' && !zeros)
            nine = true;
        else if (c == '0' && point)
            zeros = true;
        else
            return false;
    }
    return nine;
}

bool is_number_for_missing(std::string_view text) {
    if (text[0] == '-') {
        const std::string_view digits = text.substr(1);
        return only_nines(digits) || digits == "6999" || digits == "7999";
    }
    return text == "999.99" || (text.size() >= 4 && text.find('.') == std::string_view::npos && only_nines(text));
}

}  // namespace

GaugeValue read_gauge_value(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    if (text == "0" || text == "0.00") return {ValueIs::depth, 0.0};
    std::size_t at = 0;
    const bool negative = !text.empty() && text[0] == '-';
    if (!text.empty() && (text[0] == '-' || text[0] == '+')) ++at;
    std::uint64_t mantissa = 0;
    int digits = 0, after_point = 0, kept = 0;
    bool point = false;
    for (; at < text.size(); ++at) {
        const char c = text[at];
        if (c == '.' && !point) {
            point = true;
            continue;
        }
        if (c < '0' || c > '9') break;
        ++digits;
        // Digits beyond the fifteenth carry nothing a gauge can know.
        if (kept >= 15) {
            if (!point) return {};
            continue;
        }
        mantissa = 10U * mantissa + static_cast<std::uint64_t>(c - '0');
        if (mantissa > 0) ++kept;
        if (point) ++after_point;
        if (after_point >= 15) kept = 15;
    }
    if (digits == 0) {
        if (is_word_for_missing(text)) return {ValueIs::missing, 0.0};
        if (same_letters(text, "t") || same_letters(text, "trace")) return {ValueIs::trace, 0.0};
        return {};
    }
    double value = static_cast<double>(mantissa) / powers_of_ten[after_point];
    if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
        ++at;
        const bool down = at < text.size() && text[at] == '-';
        if (at < text.size() && (text[at] == '-' || text[at] == '+')) ++at;
        int exponent = 0, exponent_digits = 0;
        for (; at < text.size() && text[at] >= '0' && text[at] <= '9'; ++at, ++exponent_digits)
            if (exponent < 100) exponent = 10 * exponent + (text[at] - '0');
        if (exponent_digits == 0) return {};
        for (; exponent > 0 && value != 0.0 && value < 1e300 && value > 1e-300; --exponent)
            value = down ? value / 10.0 : value * 10.0;
    }
    if (at != text.size()) return {};
    if (is_number_for_missing(text)) return {ValueIs::missing, 0.0};
    return {ValueIs::depth, negative ? -value : value};
}

}  // namespace soilhold::input
