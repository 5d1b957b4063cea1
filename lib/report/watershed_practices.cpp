#include "report/watershed_practices.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <vector>

#include "report/columns.h"
#include "report/watershed_report.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using watershed::FieldResult;

std::string range(double low, double high) {
    return fmt::format("{} to {}", units::figures(low, 2), units::figures(high, 2));
}

std::string loss(double t_ha, units::System system) {
    return units::figures(units::in_unit(units::Kind::soil_loss, t_ha, system), 2);
}

}  // namespace

std::string rotations_text(const watershed::WatershedResult& result) {
    if (result.rotations.empty()) return "";
    std::vector<std::vector<std::string>> rows = {{"rotation", "C", "80 %", "fields"}};
    for (const watershed::RotationWorked& one : result.rotations)
        rows.push_back({one.name, units::figures(one.cover.C.central, 2), range(one.low_80, one.high_80),
                        fmt::format("{}", one.fields)});
    return "\nRotations\n" + table(rows) +
           wrapped(
               "Each C is worked once, through the years of its calendar, for all fields that name it. The doubt of "
               "the calendars moves all of them together, so that two fields of one rotation are told apart by the "
               "rest.");
}

std::string soil_tests_text(const watershed::WatershedResult& result, units::System system) {
    std::vector<std::vector<std::string>> rows = {
        {"field", "m", "80 %", system == units::System::us ? "t/ac" : "t/ha", "without m", "stable", "expected"}};
    std::vector<std::string> said;
    std::set<std::string> once;
    bool any = false;
    for (const FieldResult* field : in_order(result)) {
        if (!field->structure) continue;
        any = true;
        const watershed::FieldStructure& found = *field->structure;
        if (found.why_not.empty())
            rows.push_back({field->name, units::figures(found.m, 2), range(found.low_80, found.high_80),
                            loss(field->on_grid.mean, system), loss(field->on_grid.mean / found.m, system),
                            fmt::format("{:.0f} %", found.W.value_or(0)),
                            fmt::format("{:.0f} %", found.W_ref.value_or(0))});
        for (const source::Remark& remark : found.remarks)
            if ((remark.weight == source::Weight::caution || remark.code == "credits-unsaid") &&
                once.insert(field->name + remark.text).second)
                said.push_back(remark.text.find(field->name) == std::string::npos ? field->name + ": " + remark.text
                                                                                  : remark.text);
    }
    if (!any) return "";
    std::string text = "\nSoil tests\n";
    if (rows.size() > 1)
        text += table(rows) + wrapped(
                                  "m multiplies the loss of a tested field everywhere in this report; 'stable' is "
                                  "what the tests found of soil that keeps its crumbs, 'expected' what K and C "
                                  "assume of it.");
    for (const std::string& one : said) text += wrapped(one, "  - ", "    ");
    return text;
}

}  // namespace soilhold::report
