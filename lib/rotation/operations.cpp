#include "rotation/operations.h"

#include <stdexcept>

#include "rotation/crops.h"
#include "source/reference_table.h"
#include "source/row_origin.h"

namespace soilhold::rotation {

const std::vector<Operation>& all_operations() {
    static const std::vector<Operation> operations = [] {
        std::vector<Operation> read_in;
        for (const source::Row& row : source::table("operations").rows) {
            Operation one;
            one.name = row.text("operation");
            one.kind = row.text("kind");
            one.roughness_mm = row.empty("roughness_in") ? 0.0 : row.number("roughness_in") * 25.4;
            one.disturbed = row.number("disturbed_pct") / 100.0;
            one.left_nonfragile = row.number("left_nonfragile_pct") / 100.0;
            one.left_fragile = row.number("left_fragile_pct") / 100.0;
            one.kept_shallow = row.number("kept_shallow_pct") / 100.0;
            one.cuts = row.number("cuts") > 0;
            one.removes = row.number("removes_pct") / 100.0;
            one.origin = source::row_origin("operation-rows", row);
            read_in.push_back(one);
        }
        return read_in;
    }();
    return operations;
}

const Operation& operation_of(std::string_view name) {
    std::vector<std::string> names;
    for (const Operation& operation : all_operations()) {
        if (operation.name == name) return operation;
        names.push_back(operation.name);
    }
    throw std::invalid_argument("no tool is called '" + std::string(name) + "'; the nearest is '" +
                                nearest_name(name, names) + "'");
}

}  // namespace soilhold::rotation
