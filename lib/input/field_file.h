/// Field files: YAML in, fields out (docs/field-files.md; docs/field-file.schema.json).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "input/diagnostic.h"
#include "loss/field.h"

namespace soilhold::input {

/// Every field of one file, with what the reader noticed in each field's remarks.
/// @param path  "-" reads standard input
/// @throws InputError with every mistake found, never only the first
std::vector<loss::Field> read_field_file(const std::string& path);

/// The same from text; `path` only names it in messages and finds the test files it points to.
std::vector<loss::Field> read_fields(std::string_view yaml, const std::string& path);

}  // namespace soilhold::input
