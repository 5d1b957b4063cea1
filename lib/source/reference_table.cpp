#include "source/reference_table.h"

#include <cstdlib>
#include <map>
#include <memory>
#include <stdexcept>

namespace soilhold::source {

const std::string& Row::text(std::string_view column) const {
    for (std::size_t i = 0; i < header_->size(); ++i)
        if ((*header_)[i] == column) return cells_.at(i);
    throw std::out_of_range("no column '" + std::string(column) + "'");
}

double Row::number(std::string_view column) const {
    const std::string& cell = text(column);
    char* end = nullptr;
    const double value = std::strtod(cell.c_str(), &end);
    if (cell.empty() || *end != '\0')
        throw std::runtime_error("column '" + std::string(column) + "' holds '" + cell + "', not a number");
    return value;
}

std::vector<std::vector<std::string>> split_csv(std::string_view text) {
    std::vector<std::vector<std::string>> lines;
    std::vector<std::string> cells;
    std::string cell;
    bool quoted = false;
    bool any = false;
    const auto end_cell = [&] {
        cells.push_back(std::move(cell));
        cell.clear();
    };
    const auto end_line = [&] {
        if (any || !cell.empty() || !cells.empty()) {
            end_cell();
            lines.push_back(std::move(cells));
        }
        cells.clear();
        cell.clear();
        any = false;
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) {
            if (c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
                cell += '"';
                ++i;
            } else if (c == '"') {
                quoted = false;
            } else {
                cell += c;
            }
        } else if (c == '"') {
            quoted = any = true;
        } else if (c == ',') {
            any = true;
            end_cell();
        } else if (c == '\n') {
            end_line();
        } else if (c != '\r') {
            any = true;
            cell += c;
        }
    }
    end_line();
    return lines;
}

namespace {

using Tables = std::map<std::string, std::unique_ptr<Table>, std::less<>>;

Tables parse_all() {
    Tables tables;
    for (const auto& [name, text] : embedded_tables()) {
        auto parsed = std::make_unique<Table>();
        parsed->name = std::string(name);
        auto lines = split_csv(text);
        if (!lines.empty()) parsed->header = lines.front();
        for (std::size_t i = 1; i < lines.size(); ++i) {
            if (lines[i].size() != parsed->header.size())
                throw std::runtime_error("data/reference/" + parsed->name + ".csv, row " + std::to_string(i + 1) +
                                         ": " + std::to_string(lines[i].size()) + " cells under " +
                                         std::to_string(parsed->header.size()) + " headings");
            parsed->rows.emplace_back(&parsed->header, std::move(lines[i]));
        }
        tables.emplace(parsed->name, std::move(parsed));
    }
    return tables;
}

}  // namespace

const Table& table(std::string_view name) {
    static const Tables tables = parse_all();
    const auto found = tables.find(name);
    if (found == tables.end()) throw std::out_of_range("no table data/reference/" + std::string(name) + ".csv");
    return *found->second;
}

const Row& row_where(const Table& table, std::string_view column, std::string_view value) {
    for (const Row& row : table.rows)
        if (row.text(column) == value) return row;
    throw std::out_of_range("data/reference/" + table.name + ".csv has no row with " + std::string(column) + " = " +
                            std::string(value));
}

}  // namespace soilhold::source
