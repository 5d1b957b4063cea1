#include "input/texture_classes.h"

#include <array>

namespace soilhold::input {

namespace {

constexpr auto textures = std::to_array<std::string_view>({
    "sand",
    "fine sand",
    "very fine sand",
    "coarse sand",
    "loamy sand",
    "loamy fine sand",
    "loamy very fine sand",
    "loamy coarse sand",
    "sandy loam",
    "fine sandy loam",
    "very fine sandy loam",
    "coarse sandy loam",
    "loam",
    "silt loam",
    "silt",
    "sandy clay loam",
    "clay loam",
    "silty clay loam",
    "sandy clay",
    "silty clay",
    "clay",
    "gravelly loam",
    "gravelly sandy loam",
    "gravelly silt loam",
    "gravelly clay",
    "gravelly sand",
    "gravelly loamy sand",
    "gravelly clay loam",
    "very gravelly loam",
    "very gravelly sandy loam",
});

}  // namespace

std::span<const std::string_view> texture_classes() { return textures; }

}  // namespace soilhold::input
