#include "input/class_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "input/file_text.h"
#include "input/section.h"
#include "source/reference_table.h"
#include "units/reading.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

constexpr std::size_t most_bytes = 64'000'000;

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(" \t\r\n");
    return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

/// A table with its mistakes; rows count from the line below the headings.
class ClassTable {
  public:
    explicit ClassTable(const std::string& path) : path_(path) {
        std::string text = bytes_of_file(path, most_bytes, "a table as CSV");
        if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
        rows_ = source::split_csv(text);
        std::erase_if(rows_, [](const auto& row) {
            return std::ranges::all_of(row, [](const std::string& cell) { return trimmed(cell).empty(); });
        });
        if (rows_.size() < 2) {
            mistake(1, "empty", "The table holds no row below its headings");
            throw_if_any();
        }
    }

    std::size_t rows() const { return rows_.size() - 1; }
    static int line(std::size_t row) { return static_cast<int>(row) + 2; }

    /// The column whose heading begins with the word; npos for none. What stands behind it is its unit.
    std::size_t column(const std::string& word, std::string* unit = nullptr) const {
        for (std::size_t i = 0; i < rows_[0].size(); ++i) {
            const std::string heading = trimmed(rows_[0][i]), lower = lower_case(heading);
            if (!lower.starts_with(word)) continue;
            std::string rest = trimmed(heading.substr(word.size()));
            if (lower.size() > word.size() && std::isalnum(static_cast<unsigned char>(lower[word.size()]))) continue;
            if (rest.size() > 1 && (rest.front() == '(' || rest.front() == '[') &&
                (rest.back() == ')' || rest.back() == ']'))
                rest = trimmed(rest.substr(1, rest.size() - 2));
            else if (rest.starts_with(','))
                rest = trimmed(rest.substr(1));
            if (unit != nullptr) *unit = rest;
            return i;
        }
        return none;
    }
    std::size_t wanted_column(const std::string& word, std::string* unit = nullptr) {
        const std::size_t found = column(word, unit);
        if (found == none) {
            std::string have;
            for (const std::string& heading : rows_[0]) have += (have.empty() ? "" : ", ") + trimmed(heading);
            mistake(1, "missing", fmt::format("The table has no column '{}'; it has: {}", word, have));
        }
        return found;
    }
    std::string cell(std::size_t row, std::size_t column) const {
        const auto& cells = rows_[row + 1];
        return column < cells.size() ? trimmed(cells[column]) : "";
    }
    std::optional<double> number(std::size_t row, std::size_t column) {
        const std::string text = cell(row, column);
        const std::string lower = lower_case(text);
        if (text.empty() || lower == "na" || lower == "n/a" || lower == "-" || lower == "null") return std::nullopt;
        try {
            return units::read_number(text);
        } catch (const units::ReadingError& error) {
            mistake(line(row), error.code, error.what());
            return std::nullopt;
        }
    }

    void mistake(int line, std::string code, std::string text) {
        if (found_.size() < 20) found_.push_back({{path_, line, 1}, std::move(code), std::move(text), ""});
    }
    void throw_if_any() const {
        if (!found_.empty()) throw InputError(found_);
    }

    static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

  private:
    std::string path_;
    std::vector<std::vector<std::string>> rows_;
    std::vector<Diagnostic> found_;
};

const units::Unit* unit_of(ClassTable& table, units::Kind kind, const std::string& heading, const std::string& given,
                           const char* column) {
    const std::string symbol = heading.empty() ? given : heading;
    const units::Unit* unit = symbol.empty() ? nullptr : units::find_unit(kind, symbol);
    if (unit == nullptr)
        table.mistake(1, symbol.empty() ? "no-unit" : "unknown-unit",
                      symbol.empty() ? fmt::format("The column '{0}' has no unit. Write it behind the heading, like "
                                                   "'{0} {1}'",
                                                   column, kind == units::Kind::erodibility ? "US" : "t/ac")
                                     : fmt::format("'{}' is no unit for '{}'", symbol, column));
    return unit;
}

std::optional<double> percentage(ClassTable& table, std::size_t row, std::size_t column) {
    if (column == ClassTable::none) return std::nullopt;
    const auto written = table.number(row, column);
    if (written && !(*written >= 0 && *written <= 100))
        table.mistake(ClassTable::line(row), "range", fmt::format("{:g} % lies outside 0 to 100 %", *written));
    return written;
}

struct Component {
    double share = 1;
    std::optional<double> K, T;
    SoilWords words;
};

/// The mean by share of the components that have a K and this percentage.
std::optional<double> mean_of(const std::vector<Component>& components, std::optional<double> SoilWords::*percentage) {
    double with = 0, sum = 0;
    for (const Component& one : components)
        if (one.K && one.words.*percentage) with += one.share, sum += one.share * *(one.words.*percentage);
    return with > 0 ? std::optional(sum / with) : std::nullopt;
}

