/// What a farmer says of a crop, laid over the usual rotation of a short form.
///
/// A day of seeding moves along what is done for it: tillage, sprays and the end of a cover crop in the 20 days before,
/// the work in the 40 days after. A day of harvest moves the harvest itself and what follows it within ten days (a
/// cover crop sown, stalks baled). Autumn tillage stays on its day.
/// @source our assumption
#pragma once

#include <cstddef>

#include "rotation/rotation.h"

namespace soilhold::input {

/// @param index  of the crop in the rotation that `told` speaks of
void say_of_usual(rotation::Rotation& usual, std::size_t index, const rotation::CropGrown& told);

}  // namespace soilhold::input
