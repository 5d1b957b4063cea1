#include "factors/quantities.h"

#include <cmath>
#include <cstdlib>
#include <stdexcept>

#include "factors/reported_figures.h"
#include "source/reference_table.h"

namespace soilhold::factors {

namespace {

std::string trimmed(std::string_view text) {
    const auto from = text.find_first_not_of(" \t");
    if (from == std::string_view::npos) return "";
    return std::string(text.substr(from, text.find_last_not_of(" \t") - from + 1));
}

std::vector<std::string> split(std::string_view text, char at) {
    std::vector<std::string> pieces;
    while (true) {
        const auto end = text.find(at);
        pieces.push_back(trimmed(text.substr(0, end)));
        if (end == std::string_view::npos) return pieces;
        text.remove_prefix(end + 1);
    }
}

double number_of(const std::string& text, std::string_view key) {
    char* end = nullptr;
    const double value = std::strtod(text.c_str(), &end);
    if (text.empty() || *end != '\0' || !std::isfinite(value))
        throw std::invalid_argument("'" + std::string(key) + "' is '" + text + "', which is no number");
    return value;
}

/// Letters two names share at their start: enough to guess what was meant.
std::size_t shared_start(std::string_view a, std::string_view b) {
    std::size_t i = 0;
    while (i < a.size() && i < b.size() && a[i] == b[i]) ++i;
    return i;
}

void need_keys(const Quantity& quantity, const Inputs& inputs) {
    std::string takes;
    for (const std::string& key : quantity.keys) takes += (takes.empty() ? "" : ", ") + key;
    for (const auto& [key, value] : inputs.all()) {
        bool known = false;
        for (const std::string& one : quantity.keys) known = known || one == key || one == key + "?";
        if (!known)
            throw std::invalid_argument(quantity.name + " takes no '" + key + "'; it takes " + takes +
                                        " (? may be left out)");
    }
    for (const std::string& key : quantity.keys)
        if (key.back() != '?' && !inputs.has(key))
            throw std::invalid_argument(quantity.name + " needs '" + key + "'; it takes " + takes +
                                        " (? may be left out)");
}

}  // namespace

Inputs::Inputs(std::string_view written) {
    if (trimmed(written).empty()) return;
    for (const std::string& piece : split(written, ';')) {
        if (piece.empty()) continue;
        const auto equals = piece.find('=');
        if (equals == std::string::npos || equals == 0)
            throw std::invalid_argument("'" + piece + "' is not written key=value");
        std::string key = trimmed(std::string_view(piece).substr(0, equals));
        if (has(key)) throw std::invalid_argument("'" + key + "' is given twice");
        pieces_.emplace_back(std::move(key), trimmed(std::string_view(piece).substr(equals + 1)));
    }
}

bool Inputs::has(std::string_view key) const {
    for (const auto& [one, value] : pieces_)
        if (one == key) return true;
    return false;
}

const std::string& Inputs::words(std::string_view key) const {
    for (const auto& [one, value] : pieces_)
        if (one == key) return value;
    throw std::invalid_argument("'" + std::string(key) + "' is missing");
}

double Inputs::number(std::string_view key) const { return number_of(words(key), key); }

double Inputs::positive(std::string_view key) const {
    const double value = number(key);
    if (!(value > 0)) throw std::invalid_argument("'" + std::string(key) + "' must be above 0");
    return value;
}

double Inputs::not_negative(std::string_view key) const {
    const double value = number(key);
    if (!(value >= 0)) throw std::invalid_argument("'" + std::string(key) + "' must not be negative");
    return value;
}

double Inputs::share_pct(std::string_view key) const {
    const double value = number(key);
    if (!(value >= 0 && value <= 100)) throw std::invalid_argument("'" + std::string(key) + "' lies from 0 to 100");
    return value;
}

int Inputs::whole(std::string_view key) const {
    const double value = number(key);
    if (value != std::floor(value) || std::abs(value) > 1e6)
        throw std::invalid_argument("'" + std::string(key) + "' must be a whole number");
    return static_cast<int>(value);
}

ClassLimits Inputs::range(std::string_view key) const { return class_limits(words(key)); }

std::vector<double> Inputs::list(std::string_view key) const {
    std::string text = words(key);
    // "5/10/15 pct": a unit word may follow.
    if (const auto space = text.find(' '); space != std::string::npos) text.resize(space);
    std::vector<double> values;
    for (const std::string& piece : split(text, '/')) values.push_back(number_of(piece, key));
    return values;
}

const std::vector<Quantity>& all_quantities() {
    static const std::vector<Quantity> all = [] {
        std::vector<Quantity> list;
        for (auto part : {rain_quantities(), storm_quantities(), soil_quantities(), slope_quantities(),
                          cover_quantities(), residue_quantities(), practice_quantities(), loss_quantities()})
            list.insert(list.end(), part.begin(), part.end());
        return list;
    }();
    return all;
}

const Quantity& quantity(std::string_view name) {
    std::string near;
    for (const Quantity& one : all_quantities()) {
        if (one.name == name) return one;
        if (shared_start(one.name, name) >= 3) near += (near.empty() ? "" : ", ") + one.name;
    }
    throw std::invalid_argument("there is no quantity '" + std::string(name) + "'" +
                                (near.empty() ? "" : "; near it are " + near));
}

Answer answer(std::string_view name, std::string_view inputs) {
    const Quantity& one = quantity(name);
    const Inputs given(inputs);
    need_keys(one, given);
    Answer result = one.work_out(given);
    if (!std::isfinite(result.value))
        throw std::invalid_argument("these inputs of " + one.name + " have no finite answer");
    return result;
}

Answer by_equation(double value, std::string_view citation, source::Remarks remarks) {
    return {value, Way::equation, source::origin_of(citation), std::move(remarks)};
}

Answer by_table(double value, std::string_view table) {
    const source::Row& row = source::table(table).rows.front();
    return {value, Way::table, {row.text("source"), "", source::standing_from(row.text("standing"))}, {}};
}

Answer by_table(double value, std::string_view table, std::string_view column, std::string_view word) {
    const source::Row& row = source::row_where(source::table(table), column, word);
    return {value, Way::table, {row.text("source"), "", source::standing_from(row.text("standing"))}, {}};
}

Quantity reported_quantity(std::string name, std::string unit, std::string key) {
    auto work_out = [name, key](const Inputs& in) {
        const source::Row& row = reported_figure(name, in.words(key));
        return Answer{row.number("value"),
                      Way::reported,
                      {row.text("source"), "", source::standing_from(row.text("standing"))},
                      {}};
    };
    return {std::move(name), std::move(unit), {std::move(key)}, std::move(work_out)};
}

}  // namespace soilhold::factors
