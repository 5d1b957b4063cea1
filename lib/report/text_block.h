/// Text broken into lines of a width, and cut with an ellipsis where only so many lines may stand.
#pragma once

#include <string>
#include <vector>

#include "report/scene.h"

namespace soilhold::report {

/// How a paragraph is set.
struct TextStyle {
    double size = 10.0;
    bool bold = false;
    double leading = 1.36;  ///< from baseline to baseline, in sizes
    double line_height() const { return size * leading; }
};

/// Lines no wider than `width`; a word that is wider breaks between letters. Never empty unless the text is.
/// @param most_lines  0: as many as it takes; else the last line ends in an ellipsis when more was to come
std::vector<std::string> broken(const std::string& text, double width, const TextStyle& style, const Measure& measure,
                                std::size_t most_lines = 0);

/// Letters of UTF-8 text up to `most`, the rest an ellipsis.
std::string shortened(const std::string& text, std::size_t most);

/// The same with the ellipsis in the middle: field names often differ only at their end.
std::string shortened_within(const std::string& text, std::size_t most);

/// Sets a paragraph with its top at `top` and returns where the next may begin.
double set_paragraph(Group& group, const std::string& text, Point top_left, double width, const TextStyle& style,
                     const Measure& measure, std::size_t most_lines = 0);

}  // namespace soilhold::report
