/// m of a field whose soil was tested: the structure factor as an estimate of one field works it (loss/inputs.h), from
/// the map unit that most of the field has, or the one that was tested.
///
/// What C credits for rest must not count twice: a rotation's calendar says it by itself, a C of a figure, column or
/// class is that of tilled ground unless `credits` of the watershed's `cover` says otherwise.
/// @source docs/structure-factor.md
#pragma once

#include <optional>
#include <string>

#include "input/watershed_file.h"
#include "structure/structure_factor.h"
#include "watershed/loss_map.h"
#include "watershed/rotation_covers.h"

namespace soilhold::watershed {

/// What the tests of a field say of its loss.
struct FieldStructure {
    std::string file;  ///< of the tests
    std::string soil;  ///< map unit they are judged by
    double m = 1, low_80 = 1, high_80 = 1;
    double log_sd = 0;               ///< of m
    std::optional<double> W, W_ref;  ///< stable aggregates found and expected, %
    std::string why_not;             ///< why m is 1; empty where it is applied
    source::Remarks remarks;         ///< of the tests and of m
};

/// @param soil      the one that the tests are judged by
/// @param rotation  of the field, or nullptr for a C that was given
FieldStructure structure_of_field(const input::TestedField& tests, const Soil& soil, const RotationWorked* rotation,
                                  std::optional<structure::Credited> credits);

}  // namespace soilhold::watershed
