/// `tests:` the soak tests and how the soil was handled.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// @param texture_class  of the soil, for what the tests themselves say; "" when unknown
void read_tests(const Section& tests, const std::string& texture_class, loss::Field& field);

}  // namespace soilhold::input
