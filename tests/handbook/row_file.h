/// The rows of tests/handbook/rows/<name>.csv as column -> cell, for one test a row.
#pragma once

#include <fstream>
#include <map>
#include <ostream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "source/reference_table.h"

namespace soilhold::rows {

struct Row {
    std::map<std::string, std::string> cells;
    std::size_t number = 0;  ///< line in the file
    const std::string& text(const std::string& column) const { return cells.at(column); }
    double value(const std::string& column) const { return std::stod(cells.at(column)); }
    bool empty(const std::string& column) const { return cells.at(column).empty(); }
};

/// A failing test prints its whole row.
inline void PrintTo(const Row& row, std::ostream* out) {
    *out << "line " << row.number << ":";
    for (const auto& [column, cell] : row.cells) *out << " " << column << "=" << cell;
}

inline std::vector<Row> read(const std::string& name) {
    std::ifstream file(std::string(SOILHOLD_ROOT) + "/tests/handbook/rows/" + name);
    if (!file) throw std::runtime_error("no rows " + name);
    std::ostringstream text;
    text << file.rdbuf();
    const auto lines = source::split_csv(text.str());
    std::vector<Row> rows;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        Row row;
        row.number = i + 1;
        for (std::size_t c = 0; c < lines[0].size(); ++c) row.cells[lines[0][c]] = lines[i].at(c);
        rows.push_back(row);
    }
    return rows;
}

/// "line_12": the name of a row's test.
template <class Info>
std::string name_of(const Info& info) {
    return "line_" + std::to_string(info.param.number);
}

}  // namespace soilhold::rows
