#include "report/page_layout.h"

#include <algorithm>

#include "report/page_foot.h"
#include "report/text_block.h"

namespace soilhold::report {

namespace {

constexpr double gutter = 26.0, least_gap = 8.0, most_gap = 22.0;

/// Marks gathered from the top of the sheet downwards.
struct Sheet {
    std::vector<Group>& groups;
    const PageSizes& sizes;
    const Measure& measure;

    TextStyle body() const { return {sizes.body, false, 1.34}; }
    TextStyle small() const { return {sizes.small, false, 1.32}; }

    double say(Role role, const std::string& text, double left, double y, double width, const TextStyle& style) const {
        Group group;
        group.role = role;
        y = set_paragraph(group, text, {left, y}, width, style, measure);
        groups.push_back(std::move(group));
        return y;
    }

    /// A paragraph of a list, hung on a dash.
    double item(const std::string& text, double left, double y, double width) const {
        const double indent = 0.95 * sizes.body;
        Group group;
        set_paragraph(group, "\xe2\x80\x93", {left, y}, width, body(), measure);
        y = set_paragraph(group, text, {left + indent, y}, width - indent, body(), measure);
        groups.push_back(std::move(group));
        return y + 1.5;
    }

    double part(const PagePart& part, double left, double y, double width) const {
        y = say(Role::subheading, part.heading, left, y, width, {sizes.body, true, 1.34}) + 1.0;
        for (const std::string& text : part.before) y = say(Role::paragraph, text, left, y, width, body()) + 1.0;
        for (const std::string& text : part.list) y = item(text, left, y, width);
        if (!part.bars.rows.empty()) {
            Group figure{Role::figure, part.bars_alt, {}};
            y = draw_loss_bars(figure, part.bars, {left, y + 2.0}, width, body(), small(), measure) + 3.0;
            groups.push_back(std::move(figure));
        }
        if (!part.year.strips.empty()) {
            Group figure{Role::figure, part.year_alt, {}};
            y = draw_year_strips(figure, part.year, {left, y + 2.0}, width, body(), small(), measure) + 3.0;
            groups.push_back(std::move(figure));
        }
        if (!part.clods.empty()) {
            Group figure{Role::figure, part.clods_alt, {}};
            y = draw_clod_rows(figure, part.clods, {left, y + 2.0}, width, body(), small(), measure, part.clod_key) +
                2.0;
            groups.push_back(std::move(figure));
        }
        for (const std::string& text : part.after) y = say(Role::paragraph, text, left, y, width, body()) + 1.0;
        for (const std::string& text : part.remarks) y = say(Role::paragraph, text, left, y, width, small()) + 1.0;
        return y;
    }

    double head(const PageContent& content, double left, double y, double width) const {
        if (!content.farm.empty()) y = say(Role::paragraph, content.farm, left, y, width, small()) + 1.0;
        return say(Role::heading, content.headline, left, y, width, {sizes.headline, true, 1.22});
    }

    /// All parts, two halves side by side. @return the y below the last
    double parts(const PageContent& content, double left, double y, double width, double gap) const {
        for (std::size_t i = 0; i < content.parts.size(); ++i) {
            y += gap;
            if (begins_pair(content, i)) {
                const double half = (width - gutter) / 2;
                const double first = part(content.parts[i], left, y, half);
                const double second = part(content.parts[++i], left + half + gutter, y, half);
                y = std::max(first, second);
            } else {
                y = part(content.parts[i], left, y, width);
            }
        }
        return y;
    }

    static bool begins_pair(const PageContent& content, std::size_t i) {
        return content.parts[i].half && i + 1 < content.parts.size() && content.parts[i + 1].half;
    }
};

/// Gaps above each row of parts, and the one above the foot.
double gaps_of(const PageContent& content) {
    double gaps = 1.0;
    for (std::size_t i = 0; i < content.parts.size(); ++i, ++gaps)
        if (Sheet::begins_pair(content, i)) ++i;
    return gaps;
}

}  // namespace

std::optional<Scene> page_layout(const PageContent& content, Paper paper, const PageSizes& sizes,
                                 const Measure& measure) {
    Scene scene;
    scene.width = paper == Paper::letter ? 612.0 : 595.276;
    scene.height = paper == Paper::letter ? 792.0 : 841.89;
    scene.title = content.headline;
    scene.author = content.prepared_by;
    scene.date = content.date;
    scene.description = content.headline;
    const double left = page_margin, width = scene.width - 2.0 * page_margin, top = page_margin - 8.0;

    std::vector<Group> trial;
    const Sheet draft{trial, sizes, measure};
    const double foot_height = draw_foot(trial, content, left, 0.0, width, draft.small(), measure);
    const double foot_top = scene.height - page_margin - foot_height;

    // Once to learn the height, once more with the free room shared out between the parts.
    const double end = draft.parts(content, left, draft.head(content, left, top, width), width, least_gap);
    const double room = foot_top - least_gap - end;
    if (room < 0) return std::nullopt;
    const double gap = std::min(most_gap, least_gap + room / gaps_of(content));

    const Sheet sheet{scene.groups, sizes, measure};
    sheet.parts(content, left, sheet.head(content, left, top, width), width, gap);
    draw_foot(scene.groups, content, left, foot_top, width, sheet.small(), measure);
    return scene;
}

}  // namespace soilhold::report
