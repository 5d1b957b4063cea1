#include "report/page_html.h"

#include <fmt/format.h>

#include "report/embedded_font.h"
#include "report/paint_svg.h"

namespace soilhold::report {

namespace {

// Drawings are laid out this wide; a narrow screen gets the narrow ones, so that their labels stay legible.
constexpr double wide = 504.0, narrow = 250.0;

constexpr const char* page_style = R"(
*{box-sizing:border-box}
body{margin:0;background:#FFFFFF;color:#1D1D1B;font:16px/1.45 'Open Sans',sans-serif}
main{max-width:44rem;margin:0 auto;padding:1.5rem 1.25rem}
h1{font-size:1.7rem;line-height:1.22;margin:.2rem 0 1rem}
h2{font-size:1rem;margin:1.2rem 0 .2rem}
p,ul,table,figure{margin:0 0 .4rem}
ul{padding-left:1.1rem}
figure svg{display:block;width:100%;height:auto}
.narrow{display:none}
table{border-collapse:collapse;font-size:.85rem;width:100%}
caption{text-align:left}
th,td{text-align:right;padding:.1rem 0 .1rem .8rem;font-weight:400;vertical-align:top}
th:first-child{text-align:left;padding-left:0}
thead th{border-bottom:1px solid #1D1D1B}
.pair{display:grid;grid-template-columns:1fr 1fr;gap:0 1.5rem}
footer{border-top:1px solid #1D1D1B;margin-top:1.2rem;padding-top:.5rem;font-size:.85rem;overflow-wrap:anywhere}
td{white-space:nowrap}
.wide-table{overflow-x:auto}
.small{font-size:.85rem}
.blank{display:inline-block;min-width:12rem;border-bottom:1px solid #1D1D1B}
h1,h2,p,li,th{overflow-wrap:anywhere}
@media screen and (max-width:34rem){.wide{display:none}.narrow{display:block}.pair{display:block}
h1{font-size:1.4rem}th,td{padding-left:.45rem}}
@media print{main{max-width:none;padding:0}body{font-size:9.5pt;line-height:1.3}h1{font-size:15pt;margin:0 0 6pt}
.small{font-size:8pt}h2{font-size:9.5pt;margin:6pt 0 1pt}p,ul,figure{margin:0 0 2pt}table,.narrow{display:none}
footer{font-size:8pt;margin-top:6pt;columns:2}}
)";

std::string paragraph(const std::string& text) { return "<p>" + escaped(text) + "</p>\n"; }

/// A drawing in two widths. Only one shows; the other is hidden from screen readers too.
template <class Draw>
std::string figure(const std::string& title, const std::string& alt, const std::string& id, const Draw& draw) {
    std::string html = "<figure>\n";
    for (const bool small : {false, true}) {
        Scene scene;
        scene.width = small ? narrow : wide;
        scene.title = title;
        scene.description = alt;
        Group group;
        scene.height = draw(group, scene.width, small) + 2.0;
        scene.groups.push_back(std::move(group));
        html += fmt::format("<div class=\"{}\">{}</div>\n", small ? "narrow" : "wide",
                            paint_svg(scene, "", id + (small ? "-narrow" : ""), false));
    }
    return html + "</figure>\n";
}

std::string table_of(const LossBars& bars) {
    bool any_mark = false;
    for (const LossRow& row : bars.rows) any_mark = any_mark || row.mark;
    std::string html =
        "<table>\n<thead><tr><th scope=\"col\">An average year</th><th scope=\"col\">Middle</th>"
        "<th scope=\"col\">Likely range</th>";
    if (any_mark) html += "<th scope=\"col\">T</th>";
    html += "</tr></thead>\n<tbody>\n";
    for (const LossRow& row : bars.rows) {
        html += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td>", escaped(row.label),
                            escaped(row.middle), escaped(row.range));
        if (any_mark) html += "<td>" + (row.mark ? escaped(mark_words(*row.mark, bars.unit)) : "not given") + "</td>";
        html += "</tr>\n";
    }
    return html + "</tbody>\n</table>\n";
}

/// The first row and the first column are headings.
std::string table_of(const std::vector<std::vector<std::string>>& rows) {
    std::string html = "<div class=\"wide-table\"><table>\n";
    for (std::size_t i = 0; i < rows.size(); ++i) {
        html += i == 0 ? "<thead><tr>" : "<tr>";
        for (std::size_t j = 0; j < rows[i].size(); ++j)
            html += (i == 0   ? "<th scope=\"col\">" + escaped(rows[i][j]) + "</th>"
                     : j == 0 ? "<th scope=\"row\">" + escaped(rows[i][j]) + "</th>"
                              : "<td>" + escaped(rows[i][j]) + "</td>");
        html += i == 0 ? "</tr></thead>\n<tbody>\n" : "</tr>\n";
    }
    return html + "</tbody>\n</table></div>\n";
}

std::string part_html(const PagePart& part, std::size_t number, const Measure& measure) {
    std::string html = "<section>\n<h2>" + escaped(part.heading) + "</h2>\n";
    for (const std::string& text : part.before) html += paragraph(text);
    if (!part.list.empty()) {
        html += "<ul>\n";
        for (const std::string& text : part.list) html += "<li>" + escaped(text) + "</li>\n";
        html += "</ul>\n";
    }
    const TextStyle body{10.5, false, 1.36}, small{8.5, false, 1.34};
    if (!part.bars.rows.empty()) {
        html +=
            figure(part.heading, part.bars_alt, fmt::format("bars-{}", number), [&](Group& group, double width, bool) {
                return draw_loss_bars(group, part.bars, {0, 2}, width, body, small, measure);
            });
        html += table_of(part.bars);
    }
    if (!part.year.strips.empty()) {
        html +=
            figure(part.heading, part.year_alt, fmt::format("year-{}", number), [&](Group& group, double width, bool) {
                return draw_year_strips(group, part.year, {0, 2}, width, body, small, measure);
            });
        html += table_of(part.year_table);
    }
    if (!part.clods.empty())
        html += figure("Clods after the soak test", part.clods_alt, fmt::format("clods-{}", number),
                       [&](Group& group, double width, bool) {
                           return draw_clod_rows(group, part.clods, {0, 2}, width, body, small, measure, part.clod_key);
                       });
    for (const std::string& text : part.after) html += paragraph(text);
    for (const std::string& text : part.remarks) html += "<p class=\"small\">" + escaped(text) + "</p>\n";
    return html + "</section>\n";
}

std::string line_to_fill(const std::string& label, const std::string& text) {
    return "<p>" + label + " " + (text.empty() ? "<span class=\"blank\">&#160;</span>" : escaped(text)) + "</p>\n";
}

}  // namespace

std::string html_of(const PageContent& content, Paper paper, const Measure& measure) {
    std::string body = "<main>\n";
    if (!content.farm.empty()) body += "<p class=\"small\">" + escaped(content.farm) + "</p>\n";
    body += "<h1>" + escaped(content.headline) + "</h1>\n";
    for (std::size_t i = 0; i < content.parts.size(); ++i) {
        const bool pair = content.parts[i].half && i + 1 < content.parts.size() && content.parts[i + 1].half;
        if (pair) body += "<div class=\"pair\">\n" + part_html(content.parts[i], i, measure);
        if (pair) ++i;
        body += part_html(content.parts[i], i, measure);
        if (pair) body += "</div>\n";
    }
    body += "<footer>\n<h2>Before you use these figures</h2>\n";
    for (const std::string& caution : content.cautions) body += paragraph(caution);
    body += line_to_fill("Your local office and its phone:", content.local_office);
    body += line_to_fill("Prepared by:", content.prepared_by);
    body += line_to_fill("Date:", content.date);
    body += paragraph("Where the values come from: " + content.sources);
    body += paragraph("Worked out with " + content.maker + ".");
    body += "</footer>\n</main>\n";

    const char* size = paper == Paper::letter ? "letter" : "A4";
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{}</title>\n"
        "<style>\n{}{}@page{{size:{};margin:13mm}}\n</style>\n</head>\n<body>\n{}</body>\n</html>\n",
        escaped(content.headline), font_face_css(body), page_style, size, body);
}

}  // namespace soilhold::report
