/// Five classes of loss by times T, and the stipple that shows them: more dots and larger ones, so that a grey copy
/// says the same. T, the planners' mark, is the break between the second and the third.
///
/// Dots stand on a jittered triangular lattice that hangs on the sheet, jittered by a hash of their place: the same
/// sheet gives the same dots. Only dots that lie wholly within the field are kept.
/// @source  breaks at half, one, two and four times T: our assumption
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "report/map_geometry.h"
#include "report/scene.h"

namespace soilhold::report {

inline constexpr std::array<double, 4> class_breaks{0.5, 1.0, 2.0, 4.0};  ///< times T; a break belongs to the upper

/// 0 to 4; none without a figure.
std::optional<std::size_t> class_of_loss(std::optional<double> times_T);

/// "half of T to T"
std::string class_in_words(std::size_t loss_class);

/// Share of the ground that dots of a class cover, 0..1.
double ink_of_class(std::size_t loss_class);

/// @param fineness  times the usual size and distance of dots: below 1 on a map of many small fields
/// @param free      boxes that stay without dots, such as that of the field's number
Dots stipple(const Rings& rings, std::size_t loss_class, const std::vector<Box>& free = {}, double fineness = 1.0);

}  // namespace soilhold::report
