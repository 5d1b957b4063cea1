/// Classes of the handbooks' tables, written "1-2", "<16", "all": which one a value falls in.
///
/// Printed classes leave gaps (1-2, 3-5, 6-8 ... %). A class here reaches to the middle of the gap above it, which is
/// this project's reading; below the first class and above the last there is none.
#pragma once

#include <optional>
#include <string_view>

#include "source/reference_table.h"

namespace soilhold::factors {

struct ClassLimits {
    double from = 0.0;
    double to = 0.0;
};

/// "3-5" -> 3, 5; "100-75" -> 75, 100; "<16" -> 0, 16; "all" -> 0, infinity; "7" -> 7, 7.
/// @throws std::invalid_argument for anything else
ClassLimits class_limits(std::string_view written);

/// The row whose class in `column` holds both ends of `sought`, gaps joined, among rows that `belongs` lets through (in
/// rising order of class). A range that spans two classes belongs to neither.
std::optional<std::size_t> row_of_class(const source::Table& table, std::string_view column, ClassLimits sought,
                                        bool (*belongs)(const source::Row&, std::string_view), std::string_view key);

}  // namespace soilhold::factors
