#include "input/placed_remarks.h"

#include <fmt/format.h>

namespace soilhold::input {

namespace {

/// The value of the first key that is there, in the field's section or that of the place; else the section.
Position place_of(std::initializer_list<const Node*> sections, std::initializer_list<std::string_view> keys) {
    for (const std::string_view key : keys)
        for (const Node* section : sections)
            if (const Entry* entry = entry_of(section, key)) {
                const Entry* value = entry_of(&entry->value, "value");
                return value != nullptr ? value->value.at : entry->value.at;
            }
    for (const Node* section : sections)
        if (section != nullptr) return section->at;
    return {};
}

void add(const Reader& reader, source::Remark remark, Position at) {
    remark.place = reader.document.where(at);
    reader.remarks.push_back(std::move(remark));
}

}  // namespace

void judge_rows(const Reader& reader, const FieldNodes& nodes, const loss::Field& field) {
    if (!field.practice.contouring || !field.practice.row_grade || !(field.slope.gradient.value > 0)) return;
    const double grade = *field.practice.row_grade;
    const double gradient = field.slope.gradient.value;
    const Position at = place_of({nodes.practice}, {"row grade"});
    if (grade > gradient * 1.0001)
        reader.mistake(
            at, "range",
            fmt::format("Rows of {:.3g} % run steeper than the slope itself, {:.3g} %; at most they run straight "
                        "down it",
                        100 * grade, 100 * gradient));
    else if (grade > 0.02 && grade > gradient / 2)
        reader.caution(
            at, "rows-off-contour",
            fmt::format("Rows of {:.3g} % on a slope of {:.3g} % run more down it than along it; little of the "
                        "contour's credit is left. Rows within 2 % keep most of it",
                        100 * grade, 100 * gradient));
}

void place_factor_remarks(const Reader& reader, const FieldNodes& nodes, loss::Field& field) {
    for (const source::Remark& remark : factors::erosivity(field.rain).remarks)
        add(reader, remark, place_of({nodes.rain}, {"erosivity", "annual", "monthly", "gauge"}));
    for (const source::Remark& remark : factors::erodibility(field.soil).remarks) {
        const bool organic = remark.code.rfind("organic", 0) == 0;
        add(reader, remark,
            organic ? place_of({nodes.soil, nodes.shared_soil}, {"organic matter", "organic carbon"})
                    : place_of({nodes.soil, nodes.shared_soil}, {"texture", "erodibility"}));
    }
    for (const source::Remark& remark : factors::slope_remarks(field.slope))
        add(reader, remark,
            remark.code == "slope-steep" ? place_of({nodes.slope, nodes.shared_slope}, {"steepness"})
                                         : place_of({nodes.slope, nodes.shared_slope}, {"length"}));
    const double length_m = factors::length_left(field.practice, field.slope.length_m).value;
    if (!field.rotation)
        for (const source::Remark& remark :
             factors::cover_management(field.cover, field.slope.gradient.value, length_m).remarks)
            add(reader, remark,
                place_of({nodes.cover}, {"factor", "parts", "pasture", "woodland", "mulch", "site", "stages"}));
    if (nodes.practice == nullptr) return;
    const auto P = factors::support_practice(field.practice, field.slope.gradient.value,
                                             factors::length_left(field.practice, field.slope.length_m).value);
    for (const source::Remark& remark : P.remarks)
        add(reader, remark, place_of({nodes.practice}, {"contouring", "factor"}));
}

}  // namespace soilhold::input
