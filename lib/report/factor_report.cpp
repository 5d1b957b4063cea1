#include "report/factor_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "report/columns.h"
#include "report/csv_cell.h"

namespace soilhold::report {

namespace {

using Json = nlohmann::ordered_json;

const char* words_for(factors::Way way) {
    switch (way) {
        case factors::Way::equation:
            return "equation";
        case factors::Way::table:
            return "reference table";
        case factors::Way::reported:
            return "a source's single figure";
    }
    return "";
}

const char* words_for(Agreement agreement) {
    switch (agreement) {
        case Agreement::reproduced:
            return "reproduced";
        case Agreement::last_digit:
            return "last digit";
        case Agreement::differs:
            return "differs";
        case Agreement::refused:
            return "refused";
        case Agreement::no_figure:
            return "no figure given";
    }
    return "";
}

std::string keys_of(const factors::Quantity& quantity) {
    std::string list;
    for (const std::string& key : quantity.keys) list += (list.empty() ? "" : " ") + key;
    return list;
}

}  // namespace

std::string answer_text(const factors::Quantity& quantity, const factors::Answer& answer) {
    const std::string unit = quantity.unit == "-" || quantity.unit.empty() ? "" : " " + quantity.unit;
    std::string text = fmt::format("{} = {:.6g}{}\n", quantity.name, answer.value, unit);
    text += wrapped(fmt::format("By {}: {} [{}]", words_for(answer.way), answer.origin.from,
                                source::words_for(answer.origin.standing)),
                    "  ", "  ");
    for (const source::Remark& remark : answer.remarks) text += wrapped(remark.text, "  - ", "    ");
    return text;
}

std::string answer_json(const factors::Quantity& quantity, const factors::Answer& answer) {
    Json remarks = Json::array();
    for (const source::Remark& remark : answer.remarks)
        remarks.push_back({{"code", remark.code}, {"text", remark.text}});
    const Json json = {{"quantity", quantity.name},
                       {"value", answer.value},
                       {"unit", quantity.unit},
                       {"source", answer.origin.from},
                       {"standing", source::words_for(answer.origin.standing)},
                       {"citation", answer.origin.citation},
                       {"way", words_for(answer.way)},
                       {"remarks", std::move(remarks)}};
    return json.dump(2) + "\n";
}

std::string rows_text(const RowTable& table) {
    std::vector<std::vector<std::string>> rows = {{"row", "quantity", "expected", "computed", "difference", ""}};
    for (const WorkedRow& row : table.rows) {
        const bool refused = row.agreement == Agreement::refused;
        rows.push_back({row.id, row.quantity, row.expected, refused ? "-" : fmt::format("{:.6g}", row.computed),
                        refused || row.agreement == Agreement::no_figure ? "-" : fmt::format("{:+.2g}", row.difference),
                        words_for(row.agreement)});
    }
    std::string text = report::table(rows, "");
    for (const WorkedRow& row : table.rows)
        if (row.agreement == Agreement::refused) text += wrapped(row.id + ": " + row.trouble, "  ", "    ");
    text += wrapped(fmt::format(
        "{} rows: {} reproduced within half the printed precision, {} within one unit of the last "
        "digit, {} differ, {} refused, {} without a figure.",
        table.rows.size(), table.reproduced, table.last_digit, table.differing, table.refused, table.no_figure));
    return text;
}

std::string rows_csv(const RowTable& table) {
    std::string text = "id,quantity,inputs,expected,computed,difference,unit,agreement,trouble,source,seen\n";
    for (const WorkedRow& row : table.rows) {
        const bool refused = row.agreement == Agreement::refused;
        text += fmt::format(
            "{},{},{},{},{},{},{},{},{},{},{}\n", csv_cell(row.id), csv_cell(row.quantity), csv_cell(row.inputs),
            csv_cell(row.expected), refused ? "" : fmt::format("{:.10g}", row.computed),
            refused || row.agreement == Agreement::no_figure ? "" : fmt::format("{:.6g}", row.difference),
            csv_cell(row.unit), words_for(row.agreement), csv_cell(row.trouble), csv_cell(row.source),
            csv_cell(row.seen));
    }
    return text;
}

std::string rows_json(const RowTable& table) {
    Json rows = Json::array();
    for (const WorkedRow& row : table.rows) {
        const bool refused = row.agreement == Agreement::refused;
        Json one = {{"id", row.id}, {"quantity", row.quantity}, {"inputs", row.inputs}, {"expected", row.expected}};
        one["computed"] = refused ? Json(nullptr) : Json(row.computed);
        one["difference"] = refused || row.agreement == Agreement::no_figure ? Json(nullptr) : Json(row.difference);
        one["unit"] = row.unit;
        one["agreement"] = words_for(row.agreement);
        if (!row.trouble.empty()) one["trouble"] = row.trouble;
        rows.push_back(std::move(one));
    }
    const Json json = {{"rows", std::move(rows)},        {"reproduced", table.reproduced},
                       {"last_digit", table.last_digit}, {"differing", table.differing},
                       {"refused", table.refused},       {"without_figure", table.no_figure}};
    return json.dump(2) + "\n";
}

std::string quantities_text() {
    std::string text;
    for (const factors::Quantity& quantity : factors::all_quantities())
        text += wrapped(fmt::format("{} [{}]: {}", quantity.name, quantity.unit, keys_of(quantity)), "", "    ");
    return text + "A key with ? may be left out. Ask like this: soilhold factor LS_ah703 slope_pct=6 length_ft=200\n";
}

std::string quantities_json() {
    Json json = Json::array();
    for (const factors::Quantity& quantity : factors::all_quantities())
        json.push_back({{"quantity", quantity.name}, {"unit", quantity.unit}, {"keys", quantity.keys}});
    return json.dump(2) + "\n";
}

}  // namespace soilhold::report
