/// A file of soil tests that another file points to: the keys of `tests:` at its top (tests_section.h).
#pragma once

#include <string>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// The tests of the file that a node names, beside the file at `path`, into the field. What can't be used becomes a
/// mistake of the reader's document, at its place in the test file where it has one.
void read_test_file(const Reader& reader, const Node& node, const std::string& path, loss::Field& field);

/// The tests of a file named outside of any document. @throws InputError with every mistake found
void read_test_file(const std::string& path, loss::Field& field);

}  // namespace soilhold::input
