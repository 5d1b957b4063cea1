#include "report/embedded_font.h"

#include <fmt/format.h>
#include <hb-subset.h>
#include <hb.h>

#include <memory>
#include <stdexcept>

#include "report/paint_cairo.h"

namespace soilhold::report {

namespace {

template <class T>
using Held = std::unique_ptr<T, void (*)(T*)>;

/// The code points of UTF-8 text, by HarfBuzz's own reading of it.
void add_letters(hb_set_t* letters, const std::string& text) {
    const Held<hb_buffer_t> buffer(hb_buffer_create(), &hb_buffer_destroy);
    hb_buffer_add_utf8(buffer.get(), text.data(), static_cast<int>(text.size()), 0, static_cast<int>(text.size()));
    unsigned int count = 0;
    const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer.get(), &count);
    for (unsigned int i = 0; i < count; ++i) hb_set_add(letters, infos[i].codepoint);
}

std::string subset(const std::string& path, const std::string& letters) {
    const Held<hb_blob_t> file(hb_blob_create_from_file_or_fail(path.c_str()), &hb_blob_destroy);
    if (!file) throw std::runtime_error("the typeface " + path + " could not be read");
    const Held<hb_face_t> face(hb_face_create(file.get(), 0), &hb_face_destroy);
    const Held<hb_subset_input_t> input(hb_subset_input_create_or_fail(), &hb_subset_input_destroy);
    if (!input) throw std::runtime_error("no memory to cut down the typeface");
    add_letters(hb_subset_input_unicode_set(input.get()), letters + " ");
    hb_subset_input_set_flags(input.get(), HB_SUBSET_FLAGS_NO_HINTING);
    const Held<hb_face_t> small(hb_subset_or_fail(face.get(), input.get()), &hb_face_destroy);
    if (!small) throw std::runtime_error("the typeface " + path + " could not be cut down");
    const Held<hb_blob_t> blob(hb_face_reference_blob(small.get()), &hb_blob_destroy);
    unsigned int length = 0;
    const char* data = hb_blob_get_data(blob.get(), &length);
    return std::string(data, length);
}

}  // namespace

std::string base64(const std::string& bytes) {
    constexpr const char* letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        unsigned int three = 0;
        for (std::size_t k = 0; k < 3; ++k)
            three = three << 8U | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
        for (std::size_t k = 0; k < 4; ++k)
            text += i + k > bytes.size() ? '=' : letters[three >> (18U - 6U * static_cast<unsigned int>(k)) & 63U];
    }
    return text;
}

std::string font_face_css(const std::string& letters) {
    std::string css;
    for (const bool bold : {false, true})
        css += fmt::format(
            "@font-face{{font-family:'Open Sans';font-weight:{};src:url(data:font/ttf;base64,{}) "
            "format('truetype')}}\n",
            bold ? 700 : 400, base64(subset(font_file(bold), letters)));
    return css;
}

}  // namespace soilhold::report
