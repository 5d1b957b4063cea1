/// The working of one estimate: how each factor, the loss and what follows from it came about, step by step.
///
/// Ranges that come from draws are counted, not worked out by a formula; their steps say so.
#pragma once

#include "loss/draws.h"
#include "loss/estimate.h"
#include "loss/inputs.h"

namespace soilhold::loss {

/// Steps of an input and of its central 80 %.
source::Steps factor_steps(const spread::Uncertain& input, const std::string& unit);

/// Steps of LS: length, steepness, the handbook's equations, and its range from the draws.
source::Steps slope_steps(const FieldInputs& inputs, const PracticeInputs& practice, const FactorValue& LS,
                          std::size_t draws);

/// From the factors to A, T, tons and depth.
source::Steps loss_steps(const FieldEstimate& estimate, std::size_t draws);

/// From the factors of a change to its A, and to what it saves. @param m  1 where the change leaves it out
source::Steps change_steps(const FieldEstimate& estimate, const ChangeResult& change, double m, std::size_t draws);

/// From two losses to their ratio and difference.
source::Steps ratio_steps(double from, double to, const spread::Interval& ratio, const spread::Interval& saved,
                          std::size_t draws);

/// A range that was counted from draws: its 10 % and 90 %. @param of  what was drawn
source::Step counted_step(const spread::Interval& value, const std::string& unit, std::size_t draws,
                          const std::string& of = "all inputs");

}  // namespace soilhold::loss
