#include "report/paint_cairo.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <fmt/format.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace soilhold::report {

namespace {

struct Release {
    void operator()(cairo_t* held) const { cairo_destroy(held); }
    void operator()(cairo_surface_t* held) const { cairo_surface_destroy(held); }
    void operator()(PangoFontDescription* held) const { pango_font_description_free(held); }
    void operator()(cairo_font_options_t* held) const { cairo_font_options_destroy(held); }
    void operator()(PangoContext* held) const { g_object_unref(held); }
    void operator()(PangoLayout* held) const { g_object_unref(held); }
    void operator()(PangoFont* held) const { g_object_unref(held); }
    void operator()(PangoFontMap* held) const { g_object_unref(held); }
};
template <typename T>
using Held = std::unique_ptr<T, Release>;

Held<PangoFontDescription> open_sans(double size, bool bold) {
    Held<PangoFontDescription> font(pango_font_description_new());
    pango_font_description_set_family(font.get(), "Open Sans");
    pango_font_description_set_weight(font.get(), bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font.get(), size * PANGO_SCALE);
    return font;
}

/// One line of text ready to be measured or shown. Pango falls back silently, hence the look at what it loaded.
struct Typesetter {
    Held<PangoFontMap> fonts{pango_cairo_font_map_new()};
    Held<PangoContext> context;
    Held<PangoLayout> layout;

    Typesetter() {
        pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(fonts.get()), 72.0);
        context.reset(pango_font_map_create_context(fonts.get()));
        pango_context_set_round_glyph_positions(context.get(), FALSE);
        const Held<cairo_font_options_t> options(cairo_font_options_create());
        cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
        cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
        cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
        pango_cairo_context_set_font_options(context.get(), options.get());
        const auto wanted = open_sans(10.0, false);
        const Held<PangoFont> got(pango_context_load_font(context.get(), wanted.get()));
        std::string family = "none";
        if (got) {
            const Held<PangoFontDescription> described(pango_font_describe(got.get()));
            if (const char* name = pango_font_description_get_family(described.get())) family = name;
        }
        if (family != "Open Sans")
            throw PaintError("The typeface Open Sans was not found (the system offered '" + family +
                             "'). Pages are set in it: install the package fonts-open-sans. [font-missing]");
        layout.reset(pango_layout_new(context.get()));
    }

    void set(const std::string& words, double size, bool bold) {
        const auto font = open_sans(size, bold);
        pango_layout_set_font_description(layout.get(), font.get());
        pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
    }

    double width() const {
        PangoRectangle logical;
        pango_layout_get_extents(layout.get(), nullptr, &logical);
        return static_cast<double>(logical.width) / PANGO_SCALE;
    }
};

void check(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw PaintError(fmt::format("The page could not be painted: {}. [paint]", cairo_status_to_string(status)));
}

void use(cairo_t* cr, Colour colour) {
    const Light light = light_of(colour);
    cairo_set_source_rgb(cr, light.red, light.green, light.blue);
}

void trace(cairo_t* cr, const std::vector<Point>& points, bool closed) {
    cairo_new_path(cr);
    for (const Point& point : points) cairo_line_to(cr, point.x, point.y);
    if (closed) cairo_close_path(cr);
}

void stroke(cairo_t* cr, double width, Colour colour, bool dashed) {
    const double dashes[] = {2.2, 2.0};
    cairo_set_dash(cr, dashes, dashed ? 2 : 0, 0.0);
    cairo_set_line_width(cr, width);
    use(cr, colour);
    cairo_stroke(cr);
}

void paint(cairo_t* cr, const Line& line, Typesetter&) {
    trace(cr, {line.from, line.to}, false);
    stroke(cr, line.width, line.colour, line.dashed);
}

void paint(cairo_t* cr, const Polyline& line, Typesetter&) {
    trace(cr, line.points, line.closed);
    stroke(cr, line.width, line.colour, line.dashed);
}

void paint(cairo_t* cr, const Area& area, Typesetter& typesetter) {
    if (area.fill) {
        trace(cr, area.outline, true);
        use(cr, *area.fill);
        cairo_fill(cr);
    }
    for (const Line& line : hatch_strokes(area)) paint(cr, line, typesetter);
    if (area.edge > 0.0) {
        trace(cr, area.outline, true);
        stroke(cr, area.edge, area.edge_colour, false);
    }
}

void paint(cairo_t* cr, const Dots& dots, Typesetter&) {
    cairo_new_path(cr);
    for (const Point& point : dots.at) {
        cairo_move_to(cr, point.x, point.y);
        cairo_line_to(cr, point.x, point.y);
    }
    cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
    stroke(cr, 2.0 * dots.radius, dots.colour, false);
    cairo_set_line_cap(cr, CAIRO_LINE_CAP_BUTT);
}

void paint(cairo_t* cr, const Veil& veil, Typesetter&) {
    if (veil.ink.size() != static_cast<std::size_t>(veil.columns) * static_cast<std::size_t>(veil.rows))
        throw std::invalid_argument("A veil has one value of ink a cell.");
    if (veil.ink.empty()) return;
    const Held<cairo_surface_t> cells(cairo_image_surface_create(CAIRO_FORMAT_A8, veil.columns, veil.rows));
    check(cairo_surface_status(cells.get()));
    unsigned char* const bytes = cairo_image_surface_get_data(cells.get());
    const int stride = cairo_image_surface_get_stride(cells.get());
    for (int r = 0; r < veil.rows; ++r)
        std::copy_n(veil.ink.begin() + static_cast<std::ptrdiff_t>(r) * veil.columns, veil.columns,
                    bytes + static_cast<std::ptrdiff_t>(r) * stride);
    cairo_surface_mark_dirty(cells.get());
    cairo_save(cr);
    cairo_translate(cr, veil.top_left.x, veil.top_left.y);
    cairo_scale(cr, veil.width / veil.columns, veil.height / veil.rows);
    use(cr, Colour::ink);
    cairo_mask_surface(cr, cells.get(), 0.0, 0.0);
    cairo_restore(cr);
}

