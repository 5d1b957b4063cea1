#include "input/time_stamp.h"

#include <chrono>
#include <cmath>
#include <string>

namespace soilhold::input {

namespace {

/// Walks along the bytes of a stamp.
struct Reader {
    std::string_view text;
    std::size_t at = 0;

    bool done() const { return at >= text.size(); }
    char peek() const { return done() ? '\0' : text[at]; }
    bool take(char c) {
        if (peek() != c) return false;
        ++at;
        return true;
    }
    void spaces() {
        while (peek() == ' ') ++at;
    }
    /// A whole number of at most `most` digits; how many it had, 0 for none.
    int number(int& value, int most) {
        int digits = 0;
        value = 0;
        while (digits < most && peek() >= '0' && peek() <= '9') {
            value = 10 * value + (text[at++] - '0');
            ++digits;
        }
        return digits;
    }
};

bool letter_is(char c, char upper) { return c == upper || c == static_cast<char>(upper - 'A' + 'a'); }

/// Days since 1970, counted by hand: a million stamps ask for it.
int days_since_1970(int year, int month, int day) {
    const int shifted = month <= 2 ? year - 1 : year;
    const int era = (shifted >= 0 ? shifted : shifted - 399) / 400;
    const int of_era = shifted - era * 400;
    const int of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
    return era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719468;
}

int days_of_month(int year, int month) {
    constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return month == 2 && leap ? 29 : days[month - 1];
}

/// Hours, minutes, seconds and the half of the day.
bool read_clock(Reader& in, double& minutes) {
    int hour = 0, minute = 0, second = 0;
    const int digits = in.number(hour, 4);
    if (digits == 0) return false;
    double fraction = 0.0;
    if (digits >= 3) {
        minute = hour % 100;
        hour /= 100;
    } else {
        if (!in.take(':') || in.number(minute, 2) != 2) return false;
        if (in.take(':')) {
            if (in.number(second, 2) != 2) return false;
            if (in.take('.'))
                for (double place = 0.1; in.peek() >= '0' && in.peek() <= '9'; place /= 10.0)
                    fraction += place * (in.text[in.at++] - '0');
        }
    }
    const std::size_t before = in.at;
    in.spaces();
    const bool am = letter_is(in.peek(), 'A'), pm = letter_is(in.peek(), 'P');
    if ((am || pm) && in.at + 1 < in.text.size() && letter_is(in.text[in.at + 1], 'M')) {
        in.at += 2;
        if (hour < 1 || hour > 12) return false;
        hour = hour % 12 + (pm ? 12 : 0);
    } else {
        in.at = before;
    }
    if (minute > 59 || second > 60 || hour > 24 || (hour == 24 && (minute > 0 || second > 0))) return false;
    minutes = 60.0 * hour + minute + (second + fraction) / 60.0;
    return true;
}

/// Z, +05:30, -0600, -06.
bool read_offset(Reader& in, std::optional<int>& offset) {
    in.spaces();
    if (in.done()) return true;
    if (in.take('Z') || in.take('z')) {
        offset = 0;
    } else if (in.peek() == '+' || in.peek() == '-') {
        const int sign = in.text[in.at++] == '-' ? -1 : 1;
        int hours = 0, minutes = 0;
        if (in.number(hours, 2) != 2) return false;
        const bool colon = in.take(':');
        const int digits = in.number(minutes, 2);
        if ((digits != 0 && digits != 2) || (colon && digits == 0) || hours > 14 || minutes > 59) return false;
        offset = sign * (60 * hours + minutes);
    }
    in.spaces();
    return in.done();
}

}  // namespace

TimeStamp read_time_stamp(std::string_view text) {
    TimeStamp stamp;
    const auto fail = [&](const char* why) {
        stamp.wrong = why;
        return stamp;
    };
    Reader in{text};
    in.spaces();
    int year = 0, month = 0, day = 0, first = 0;
    const int digits = in.number(first, 8);
    bool compact_time = false;
    if (digits == 8) {
        year = first / 10000;
        month = first / 100 % 100;
        day = first % 100;
        compact_time = in.peek() >= '0' && in.peek() <= '9';
    } else if (digits == 4 && (in.peek() == '-' || in.peek() == '/')) {
        const char between = in.text[in.at++];
        year = first;
        if (in.number(month, 2) == 0 || !in.take(between) || in.number(day, 2) == 0)
            return fail("a date is written year-month-day");
    } else if ((digits == 1 || digits == 2) && (in.peek() == '/' || in.peek() == '-')) {
        const char between = in.text[in.at++];
        month = first;
        if (in.number(day, 2) == 0 || !in.take(between)) return fail("a date is written month/day/year");
        const int year_digits = in.number(year, 4);
        if (year_digits == 2)
            year += year < 70 ? 2000 : 1900;
        else if (year_digits != 4)
            return fail("a year has four digits");
        if (month > 12 && day <= 12) return fail("the month comes first in this form; write year-month-day instead");
    } else {
        return fail("a time is written like 2016-05-31 14:05 or 5/31/2016 14:05");
    }
    if (year < 1800 || year > 2200) return fail("the year lies outside 1800 to 2200");
    if (month < 1 || month > 12) return fail("there is no such month");
    if (day < 1 || day > days_of_month(year, month)) return fail("the month has no such day");
    stamp.minute = 1440.0 * days_since_1970(year, month, day);

    if (!in.take('T')) in.take('t');
    in.spaces();
    if (in.done()) return stamp;
    double minutes = 0.0;
    if (compact_time) {
        int clock = 0;
        if (in.number(clock, 4) != 4 || clock / 100 > 24 || clock % 100 > 59)
            return fail("the time of day is written hour:minute");
        minutes = 60.0 * (clock / 100) + clock % 100;
        int seconds = 0;
        if (in.number(seconds, 2) == 2) minutes += seconds / 60.0;
    } else if (!read_clock(in, minutes)) {
        return fail("the time of day is written hour:minute, 00:00 to 24:00");
    }
    stamp.minute += minutes;
    stamp.has_time = true;
    if (!read_offset(in, stamp.offset_min)) return fail("what follows the time is no offset like Z or -06:00");
    return stamp;
}

std::optional<double> read_time_of_day(std::string_view text) {
    Reader in{text};
    in.spaces();
    double minutes = 0.0;
    if (!read_clock(in, minutes)) return std::nullopt;
    in.spaces();
    return in.done() ? std::optional<double>(minutes) : std::nullopt;
}

std::string_view plain_stamp(double minute, char (&buffer)[17]) {
    const auto whole = static_cast<long long>(std::floor(minute + 1e-6));
    const auto day = static_cast<int>(std::floor(static_cast<double>(whole) / 1440.0));
    const auto of_day = static_cast<unsigned>(whole - 1440LL * day);
    const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{day}}};
    const auto put = [&](std::size_t at, unsigned value, std::size_t digits) {
        for (std::size_t i = digits; i-- > 0; value /= 10U) buffer[at + i] = static_cast<char>('0' + value % 10U);
    };
    put(0, static_cast<unsigned>(static_cast<int>(date.year())), 4);
    put(5, static_cast<unsigned>(date.month()), 2);
    put(8, static_cast<unsigned>(date.day()), 2);
    put(11, of_day / 60U, 2);
    put(14, of_day % 60U, 2);
    buffer[4] = buffer[7] = '-';
    buffer[10] = ' ';
    buffer[13] = ':';
    buffer[16] = '\0';
    return {buffer, 16};
}

}  // namespace soilhold::input
