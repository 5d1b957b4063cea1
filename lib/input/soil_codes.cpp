#include "input/soil_codes.h"

#include <array>

namespace soilhold::input {

namespace {

struct Code {
    std::string_view word;
    int code;
};

constexpr auto structures = std::to_array<Code>({
    {"very fine granular", 1},
    {"fine granular", 2},
    {"medium or coarse granular", 3},
    {"medium granular", 3},
    {"coarse granular", 3},
    {"blocky, platy or massive", 4},
    {"blocky", 4},
    {"platy", 4},
    {"massive", 4},
});

constexpr auto permeabilities = std::to_array<Code>({
    {"rapid", 1},
    {"moderate to rapid", 2},
    {"moderate", 3},
    {"slow to moderate", 4},
    {"slow", 5},
    {"very slow", 6},
});

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

template <std::size_t N>
constexpr std::array<std::string_view, N> words_of(const std::array<Code, N>& codes) {
    std::array<std::string_view, N> words;
    for (std::size_t i = 0; i < N; ++i) words[i] = codes[i].word;
    return words;
}

constexpr auto structure_list = words_of(structures);
constexpr auto permeability_list = words_of(permeabilities);

template <std::size_t N>
std::optional<int> code_of(const std::array<Code, N>& codes, std::string_view word) {
    for (const Code& code : codes)
        if (code.word == word) return code.code;
    return std::nullopt;
}

}  // namespace

std::span<const std::string_view> structure_words() { return structure_list; }
std::span<const std::string_view> permeability_words() { return permeability_list; }
std::optional<int> structure_code(std::string_view word) { return code_of(structures, word); }
std::optional<int> permeability_code(std::string_view word) { return code_of(permeabilities, word); }
std::span<const std::string_view> texture_classes() { return textures; }

int permeability_code_of(double um_per_s) {
    if (um_per_s < 0.30) return 6;
    if (um_per_s < 1.20) return 5;
    if (um_per_s < 4.80) return 4;
    if (um_per_s < 15) return 3;
    if (um_per_s < 30) return 2;
    return 1;
}

}  // namespace soilhold::input
