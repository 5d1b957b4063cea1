/// What the factors say of a field's values, said with the place where each value stands.
///
/// The sentences belong to factors/; the estimate says them again, and once is enough (a remark is the same wherever it
/// was read). Only what two sections make together is said here: rows that run down the slope.
#pragma once

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// The sections of a field that was read without mistakes; any may be nullptr.
struct FieldNodes {
    const Node* rain = nullptr;
    const Node* soil = nullptr;
    const Node* shared_soil = nullptr;  ///< of `place:`
    const Node* slope = nullptr;
    const Node* shared_slope = nullptr;
    const Node* cover = nullptr;
    const Node* practice = nullptr;
};

void place_factor_remarks(const Reader& reader, const FieldNodes& nodes, loss::Field& field);

/// Row grade against the steepness of the slope.
void judge_rows(const Reader& reader, const FieldNodes& nodes, const loss::Field& field);

}  // namespace soilhold::input
