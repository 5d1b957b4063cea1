#include "report/watershed_map.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "report/cautions.h"
#include "report/loss_classes.h"
#include "report/map_furniture.h"
#include "report/map_geometry.h"
#include "report/map_labels.h"
#include "report/page_foot.h"
#include "report/page_layout.h"

namespace soilhold::report {

namespace {

constexpr TextStyle headline{18.0, true, 1.22}, body{10.0, false, 1.34}, small{8.5, false, 1.3};
constexpr double side_list = 236.0, gap = 16.0, strip = 34.0, least_map = 120.0;
constexpr std::size_t most_sources = 400;

/// Round scales, the largest first.
constexpr double scales[] = {
    500,    1000,   1500,   2000,   2500,   3000,   4000,   5000,   6000,   7500,   8000,   9000,   10000,  11000,
    12000,  13000,  14000,  15000,  16000,  18000,  20000,  22000,  24000,  27000,  30000,  33000,  36000,  40000,
    45000,  48000,  50000,  55000,  60000,  65000,  70000,  75000,  80000,  90000,  100000, 110000, 120000, 130000,
    140000, 150000, 160000, 180000, 200000, 225000, 250000, 300000, 350000, 400000, 500000, 600000, 800000, 1000000};

double scale_for(const Box& ground, double width, double height) {
    for (const double scale : scales)
        if ((ground.right - ground.left) / metres_per_point(scale) <= width &&
            (ground.bottom - ground.top) / metres_per_point(scale) <= height)
            return scale;
    throw std::invalid_argument("The map is too wide for a sheet at 1 : 1,000,000.");
}

/// 1 where fields are 40 points wide or more in the middle of all, less where they are smaller, 0.6 at least.
double fineness_of(const WatershedMap& map, double scale) {
    std::vector<double> sides;
    for (const MapField& field : map.fields) {
        const Box box = bounds_of(field.rings);
        sides.push_back(std::sqrt((box.right - box.left) * (box.bottom - box.top)) / metres_per_point(scale));
    }
    if (sides.empty()) return 1.0;
    std::nth_element(sides.begin(), sides.begin() + static_cast<std::ptrdiff_t>(sides.size() / 2), sides.end());
    return std::clamp(sides[sides.size() / 2] / 40.0, 0.6, 1.0);
}

/// All that is drawn, in metres; y grows northward here.
Box ground_of(const WatershedMap& map) {
    Box ground{0, 0, map.width_m, map.height_m};
    for (const MapField& field : map.fields) {
        const Box one = bounds_of(field.rings);
        ground = {std::min(ground.left, one.left), std::min(ground.top, one.top), std::max(ground.right, one.right),
                  std::max(ground.bottom, one.bottom)};
    }
    const double extent = (ground.right - ground.left) * (ground.bottom - ground.top);
    if (!(extent > 0) || !std::isfinite(extent)) throw std::invalid_argument("A map needs a width and a height.");
    return ground;
}

PageContent foot_of(const WatershedMap& map, const PageSettings& settings) {
    PageContent content;
    content.cautions = map.cautions;
    content.cautions.insert(content.cautions.end(), cautions().begin(), cautions().end());
    content.local_office = shortened(map.local_office, 110);
    content.prepared_by = shortened(map.prepared_by, 90);
    content.date = settings.date;
    content.sources = shortened(map.sources, most_sources);
    // Cut between sources where that can be, and said to be cut.
    if (const std::size_t cut = map.sources.rfind("; ", most_sources);
        map.sources.size() > most_sources && cut != std::string::npos)
        content.sources = map.sources.substr(0, cut) + "; \xe2\x80\xa6 (the whole list: soilhold watershed)";
    content.maker = settings.program_version.empty() ? "soilhold" : "soilhold " + settings.program_version;
    return content;
}

/// How a sheet is parted.
struct Plan {
    double paper_width = 0, paper_height = 0;
    bool beside = false;  ///< the list beside the map
    Box map;              ///< room for the map without its strip
    double foot_top = 0;
    double scale = 0;
};

double draw_head(std::vector<Group>& groups, const WatershedMap& map, double left, double width,
                 const Measure& measure) {
    double y = page_margin - 8.0;
    const auto say = [&](Role role, const std::string& text, const TextStyle& style) {
        Group group{role, "", {}};
        y = set_paragraph(group, text, {left, y}, width, style, measure, 2) + 1.0;
        groups.push_back(std::move(group));
    };
    if (!map.watershed.empty()) say(Role::paragraph, map.watershed, small);
    say(Role::heading, map.sentence, headline);
    return y;
}

/// List and legend, side by side below the map or one under the other beside it. @return the y below
double draw_words(std::vector<Group>& groups, const WatershedMap& map, std::size_t without_number, double fineness,
                  bool beside, Point top_left, double width, units::System system, const Measure& measure) {
    if (beside) {
        const double y = draw_first_fields(groups, map, top_left, width, system, body, small, measure) + 9;
        return draw_legend(groups, map, without_number, fineness, {top_left.x, y}, width, body, small, measure);
    }
    const double legend = 0.36 * (width - gap);
    const double list = width - gap - legend;
    return std::max(draw_first_fields(groups, map, top_left, list, system, body, small, measure),
                    draw_legend(groups, map, without_number, fineness, {top_left.x + list + gap, top_left.y}, legend,
                                body, small, measure));
}

std::optional<Plan> plan_of(const WatershedMap& map, const Box& ground, const PageSettings& settings, bool across,
                            bool beside, const Measure& measure) {
    Plan plan;
    plan.beside = beside;
    plan.paper_width = settings.paper == Paper::letter ? 612.0 : 595.276;
    plan.paper_height = settings.paper == Paper::letter ? 792.0 : 841.89;
    if (across) std::swap(plan.paper_width, plan.paper_height);
    const double left = page_margin, width = plan.paper_width - 2 * page_margin;
    std::vector<Group> trial;
    const double foot = draw_foot(trial, foot_of(map, settings), left, 0, width, small, measure);
    plan.foot_top = plan.paper_height - page_margin + 8.0 - foot;
    const double top = draw_head(trial, map, left, width, measure) + 5.0;
    // Room for one more line than the trial: how many fields have no number is not known yet.
    const double words =
        draw_words(trial, map, 2, 1.0, beside, {left, 0}, beside ? side_list : width, settings.system, measure) +
        small.line_height();
    plan.map = {left, top, left + (beside ? width - side_list - gap : width),
                plan.foot_top - 8 - strip - (beside ? 0 : words + 8)};
    if (plan.map.bottom - plan.map.top < least_map || plan.map.right - plan.map.left < least_map) return std::nullopt;
    if (beside && top + words > plan.foot_top) return std::nullopt;
    plan.scale = scale_for(ground, plan.map.right - plan.map.left, plan.map.bottom - plan.map.top);
    return plan;
}

std::vector<Point> on_paper(const std::vector<GroundPoint>& points, const Box& ground, Point top_left, double scale) {
    const double metres = metres_per_point(scale);
    std::vector<Point> moved;
    for (const GroundPoint& point : points)
        moved.push_back(
            {top_left.x + (point.x - ground.left) / metres, top_left.y + (ground.bottom - point.y) / metres});
    return moved;
}

/// The shade of hills at a tenth of ink: level ground about half of that, the darkest slopes twice.
Veil veil_of(const WatershedMap& map, const Box& ground, Point top_left, double scale) {
    Veil veil;
    veil.columns = static_cast<int>(map.light.columns());
    veil.rows = static_cast<int>(map.light.rows());
    const double metres = metres_per_point(scale), cell = map.light.shape().cell_m / metres;
    veil.top_left = on_paper({{0, map.height_m}}, ground, top_left, scale).front();
    veil.width = cell * veil.columns;
    veil.height = cell * veil.rows;
    for (const float light : map.light.values()) {
        const double ink =
            std::isfinite(light) ? std::clamp(0.22 * (1.0 - static_cast<double>(light)), 0.0, 0.22) : 0.0;
        veil.ink.push_back(static_cast<std::uint8_t>(std::lround(255.0 * ink)));
    }
    return veil;
}

std::string alt_of(const WatershedMap& map) {
    const auto above = std::count_if(map.fields.begin(), map.fields.end(),
                                     [](const MapField& field) { return field.times_T && *field.times_T >= 1.0; });
    return fmt::format("Map of {} fields, north up; {} of them lose more than T. {}", map.fields.size(), above,
                       map.sentence);
}

/// @return how many fields found no place for their number
std::size_t draw_map(Group& figure, const WatershedMap& map, const Box& ground, Point top_left, double scale,
                     const Measure& measure) {
    std::vector<const MapField*> fields;
    for (const MapField& field : map.fields) fields.push_back(&field);
    std::stable_sort(fields.begin(), fields.end(), [](const auto* a, const auto* b) { return a->rank < b->rank; });
    std::vector<Rings> rings;
    std::vector<std::string> ranks;
    for (const MapField* field : fields) {
        rings.emplace_back();
        for (const auto& ring : field->rings) rings.back().push_back(on_paper(ring, ground, top_left, scale));
        ranks.push_back(fmt::format("{}", field->rank));
    }
    const double fineness = fineness_of(map, scale);
    const double metres = metres_per_point(scale);
    const Box frame{top_left.x, top_left.y, top_left.x + (ground.right - ground.left) / metres,
                    top_left.y + (ground.bottom - ground.top) / metres};

    for (std::size_t i = 0; i < fields.size(); ++i)
        if (class_of_loss(fields[i]->times_T))
            figure.marks.push_back(Area{in_one_outline(rings[i]), Colour::tint, std::nullopt, 0.0, Colour::ink});
    if (map.light.columns() > 0) figure.marks.push_back(veil_of(map, ground, top_left, scale));
    for (const auto& stream : map.streams)
        figure.marks.push_back(
            Polyline{on_paper(stream, ground, top_left, scale), stream_width, Colour::water, false, false});

    Rings streams;
    for (const auto& stream : map.streams) streams.push_back(on_paper(stream, ground, top_left, scale));
    const std::vector<PlacedLabel> labels = place_labels(rings, ranks, grown(frame, -1.5), streams,
                                                         fields.size() > 60 ? map.visits : fields.size(), measure);
    std::vector<Box> kept_free;
    for (const PlacedLabel& label : labels) kept_free.push_back(grown(label.box, 1.2));
    for (std::size_t i = 0; i < fields.size(); ++i)
        if (const auto loss_class = class_of_loss(fields[i]->times_T); loss_class && *loss_class > 0)
            figure.marks.push_back(stipple(rings[i], *loss_class, kept_free, fineness));
    // Thin outlines first, so that a heavy one is heavy all the way round.
    for (const bool heavy : {false, true})
        for (std::size_t i = 0; i < fields.size(); ++i) {
            const auto loss_class = class_of_loss(fields[i]->times_T);
            if (heavy != (loss_class && *loss_class >= 2)) continue;
            for (const auto& ring : rings[i])
                figure.marks.push_back(
                    Polyline{ring, fineness * (heavy ? heavy_outline : thin_outline), Colour::ink, true, !loss_class});
        }
    for (const PlacedLabel& label : labels)
        if (label.lead) figure.marks.push_back(*label.lead);
    for (const PlacedLabel& label : labels) figure.marks.push_back(label.text);
    figure.marks.push_back(
        Polyline{rectangle(frame.left, frame.top, frame.right - frame.left, frame.bottom - frame.top), 0.4, Colour::ink,
                 true, false});
    return fields.size() - labels.size();
}

}  // namespace

double metres_per_point(double scale) { return scale * 0.0254 / 72.0; }

Scene watershed_map_scene(const WatershedMap& map, const PageSettings& settings, const Measure& measure) {
    const Box ground = ground_of(map);
    std::optional<Plan> best;
    for (const bool across : {false, true})
        for (const bool beside : {true, false})
            if (const auto plan = plan_of(map, ground, settings, across, beside, measure);
                plan && (!best || plan->scale < best->scale))
                best = plan;
    if (!best) throw std::length_error("The sentence, the cautions and the sources leave no room for the map.");

    Scene scene;
    scene.width = best->paper_width;
    scene.height = best->paper_height;
    scene.title = scene.description = map.sentence;
    scene.author = map.prepared_by;
    scene.date = settings.date;
    const double left = page_margin, width = scene.width - 2 * page_margin;
    draw_head(scene.groups, map, left, width, measure);

    const double metres = metres_per_point(best->scale);
    const double wide = (ground.right - ground.left) / metres, tall = (ground.bottom - ground.top) / metres;
    const Point top_left{best->map.left + (best->beside ? 0.0 : (best->map.right - best->map.left - wide) / 2),
                         best->map.top};
    Group figure{Role::figure, alt_of(map), {}};
    const std::size_t without_number = draw_map(figure, map, ground, top_left, best->scale, measure);
    scene.groups.push_back(std::move(figure));
    const double under = top_left.y + tall;
    const double bar_right =
        draw_scale_bar(scene.groups, best->scale, {top_left.x, under + 8}, settings.system, small, measure);
    draw_north_arrow(scene.groups, {std::max(bar_right + 14, top_left.x + wide - 8), under + 31}, small);
    // A narrow map leaves the list more room for names.
    const double list_left = std::max(scene.width - page_margin - 300.0,
                                      std::min(scene.width - page_margin - side_list, top_left.x + wide + 24));
    draw_words(scene.groups, map, without_number, fineness_of(map, best->scale), best->beside,
               best->beside ? Point{list_left, best->map.top} : Point{left, under + strip + 6},
               best->beside ? scene.width - page_margin - list_left : width, settings.system, measure);
    draw_foot(scene.groups, foot_of(map, settings), left, best->foot_top, width, small, measure);
    return scene;
}

}  // namespace soilhold::report
