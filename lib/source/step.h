/// One line of the working behind a value, as in a worked exercise: the equation, the numbers in it, the result.
///
/// Steps are made where the value is made, from the very numbers used, and only printed elsewhere. The numbers in a
/// working have five figures, enough for a pocket calculator to come to the value shown.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "source/citation.h"

namespace soilhold::source {

struct Step {
    std::string symbol;    ///< "F", "sin t"; empty for a range or a figure without one
    std::string words;     ///< what it is: "modified Fournier index"
    std::string equation;  ///< in symbols: "sum p^2 / P"; empty where nothing is worked out
    std::string working;   ///< with the numbers in: "69093 / 889", of + - x / ^ sqrt exp ln min max; or empty
    double value = 0.0;
    std::string unit;               ///< "mm", "1" for none, "MJ mm/(ha h yr)"
    Origin origin;                  ///< whose equation or figure
    std::optional<double> upper{};  ///< where the step is a range: its upper end, `value` being the lower
    std::string upper_working{};
};

using Steps = std::vector<Step>;

/// A number as it stands in a working: five figures, no trailing zeros; a negative one in brackets.
std::string in_working(double value, int figures = 5);

/// A working, and the limit that holds its value where one does: `free` is what it comes to, `kept` what was used.
std::string held_working(const std::string& working, double free, double kept);

/// The numbers joined: "58 + 49 + 61"; `power` is written after each: "58^2 + 49^2".
template <class Numbers>
std::string sum_in_working(const Numbers& numbers, const char* power = "") {
    std::string text;
    for (const double number : numbers) text += (text.empty() ? "" : " + ") + in_working(number) + power;
    return text;
}

}  // namespace soilhold::source
