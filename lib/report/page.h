/// The one-page handout: PDF for paper, PNG and SVG for a letter or a talk, HTML for a telephone.
///
/// A pair leads with how many times as fast soil leaves one field as the other, when the pair is fair; else it says why
/// no comparison is drawn and what to do over. One page always: what does not fit is set smaller, then shortened, and
/// the page says how much was left out. The cautions can't be switched off.
#pragma once

#include <cstddef>
#include <string>

#include "change/comparison.h"
#include "report/page_layout.h"
#include "report/scene.h"
#include "units/unit.h"

namespace soilhold::report {

struct PageSettings {
    units::System system = units::System::us;
    Paper paper = Paper::letter;
    std::string date;             ///< "2026-04-18"
    std::string program_version;  ///< "0.1.0"
};

/// The page laid out. @throws std::length_error when it can't be made to fit, std::out_of_range for a field there isn't
Scene page_scene(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings,
                 const Measure& measure);
Scene page_scene(const change::Comparison& comparison, std::size_t field, const PageSettings& settings,
                 const Measure& measure);

// The bytes of a file. @throws as above; PaintError without Open Sans; std::invalid_argument for a date out of form
std::string page_pdf(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings);
std::string page_pdf(const change::Comparison& comparison, std::size_t field, const PageSettings& settings);
/// @param scale  pixels a point; 2 is 144 dots an inch
std::string page_png(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings,
                     double scale = 2.0);
std::string page_png(const change::Comparison& comparison, std::size_t field, const PageSettings& settings,
                     double scale = 2.0);
std::string page_svg(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings);
std::string page_svg(const change::Comparison& comparison, std::size_t field, const PageSettings& settings);
std::string page_html(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings);
std::string page_html(const change::Comparison& comparison, std::size_t field, const PageSettings& settings);

}  // namespace soilhold::report
