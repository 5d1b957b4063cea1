/// Paints a scene to PDF and PNG in Open Sans, with Cairo and Pango. The same scene gives the same bytes.
#pragma once

#include <stdexcept>
#include <string>

#include "report/scene.h"

namespace soilhold::report {

/// Open Sans is not installed, or the drawing library failed.
class PaintError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// Path of the file of Open Sans Regular or Bold. @throws PaintError without the font
std::string font_file(bool bold);

/// Widths as Pango sets them, unhinted, so that paper and screen break lines alike. @throws PaintError without the font
Measure measure_open_sans();

/// One page, fonts embedded, text that can be searched, tagged as heading, paragraphs and figures.
/// @throws PaintError; std::invalid_argument when scene.date is not a date like 2026-04-18
std::string painted_pdf(const Scene& scene);

/// @param scale  pixels a point; 2 is 144 dots an inch
std::string painted_png(const Scene& scene, double scale);

}  // namespace soilhold::report
