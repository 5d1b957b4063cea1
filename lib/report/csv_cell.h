/// One cell of a CSV file, quoted where it must be.
/// @source RFC 4180
#pragma once

#include <string>

namespace soilhold::report {

/// The text as it is, or in quotes with its quotes doubled where it holds a comma, a quote or a line break.
inline std::string csv_cell(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

}  // namespace soilhold::report
