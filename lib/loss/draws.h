/// The draws of many fields on one set of points: a source of doubt that two fields or practices share is one column,
/// so that it cancels in their ratio.
///
/// R, K, slope length and steepness are one source of doubt for every field that states them alike (value, spread and
/// whose figure); C and P are judgements of each field's own; a change of practice keeps every column that it does not
/// change. A C worked through a rotation takes its doubt from the parts of the calendar, which are one table's for all:
/// each part is one source of doubt for every calendar. The structure factor m has a column a field; its doubt shared
/// by a pair enters through `paired_structure`.
#pragma once

#include <cstdint>
#include <vector>

#include "loss/estimate.h"
#include "loss/inputs.h"

namespace soilhold::loss {

/// Draws of one practice, in order of the points.
struct PracticeDraws {
    std::vector<double> loss;                ///< t/(ha yr)
    std::vector<double> loss_without_tests;  ///< the same with m = 1
    std::vector<double> LS;
    std::vector<double> leaving;                 ///< t/(ha yr) that leaves the field; empty where nothing catches it
    std::vector<std::vector<double>> part_loss;  ///< t/(ha yr) of each part of a slope that bends, on its own ground
};

struct FieldDraws {
    PracticeDraws now;
    std::vector<PracticeDraws> changes;
    std::vector<double> structure_score;  ///< z of ln m
};

/// @return one FieldDraws a field, all on the same points
std::vector<FieldDraws> draw(const std::vector<FieldInputs>& fields, const DrawSettings& settings);

/// m at a normal score: exp(ln m + z sd), clamped as the central m is; 1 without an assessment.
double structure_at(const structure::StructureFactor& structure, double z);

}  // namespace soilhold::loss
