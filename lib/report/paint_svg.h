/// Writes a scene as SVG with real text, a title and a description, without any library: a browser build can use it.
#pragma once

#include <string>

#include "report/scene.h"

namespace soilhold::report {

/// Text safe inside XML and HTML, in elements and in quoted attributes.
std::string escaped(const std::string& text);

/// @param style  CSS for a <style> element, such as a typeface; "" for none
/// @param id     goes before the ids of title and description, so that several drawings can share an HTML page
/// @param alone  a file of its own; inside HTML the name space is left out, as HTML knows it
std::string paint_svg(const Scene& scene, const std::string& style = "", const std::string& id = "page",
                      bool alone = true);

}  // namespace soilhold::report
