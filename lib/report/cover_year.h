/// The page of the year: when the soil of a field is lost, a strip for each way to farm it, on paper and on a
/// telephone.
///
/// Up to three years of a rotation stand side by side where every way has as many; else a strip is the mean of its
/// years, and says so. One page always: strips get lower, then fewer, and the page says how many were left out.
#pragma once

#include <string>

#include "report/cover_result.h"
#include "report/page.h"
#include "report/page_content.h"

namespace soilhold::report {

/// @param most_ways  strips that may be drawn, at least 1 @param band_height  of each, points
PageContent cover_content(const CoverOfField& field, const PageFacts& facts, const PageLimits& limits,
                          std::size_t most_ways, double band_height);

/// @throws std::length_error when it can't be made to fit
Scene cover_scene(const CoverOfField& field, const PageSettings& settings, const Measure& measure);

/// The bytes of a file. @param ending  ".pdf", ".png", ".svg" or ".html"
/// @throws as above; PaintError without Open Sans; std::invalid_argument for another ending or a date out of form
std::string cover_page(const CoverOfField& field, const PageSettings& settings, const std::string& ending);

}  // namespace soilhold::report
