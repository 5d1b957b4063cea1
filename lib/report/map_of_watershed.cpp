#include "report/map_of_watershed.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "report/watershed_report.h"
#include "terrain/hillshade.h"
#include "terrain/stream_lines.h"

namespace soilhold::report {

namespace {

constexpr std::int64_t most_columns = 400;  ///< of the shade: finer than the eye sees at a tenth of ink

std::vector<std::vector<GroundPoint>> rings_of(const watershed::FieldResult& field, const raster::Placement& placement,
                                               double metres) {
    std::vector<std::vector<GroundPoint>> rings;
    const auto add = [&](const raster::Ring& ring) {
        rings.emplace_back();
        for (const raster::Point& point : ring)
            rings.back().push_back({(point.x - placement.west) * metres, (point.y - placement.south()) * metres});
        auto& last = rings.back();
        if (last.size() > 1 && last.front().x == last.back().x && last.front().y == last.back().y) last.pop_back();
    };
    for (const raster::Part& part : field.parts) {
        add(part.outer);
        for (const raster::Ring& hole : part.holes) add(hole);
    }
    return rings;
}

std::string count_of(std::size_t count, const char* one, const char* many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

/// "heights, rain (R): county sheet (read in the source)": what comes from one hand is said once.
void add_sources(WatershedMap& map, const watershed::WatershedResult& result) {
    std::vector<std::pair<std::string, std::string>> hands;  // whose, what
    for (const watershed::MapSource& source : result.sources) {
        if (source.what.starts_with("on offer")) continue;  // the map shows the fields as they are now
        const std::string whose = fmt::format("{} ({})", source.origin.from, source::words_for(source.origin.standing));
        const auto known =
            std::find_if(hands.begin(), hands.end(), [&](const auto& one) { return one.first == whose; });
        if (known == hands.end())
            hands.emplace_back(whose, source.what);
        else
            known->second += ", " + source.what;
    }
    for (const auto& [whose, what] : hands) map.sources += (map.sources.empty() ? "" : "; ") + what + ": " + whose;
}

/// Without the counts in brackets, which the list says anyway: one line on paper.
std::string short_sentence(const watershed::WatershedResult& result) {
    std::string text = watershed_sentence(result);
    const std::size_t open = text.find(" ("), close = text.find(')');
    if (open != std::string::npos && close != std::string::npos && close > open) text.erase(open, close + 1 - open);
    return text.empty() ? result.name : text;
}

void add_cautions(WatershedMap& map, const watershed::WatershedResult& result) {
    const auto& fields = result.fields;
    if (!fields.left_out.empty())
        map.cautions.push_back(count_of(fields.left_out.size(), "field has", "fields have") +
                               " no place here: no cell of the map gave a loss.");
    std::size_t gaps = 0, outlines = 0;
    for (const watershed::FieldResult& field : fields.fields) {
        gaps += field.on_grid.gap_share > 0.2 ? 1U : 0U;
        outlines += std::any_of(field.remarks.begin(), field.remarks.end(),
                                [](const source::Remark& remark) {
                                    return remark.code == "polygon-repaired" || remark.code == "sliver" ||
                                           remark.code == "partly-outside" || remark.code == "overlap";
                                })
                        ? 1U
                        : 0U;
    }
    if (gaps > 0)
        map.cautions.push_back(count_of(gaps, "field has", "fields have") +
                               " no figure on more than a fifth of the ground; the rest stands for it.");
    if (outlines > 0)
        map.cautions.push_back("The outlines of " + count_of(outlines, "field", "fields") +
                               " were repaired, overlap, are very thin or reach beyond the map.");
}

}  // namespace

WatershedMap map_of(const watershed::WatershedResult& result, const terrain::Grid<float>& height_m) {
    if (height_m.columns() != result.placement.columns || height_m.rows() != result.placement.rows)
        throw std::invalid_argument("The heights of a watershed's map lie on the grid of its ranking.");
    const double metres = result.cell_m / result.placement.cell_width;
    WatershedMap map;
    map.watershed = result.name;
    map.sentence = short_sentence(result);
    map.width_m = static_cast<double>(result.placement.columns) * result.cell_m;
    map.height_m = static_cast<double>(result.placement.rows) * result.cell_m;
    map.visits = result.visits;
    map.ranked_by = watershed::words_of(result.rank_by);

    const std::int64_t longest = std::max(height_m.columns(), height_m.rows());
    const terrain::Grid<float> thin = terrain::thinned(height_m, (longest + most_columns - 1) / most_columns);
    map.light = terrain::hillshade(thin, {315, 45, 6});
    for (const auto& line : terrain::stream_lines(thin, 0.01 * map.width_m * map.height_m)) {
        map.streams.emplace_back();
        for (const terrain::CellPoint& point : line)
            map.streams.back().push_back({std::min(point.column * thin.shape().cell_m, map.width_m),
                                          std::max(map.height_m - point.row * thin.shape().cell_m, 0.0)});
    }

    std::size_t place = 0;
    for (const watershed::FieldResult* field : in_order(result)) {
        MapField drawn;
        drawn.rings = rings_of(*field, result.placement, metres);
        const auto& rank = field->ranks[static_cast<std::size_t>(result.rank_by)];
        drawn.rank = rank ? rank->place : place + 1;
        place = drawn.rank;
        drawn.name = field->name;
        if (field->on_grid.valued_ha > 0) drawn.loss = field->on_grid.mean;
        drawn.times_T = field->times_T;
        if (rank) {
            drawn.tie_group = rank->tie_group;
            drawn.chance_in_top = rank->chance_in_top;
        }
        map.fields.push_back(std::move(drawn));
    }

    add_sources(map, result);
    add_cautions(map, result);
    return map;
}

}  // namespace soilhold::report