SoilOfUnit as_one(const std::vector<Component>& components, Components how) {
    SoilOfUnit soil;
    double whole = 0, known = 0, K = 0, with_T = 0, T = 0;
    const Component* largest = nullptr;
    for (const Component& one : components) {
        whole += one.share;
        if (!one.K) continue;
        known += one.share;
        K += one.share * *one.K;
        if (one.T) with_T += one.share, T += one.share * *one.T;
        if (largest == nullptr || one.share > largest->share) largest = &one;
    }
    soil.share_known = whole > 0 ? known / whole : 0;
    if (largest != nullptr) soil.words = largest->words;
    if (how == Components::dominant) {
        soil.K = *largest->K;
        soil.tolerance = largest->T;
    } else {
        soil.K = K / known;
        if (with_T > 0) soil.tolerance = T / with_T;
        soil.words.clay_pct = mean_of(components, &SoilWords::clay_pct);
        soil.words.organic_matter_pct = mean_of(components, &SoilWords::organic_matter_pct);
    }
    return soil;
}

}  // namespace

SoilTable read_soil_table(const std::string& path, const std::string& unit, Components how) {
    ClassTable table(path);
    std::string K_heading, T_heading;
    const std::size_t key = table.wanted_column("key"), share = table.column("share");
    const std::size_t K = table.wanted_column("erodibility", &K_heading), T = table.column("tolerance", &T_heading);
    const units::Unit* K_unit = unit_of(table, units::Kind::erodibility, K_heading, unit, "erodibility");
    const units::Unit* T_unit =
        T == ClassTable::none ? nullptr : unit_of(table, units::Kind::soil_loss, T_heading, "", "tolerance");
    const std::size_t clay = table.column("clay"), organic = table.column("organic matter"),
                      texture = table.column("texture");
    table.throw_if_any();

    std::map<std::string, std::vector<Component>> units_found;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const int line = ClassTable::line(row);
        const std::string name = table.cell(row, key);
        if (name.empty()) {
            table.mistake(line, "blank", "This row has no key");
            continue;
        }
        Component one;
        if (share != ClassTable::none) one.share = table.number(row, share).value_or(0);
        if (!(one.share >= 0)) table.mistake(line, "range", fmt::format("The share {:g} is below 0", one.share));
        if (const auto written = table.number(row, K)) {
            one.K = *written * K_unit->factor;
            const double us = *one.K / units::erodibility_si_per_us;
            if (!(*one.K > 0) || us > 1)
                table.mistake(line, us > 1 ? "erodibility-high" : "range",
                              fmt::format("K of {:g} {} can't be right; soils lie between 0.02 and 0.7 US (0.003 and "
                                          "0.09 SI). Leave the cell blank where there is no soil",
                                          *written, K_unit->symbol));
        }
        if (T != ClassTable::none)
            if (const auto written = table.number(row, T)) {
                one.T = *written * T_unit->factor;
                if (!(*one.T > 0) || *one.T > 50)
                    table.mistake(line, "range",
                                  fmt::format("T of {:g} {} can't be right; it lies between 1 and 5 t/ac (2 and 11 "
                                              "t/ha)",
                                              *written, T_unit->symbol));
            }
        one.words.clay_pct = percentage(table, row, clay);
        one.words.organic_matter_pct = percentage(table, row, organic);
        if (texture != ClassTable::none) one.words.texture = lower_case(table.cell(row, texture));
        units_found[name].push_back(one);
    }
    table.throw_if_any();

    SoilTable result;
    for (const auto& [name, components] : units_found) {
        const bool any = std::ranges::any_of(components, [](const Component& one) { return one.K && one.share > 0; });
        if (any)
            result.units[name] = as_one(components, how);
        else
            result.without_K.push_back(name);
        if (any && how == Components::weighted && result.units[name].share_known < 0.995)
            result.remarks.push_back(
                {source::Weight::note, "soil-partly-known",
                 fmt::format("Of map unit '{}' {:.0f} % by share has an erodibility and stands for "
                             "the rest.",
                             name, 100 * result.units[name].share_known),
                 path});
    }
    return result;
}

std::map<std::int32_t, CoverClass> read_cover_classes(const std::string& path) {
    ClassTable table(path);
    const std::size_t number = table.wanted_column("class"), name = table.column("name"), C = table.wanted_column("c");
    table.throw_if_any();
    std::map<std::int32_t, CoverClass> classes;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const int line = ClassTable::line(row);
        const auto which = table.number(row, number);
        const auto factor = table.number(row, C);
        if (!which || std::floor(*which) != *which || std::abs(*which) > 2e9) {
            table.mistake(line, "not-a-number", "A class is a whole number");
            continue;
        }
        if (!factor) continue;
        if (*factor < 0 || *factor > 1.2)
            table.mistake(line, "range", fmt::format("C of {:g} can't be right; it lies between 0 and 1.2", *factor));
        const auto klass = static_cast<std::int32_t>(*which);
        if (!classes.emplace(klass, CoverClass{name == ClassTable::none ? "" : table.cell(row, name), *factor}).second)
            table.mistake(line, "twice", fmt::format("Class {} stands in the table already", klass));
    }
    table.throw_if_any();
    return classes;
}

}  // namespace soilhold::input
