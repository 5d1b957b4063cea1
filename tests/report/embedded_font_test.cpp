#include "report/embedded_font.h"

#include <gmock/gmock.h>

namespace soilhold::report {
namespace {

TEST(EmbeddedFont, WritesBase64AsItsStandardSays) {
    // RFC 4648 section 10, test vectors
    EXPECT_EQ(base64(""), "");
    EXPECT_EQ(base64("f"), "Zg==");
    EXPECT_EQ(base64("fo"), "Zm8=");
    EXPECT_EQ(base64("foo"), "Zm9v");
    EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

TEST(EmbeddedFont, HoldsOnlyTheLettersUsed) {
    const std::string few = font_face_css("soil");
    const std::string more = font_face_css("The quick brown fox jumps over the lazy dog 0123456789");
    EXPECT_LT(few.size(), more.size());
    EXPECT_LT(more.size(), 60000U);  // the two whole files are over 400 kB
    EXPECT_THAT(few, testing::HasSubstr("font-weight:700"));
    EXPECT_EQ(few, font_face_css("soil"));
}

}  // namespace
}  // namespace soilhold::report
