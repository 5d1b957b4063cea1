#include "input/rotation_dates.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <vector>

namespace soilhold::input {

namespace {

constexpr auto months = std::to_array<std::string_view>({"January", "February", "March", "April", "May", "June", "July",
                                                         "August", "September", "October", "November", "December"});

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A whole number of at most four digits, or nothing.
std::optional<int> number_of(std::string_view word) {
    if (word.empty() || word.size() > 4 || !std::all_of(word.begin(), word.end(), is_digit)) return std::nullopt;
    int value = 0;
    for (const char c : word) value = 10 * value + (c - '0');
    return value;
}

/// "5", "5th", "1st".
std::optional<int> day_number(std::string_view word) {
    for (const std::string_view ending : {"st", "nd", "rd", "th"})
        if (word.size() > 2 && word.ends_with(ending)) return number_of(word.substr(0, word.size() - 2));
    return number_of(word);
}

/// 1..12 of a month or its first three letters or more, or nothing.
std::optional<int> month_of(std::string_view word) {
    if (word.ends_with('.')) word.remove_suffix(1);
    if (word.size() < 3) return std::nullopt;
    for (std::size_t m = 0; m < months.size(); ++m)
        if (lower_case(months[m]).starts_with(word)) return static_cast<int>(m) + 1;
    return std::nullopt;
}

std::vector<std::string> words_in(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : lower_case(text) + " ") {
        if (c != ' ' && c != ',' && c != '\t' && c != '\n') {
            word += c;
        } else if (!word.empty()) {
            words.push_back(word);
            word.clear();
        }
    }
    return words;
}

/// 5/1, 05-01, 1.5., 2026-05-01: its numbers, or none.
std::vector<int> numbers_in(std::string_view word) {
    std::vector<int> numbers;
    std::string digits;
    for (const char c : std::string(word) + "/") {
        if (is_digit(c)) {
            digits += c;
        } else if (c == '/' || c == '-' || c == '.') {
            if (digits.empty()) continue;
            const auto number = number_of(digits);
            if (!number) return {};
            numbers.push_back(*number);
            digits.clear();
        } else {
            return {};
        }
    }
    return numbers.size() < 2 ? std::vector<int>{} : numbers;
}

bool is_date(int month, int day) {
    try {
        rotation::day_of_year(month, day);
        return true;
    } catch (const std::invalid_argument&) {
        return false;
    }
}

std::string named(int month, int day) { return fmt::format("{} {}", months[static_cast<std::size_t>(month - 1)], day); }

/// What to say of a date in numbers.
std::string advice_on(const std::string& text, const std::vector<int>& numbers) {
    if (numbers.size() > 2)
        return fmt::format(
            "'{}' is a date of the calendar, and a rotation repeats. Write the year of the rotation: "
            "'year 1 May 1'",
            text);
    const bool month_first = is_date(numbers[0], numbers[1]), day_first = is_date(numbers[1], numbers[0]);
    if (month_first && day_first && numbers[0] != numbers[1])
        return fmt::format("'{}' could be {} or {}. Write the month as a word", text, named(numbers[0], numbers[1]),
                           named(numbers[1], numbers[0]));
    if (month_first || day_first)
        return fmt::format("'{}' is written in numbers, which are read in two orders. Write the month as a word: {}",
                           text, month_first ? named(numbers[0], numbers[1]) : named(numbers[1], numbers[0]));
    return fmt::format("'{}' is no day. Write it like 'year 1 May 1'", text);
}

struct Written {
    std::optional<int> year, month, day;
};

/// The parts of a date, or what is wrong with them.
std::optional<Written> parts_of(const std::string& text, std::string& wrong) {
    Written found;
    const std::vector<std::string> words = words_in(text);
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (word == "of" || word == "in" || word == "the") continue;
        if (word == "year" && !found.year && i + 1 < words.size()) {
            found.year = number_of(words[++i]);
            if (found.year) continue;
        } else if (const auto month = month_of(word); month && !found.month) {
            found.month = month;
            continue;
        } else if (const auto day = day_number(word); day && !found.day) {
            found.day = day;
            continue;
        }
        const std::vector<int> numbers = numbers_in(word);
        wrong = numbers.empty() ? fmt::format("'{}' is no day of a rotation. Write it like 'year 1 May 1'", text)
                                : advice_on(word, numbers);
        return std::nullopt;
    }
    if (found.month && found.day) return found;
    wrong = fmt::format("'{}' names no {}. Write a day like 'year 1 May 1'", text, found.month ? "day" : "month");
    return std::nullopt;
}

}  // namespace

std::optional<rotation::Day> day_of(const Section& section, std::string_view key, int years) {
    const Node* node = section.find(key);
    if (node == nullptr) return std::nullopt;
    const Reader& reader = section.reader();
    const auto text = scalar_text(reader, *node, key);
    if (!text) return std::nullopt;
    std::string wrong;
    const auto parts = parts_of(readable(*text, 60), wrong);
    if (!parts) {
        reader.mistake(node->at, "rotation-day", wrong);
        return std::nullopt;
    }
    if (!is_date(*parts->month, *parts->day)) {
        reader.mistake(node->at, "rotation-day", fmt::format("There is no {}", named(*parts->month, *parts->day)));
        return std::nullopt;
    }
    if (!parts->year && years > 1) {
        reader.mistake(node->at, "rotation-year",
                       fmt::format("'{}' stands {} times in a rotation of {} years. Say which: 'year 1 {}'",
                                   readable(*text, 60), years, years, named(*parts->month, *parts->day)));
        return std::nullopt;
    }
    const int year = parts->year.value_or(1);
    if (year < 1 || year > years) {
        reader.mistake(node->at, "rotation-year",
                       fmt::format("Year {} is not within this rotation, which has {}", year,
                                   years == 1 ? "1 year" : fmt::format("years 1 to {}", years)));
        return std::nullopt;
    }
    return rotation::Day{year, rotation::day_of_year(*parts->month, *parts->day)};
}

std::string words_of(const rotation::Day& day) {
    int month = 12;
    while (month > 1 && rotation::day_of_year(month, 1) > day.day) --month;
    return fmt::format("year {} {}", day.year, named(month, day.day - rotation::day_of_year(month, 1) + 1));
}

}  // namespace soilhold::input
