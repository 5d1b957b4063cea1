/// What a method of K takes of a soil's description, and what it still lacks.
///
/// Filled in from the rest: the third of sand, silt and clay, the triangle's class of texture, the class's permeability
/// code (from memory, `nomograph_codes.h`). Shares that a lab sheet rounded off 100 % are brought to the whole.
#pragma once

#include <string_view>

#include "factors/erodibility.h"
#include "factors/erodibility_methods.h"

namespace soilhold::factors {

/// The description with what follows from the rest.
SoilDescription filled(SoilDescription soil);

/// A filled description as all methods take it: silt with very fine sand times sand without it where both are known.
ErodibilityInputs inputs_for(const SoilDescription& filled);

/// What one method makes of it.
MethodResult result_of(const ErodibilityInputs& inputs, ErodibilityMethod method);

/// Its row of default-spreads.csv. @throws std::invalid_argument for `fitting`
std::string_view spread_kind_of(ErodibilityMethod method);

}  // namespace soilhold::factors
