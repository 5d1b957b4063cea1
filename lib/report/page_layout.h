/// One sheet of paper: the sentence, what proves it, what could be done, what isn't known, and the cautions at the
/// foot.
#pragma once

#include <optional>

#include "report/page_content.h"
#include "report/scene.h"

namespace soilhold::report {

enum class Paper { letter, A4 };

/// The three sizes of type of a page, in points; `small` is never below 8.
struct PageSizes {
    double headline = 20.0, body = 11.0, small = 8.5;
};

/// The free edge on all four sides, in points.
inline constexpr double page_margin = 50.0;

/// None when the content does not fit at these sizes: set it smaller, or say less (PageLimits), and try again.
std::optional<Scene> page_layout(const PageContent& content, Paper paper, const PageSizes& sizes,
                                 const Measure& measure);

}  // namespace soilhold::report
