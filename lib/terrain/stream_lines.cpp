#include "terrain/stream_lines.h"

#include <algorithm>
#include <stdexcept>

#include "terrain/accumulation.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"

namespace soilhold::terrain {

std::vector<std::vector<CellPoint>> stream_lines(const Grid<float>& ground, double from_m2) {
    if (!(from_m2 > 0)) throw std::invalid_argument("a stream begins where more than no ground drains through");
    Grid<float> filled = ground;
    fill_depressions(filled);
    const Grid<Direction> directions = flow_directions(filled);
    const Grid<double> drained = accumulate(directions);
    const double from_cells = from_m2 / (ground.shape().cell_m * ground.shape().cell_m);
    const auto is_stream = [&](std::int64_t r, std::int64_t c) {
        return directions(r, c) != Direction::none && drained(r, c) >= from_cells;
    };

    // Each stream cell knows which of those that run into it drains most: that one's line goes on through it.
    struct Head {
        std::int64_t row, column;
        double drained;
    };
    std::vector<Head> heads;
    const auto main_feeder = [&](std::int64_t r, std::int64_t c) {
        Head best{-1, -1, 0};
        for (std::size_t way = 0; way < row_steps.size(); ++way) {
            const std::int64_t y = r - row_steps[way], x = c - column_steps[way];
            if (ground.shape().holds(y, x) && static_cast<std::size_t>(directions(y, x)) == way + 1 &&
                is_stream(y, x) && drained(y, x) > best.drained)
                best = {y, x, drained(y, x)};
        }
        return best;
    };
    for (std::int64_t r = 0; r < ground.rows(); ++r)
        for (std::int64_t c = 0; c < ground.columns(); ++c)
            if (is_stream(r, c) && main_feeder(r, c).row < 0) heads.push_back({r, c, drained(r, c)});

    std::vector<std::vector<CellPoint>> lines;
    for (const Head& head : heads) {
        std::vector<CellPoint> line;
        std::int64_t r = head.row, c = head.column;
        for (;;) {
            line.push_back({static_cast<double>(c) + 0.5, static_cast<double>(r) + 0.5});
            const Direction way = directions(r, c);
            if (!leads_on(way)) break;
            const std::int64_t y = r + row_step(way), x = c + column_step(way);
            if (!is_stream(y, x)) break;
            const Head feeder = main_feeder(y, x);
            if (feeder.row != r || feeder.column != c) {  // joins a larger one
                line.push_back({static_cast<double>(x) + 0.5, static_cast<double>(y) + 0.5});
                break;
            }
            r = y;
            c = x;
        }
        if (line.size() > 1) lines.push_back(std::move(line));
    }
    std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.size() > b.size(); });
    return lines;
}

}  // namespace soilhold::terrain
