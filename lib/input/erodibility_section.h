/// K of `soil:` the survey's, or the method that a file asks for and the figures it takes; whether stones count in it.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include <cstddef>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// After the texture, organic matter, codes and bulk density of the soil were read.
/// @param mistakes_before  of the document when the soil began: what was mistaken there is not lacking here
void read_erodibility(const Section& soil, std::size_t mistakes_before, loss::Field& field);

}  // namespace soilhold::input
