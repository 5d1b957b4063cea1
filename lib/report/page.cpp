#include "report/page.h"

#include <array>
#include <stdexcept>

#include "report/embedded_font.h"
#include "report/page_content.h"
#include "report/page_html.h"
#include "report/paint_cairo.h"
#include "report/paint_svg.h"

namespace soilhold::report {

namespace {

struct Step {
    PageSizes sizes;
    PageLimits limits;
};

/// From roomy to tight: type shrinks first, then less is said.
constexpr std::array<Step, 12> steps = {{
    {{20.0, 11.0, 8.5}, {4, 9, 70, 200}},
    {{19.0, 10.5, 8.5}, {4, 9, 70, 200}},
    {{18.0, 10.0, 8.25}, {4, 9, 70, 200}},
    {{18.0, 10.0, 8.25}, {3, 9, 60, 120}},
    {{17.0, 9.75, 8.0}, {3, 8, 60, 120}},
    {{17.0, 9.5, 8.0}, {3, 7, 54, 100}},
    {{16.0, 9.25, 8.0}, {2, 6, 48, 80}},
    {{15.0, 9.0, 8.0}, {2, 4, 40, 60}},
    {{14.0, 8.5, 8.0}, {1, 3, 34, 40}},
    {{13.0, 8.25, 8.0}, {1, 1, 26, 30}},
    {{13.0, 8.25, 8.0}, {1, 1, 26, 30, 700}},
    {{13.0, 8.25, 8.0}, {1, 1, 26, 30, 300}},
}};

PageFacts facts_of(const PageSettings& settings) { return {settings.system, settings.date, settings.program_version}; }

template <class Which>
Scene fitted(const change::Comparison& comparison, const Which& which, const PageSettings& settings,
             const Measure& measure) {
    for (const Step& step : steps)
        if (std::optional<Scene> scene = page_layout(content_of(comparison, which, facts_of(settings), step.limits),
                                                     settings.paper, step.sizes, measure))
            return *scene;
    throw std::length_error("The page has more to say than fits on one sheet: shorten the sources. [page-full]");
}

template <class Which>
std::string svg(const change::Comparison& comparison, const Which& which, const PageSettings& settings) {
    const Scene scene = fitted(comparison, which, settings, measure_open_sans());
    std::string letters;
    for (const Group& group : scene.groups)
        for (const Mark& mark : group.marks)
            if (const Text* text = std::get_if<Text>(&mark)) letters += text->words;
    return paint_svg(scene, font_face_css(letters));
}

template <class Which>
std::string html(const change::Comparison& comparison, const Which& which, const PageSettings& settings) {
    return html_of(content_of(comparison, which, facts_of(settings), {}), settings.paper, measure_open_sans());
}

}  // namespace

Scene page_scene(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings,
                 const Measure& measure) {
    return fitted(comparison, pair, settings, measure);
}

Scene page_scene(const change::Comparison& comparison, std::size_t field, const PageSettings& settings,
                 const Measure& measure) {
    return fitted(comparison, field, settings, measure);
}

std::string page_pdf(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings) {
    return painted_pdf(page_scene(comparison, pair, settings, measure_open_sans()));
}

std::string page_pdf(const change::Comparison& comparison, std::size_t field, const PageSettings& settings) {
    return painted_pdf(page_scene(comparison, field, settings, measure_open_sans()));
}

std::string page_png(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings,
                     double scale) {
    return painted_png(page_scene(comparison, pair, settings, measure_open_sans()), scale);
}

std::string page_png(const change::Comparison& comparison, std::size_t field, const PageSettings& settings,
                     double scale) {
    return painted_png(page_scene(comparison, field, settings, measure_open_sans()), scale);
}

std::string page_svg(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings) {
    return svg(comparison, pair, settings);
}

std::string page_svg(const change::Comparison& comparison, std::size_t field, const PageSettings& settings) {
    return svg(comparison, field, settings);
}

std::string page_html(const change::Comparison& comparison, const change::Pair& pair, const PageSettings& settings) {
    return html(comparison, pair, settings);
}

std::string page_html(const change::Comparison& comparison, std::size_t field, const PageSettings& settings) {
    return html(comparison, field, settings);
}

}  // namespace soilhold::report
