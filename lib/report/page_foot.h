/// The foot of a page: the cautions in full sentences, whom to call, who prepared it and when, and whose the values
/// are.
#pragma once

#include "report/page_content.h"
#include "report/scene.h"
#include "report/text_block.h"

namespace soilhold::report {

/// Draws the foot with its top at `top`. @return the y below it
double draw_foot(std::vector<Group>& groups, const PageContent& content, double left, double top, double width,
                 const TextStyle& small, const Measure& measure);

}  // namespace soilhold::report
