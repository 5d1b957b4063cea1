/// A small made watershed for the map's tests: a valley with fields on both sides, one of each awkward kind among them.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "report/watershed_map.h"
#include "terrain/hillshade.h"

namespace soilhold::report {

/// @param columns, rows  of fields, 420 m x 300 m each, with bent edges that neighbours share
inline WatershedMap made_map(int columns = 6, int rows = 5) {
    WatershedMap map;
    map.watershed = "Upper Amble, Amblethorn";
    map.sentence = "The top fifth of the fields carry 58 % of the tons.";
    map.width_m = 420.0 * columns + 200;
    map.height_m = 300.0 * rows + 200;
    const double cell = 20;
    terrain::Grid<float> heights(
        {static_cast<std::int64_t>(map.width_m / cell), static_cast<std::int64_t>(map.height_m / cell), cell});
    for (std::int64_t r = 0; r < heights.rows(); ++r)
        for (std::int64_t c = 0; c < heights.columns(); ++c) {
            const double x = static_cast<double>(c) * cell, y = static_cast<double>(r) * cell;
            heights(r, c) = static_cast<float>(0.05 * std::abs(y - map.height_m / 2 - 90 * std::sin(x / 500)) +
                                               12 * std::sin(x / 210) * std::cos(y / 260));
        }
    map.light = terrain::hillshade(heights, {315, 45, 3});
    const auto corner = [&](int c, int r) {
        return GroundPoint{100 + 420.0 * c + 60 * std::sin(2.1 * c + 1.3 * r),
                           100 + 300.0 * r + 45 * std::cos(1.7 * c + 2.9 * r)};
    };
    const char* first[] = {"Wether", "Lower", "Hasty", "Far", "Long", "Mill", "Thorn", "Crow", "Sallow", "Priory"};
    const char* second[] = {"Fold", "Reach", "Acre", "Piece"};
    int made = 0;
    for (int r = 0; r < rows; ++r)
        for (int c = 0; c < columns; ++c, ++made) {
            MapField field;
            field.rings = {{corner(c, r), corner(c + 1, r), corner(c + 1, r + 1), corner(c, r + 1)}};
            field.name = std::string(first[made % 10]) + " " + second[(made / 10 + made) % 4];
            field.times_T = 0.2 + 5.2 * std::pow((made * 7 % 30) / 29.0, 2.0);
            field.loss = 11.2 * *field.times_T;
            map.fields.push_back(field);
        }
    // A hole that holds a paddock of its own, a field of too few metres for its number, one without a figure.
    const GroundPoint in{310, 250};
    const std::vector<GroundPoint> hole = {in, {in.x + 70, in.y}, {in.x + 70, in.y + 40}, {in.x, in.y + 40}};
    map.fields.front().rings.push_back(hole);
    MapField paddock;
    paddock.rings = {hole};
    paddock.name = "Pinfold";
    paddock.times_T = 1.4;
    paddock.loss = 15.0;
    map.fields.push_back(paddock);
    MapField sliver;
    sliver.rings = {{{30, 120}, {38, 120}, {44, 700}, {36, 700}}};
    sliver.name = "Headland by the Old Turnpike and the Sheepwash";
    sliver.times_T = 3.1;
    sliver.loss = 34.0;
    map.fields.push_back(sliver);
    map.fields[8].times_T.reset();
    map.fields[8].loss.reset();

    std::vector<MapField*> order;
    for (MapField& field : map.fields) order.push_back(&field);
    std::stable_sort(order.begin(), order.end(),
                     [](const auto* a, const auto* b) { return a->loss.value_or(-1) > b->loss.value_or(-1); });
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i]->rank = i + 1;
        order[i]->tie_group = i == 0 ? 1 : i < 4 ? 2 : i < 8 ? i : 9;
        order[i]->chance_in_top = 1.0 / (1.0 + std::exp((static_cast<double>(i) - 9.5) / 2));
    }
    std::vector<GroundPoint> stream;
    for (double x = 0; x <= map.width_m; x += 40) stream.push_back({x, map.height_m / 2 - 90 * std::sin(x / 500)});
    map.streams = {stream};
    map.visits = 10;
    map.cautions = {"One field has no figure: its cover is not known."};
    map.sources = "heights: made for this example; R: made; K and T: made soil table; C: made, three years.";
    return map;
}

}  // namespace soilhold::report
