/// R, K, C and P as they stand on the command line of soilhold terrain: "r.tif SI", "175 US", "c.tif", "0.2".
#pragma once

#include <optional>
#include <string>

#include "watershed/loss_factors.h"

namespace soilhold::cli {

/// As they were written; empty: not given.
struct FactorWords {
    std::string rain, soil, cover, practice;
    bool any() const { return !rain.empty() || !soil.empty() || !cover.empty() || !practice.empty(); }
};

/// None where no factor is given; P is 1 where it alone isn't.
/// @throws std::invalid_argument in words for the user: one is missing, R or K without its unit (with both readings),
/// no number and no file; raster::RasterError where a raster can't be opened to show them
std::optional<watershed::FactorsGiven> read_factors(const FactorWords& words);

/// "R 2980 SI; K k.tif x 0.1317; C c.tif; P 1"
std::string factor_words(const watershed::FactorsGiven& given);

}  // namespace soilhold::cli