void paint(cairo_t* cr, const Text& text, Typesetter& typesetter) {
    typesetter.set(text.words, text.size, text.bold);
    const double shift = text.anchor == Anchor::start ? 0.0 : text.anchor == Anchor::middle ? 0.5 : 1.0;
    use(cr, text.colour);
    cairo_move_to(cr, text.at.x - shift * typesetter.width(), text.at.y);
    pango_cairo_show_layout_line(cr, pango_layout_get_line_readonly(typesetter.layout.get(), 0));
}

const char* tag_of(Role role) {
    switch (role) {
        case Role::heading:
            return "H1";
        case Role::subheading:
            return "H2";
        case Role::paragraph:
            return "P";
        case Role::figure:
            return "Figure";
        case Role::ornament:
            break;
    }
    return "P";
}

void paint(cairo_t* cr, const Scene& scene, bool tagged) {
    Typesetter typesetter;
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    if (tagged) cairo_tag_begin(cr, "Document", nullptr);
    for (const Group& group : scene.groups) {
        if (tagged && group.role != Role::ornament) cairo_tag_begin(cr, tag_of(group.role), nullptr);
        for (const Mark& mark : group.marks) std::visit([&](const auto& one) { paint(cr, one, typesetter); }, mark);
        if (tagged && group.role != Role::ornament) cairo_tag_end(cr, tag_of(group.role));
    }
    if (tagged) cairo_tag_end(cr, "Document");
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void check_date(const std::string& date) {
    bool good = date.size() == 10;
    for (std::size_t i = 0; good && i < date.size(); ++i)
        good = (i == 4 || i == 7) ? date[i] == '-' : (date[i] >= '0' && date[i] <= '9');
    if (!good) throw std::invalid_argument("The date of a page is written like 2026-04-18, not '" + date + "'.");
}

}  // namespace

std::string font_file(bool bold) {
    using Pattern = std::unique_ptr<FcPattern, decltype(&FcPatternDestroy)>;
    const Pattern wanted(FcPatternCreate(), &FcPatternDestroy);
    FcPatternAddString(wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>("Open Sans"));
    FcPatternAddInteger(wanted.get(), FC_WEIGHT, bold ? FC_WEIGHT_BOLD : FC_WEIGHT_REGULAR);
    FcPatternAddInteger(wanted.get(), FC_WIDTH, FC_WIDTH_NORMAL);
    FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);
    FcDefaultSubstitute(wanted.get());
    FcResult result = FcResultMatch;
    const Pattern found(FcFontMatch(nullptr, wanted.get(), &result), &FcPatternDestroy);
    FcChar8 *family = nullptr, *file = nullptr;
    if (!found || FcPatternGetString(found.get(), FC_FAMILY, 0, &family) != FcResultMatch ||
        std::string(reinterpret_cast<const char*>(family)) != "Open Sans" ||
        FcPatternGetString(found.get(), FC_FILE, 0, &file) != FcResultMatch)
        throw PaintError("The typeface Open Sans was not found: install the package fonts-open-sans. [font-missing]");
    return reinterpret_cast<const char*>(file);
}

Measure measure_open_sans() {
    const auto typesetter = std::make_shared<Typesetter>();
    return [typesetter](const std::string& words, double size, bool bold) {
        typesetter->set(words, size, bold);
        return typesetter->width();
    };
}

std::string painted_pdf(const Scene& scene) {
    check_date(scene.date);
    std::string bytes;
    const Held<cairo_surface_t> surface(cairo_pdf_surface_create_for_stream(append, &bytes, scene.width, scene.height));
    check(cairo_surface_status(surface.get()));
    const auto tell = [&](cairo_pdf_metadata_t what, const std::string& text) {
        if (!text.empty()) cairo_pdf_surface_set_metadata(surface.get(), what, text.c_str());
    };
    tell(CAIRO_PDF_METADATA_TITLE, scene.title);
    tell(CAIRO_PDF_METADATA_AUTHOR, scene.author);
    tell(CAIRO_PDF_METADATA_CREATE_DATE, scene.date + "T00:00:00Z");
    {
        const Held<cairo_t> cr(cairo_create(surface.get()));
        paint(cr.get(), scene, true);
        check(cairo_status(cr.get()));
    }
    cairo_surface_finish(surface.get());
    check(cairo_surface_status(surface.get()));
    return bytes;
}

std::string painted_png(const Scene& scene, double scale) {
    if (!(scale > 0.0 && scale <= 20.0)) throw std::invalid_argument("The scale of a picture is above 0, at most 20.");
    const Held<cairo_surface_t> surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                                   static_cast<int>(std::ceil(scene.width * scale)),
                                                                   static_cast<int>(std::ceil(scene.height * scale))));
    check(cairo_surface_status(surface.get()));
    const Held<cairo_t> cr(cairo_create(surface.get()));
    use(cr.get(), Colour::paper);
    cairo_paint(cr.get());
    cairo_scale(cr.get(), scale, scale);
    paint(cr.get(), scene, false);
    check(cairo_status(cr.get()));
    std::string bytes;
    check(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
    return bytes;
}

}  // namespace soilhold::report
