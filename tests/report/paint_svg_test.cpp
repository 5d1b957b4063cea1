#include "report/paint_svg.h"

#include <gmock/gmock.h>

namespace soilhold::report {
namespace {

using testing::HasSubstr;
using testing::Not;

Scene scene_saying(const std::string& words) {
    Scene scene;
    scene.width = 100;
    scene.height = 50;
    scene.title = "A title";
    scene.description = "What it shows";
    scene.groups.push_back({Role::figure, "an alt text", {Text{{10, 20}, words, 10, false, Anchor::end, Colour::ink}}});
    return scene;
}

TEST(PaintSvg, KeepsTextAsText) {
    const std::string svg = paint_svg(scene_saying("17 t/ac"));
    EXPECT_THAT(svg, HasSubstr(">17 t/ac</text>"));
    EXPECT_THAT(svg, HasSubstr("text-anchor=\"end\""));
}

TEST(PaintSvg, SaysWhatItShows) {
    const std::string svg = paint_svg(scene_saying("x"));
    EXPECT_THAT(svg, HasSubstr(">A title</title>"));
    EXPECT_THAT(svg, HasSubstr(">What it shows</desc>"));
    EXPECT_THAT(svg, HasSubstr("aria-label=\"an alt text\""));
}

TEST(PaintSvg, EscapesWhatAFieldMayBeCalled) {
    const std::string svg = paint_svg(scene_saying("<b>Smith & \"Sons\"</b>"));
    EXPECT_THAT(svg, HasSubstr("&lt;b&gt;Smith &amp; &quot;Sons&quot;&lt;/b&gt;"));
    EXPECT_THAT(svg, Not(HasSubstr("<b>")));
}

TEST(PaintSvg, InsideHtmlNamesNoAddress) {
    EXPECT_THAT(paint_svg(scene_saying("x"), "", "a", false), Not(HasSubstr("http")));
}

}  // namespace
}  // namespace soilhold::report
