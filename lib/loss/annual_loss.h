/// Annual soil loss A = R K m LS C P [t/(ha yr)] of a field, with its interval, as now and under each change.
/// @source Wischmeier & Smith 1978 (AH 537) for A = R K LS C P (from memory); m is this project's
/// (docs/structure-factor.md)
#pragma once

#include <vector>

#include "loss/draws.h"
#include "loss/estimate.h"
#include "loss/inputs.h"

namespace soilhold::loss {

/// The estimate of one field from its inputs and its draws.
FieldEstimate estimate_field(const Field& field, const FieldInputs& inputs, const FieldDraws& draws);

/// Share of the variance of ln A (as now) that each input carries, each moved by one standard deviation alone.
std::vector<DoubtShare> doubt_shares(const FieldInputs& inputs);

}  // namespace soilhold::loss
