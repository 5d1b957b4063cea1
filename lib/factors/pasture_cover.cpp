#include "factors/pasture_cover.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "units/unit.h"

namespace soilhold::factors {

namespace {

using source::in_working;

constexpr std::array<double, 4> canopies_pct = {0, 25, 50, 75};
constexpr std::array<double, 3> heights_m = {0.5, 2, 4};
// Half a step beyond the last line.
constexpr double most_canopy_pct = 87.5, most_height_m = 5;

template <std::size_t N>
double nearest(const std::array<double, N>& lines, double value) {
    double best = lines[0];
    for (const double line : lines)
        if (std::abs(line - value) < std::abs(best - value)) best = line;
    return best;
}

/// The line of the table that stands for this ground.
PastureGround line_of(const PastureCover& cover) {
    if (!(cover.canopy_pct >= 0 && cover.canopy_pct <= most_canopy_pct))
        throw std::invalid_argument(
            fmt::format("the table of pasture has lines for a canopy of 0, 25, 50 and 75 %, taken up to 87.5 %; {:g} "
                        "% lies outside",
                        cover.canopy_pct));
    PastureGround ground;
    ground.cover = cover.ground;
    ground.ground_cover_pct = cover.ground_cover_pct;
    ground.canopy_pct = nearest(canopies_pct, cover.canopy_pct);
    if (cover.canopy_pct > 0 && !(cover.fall_height_m > 0 && cover.fall_height_m <= most_height_m))
        throw std::invalid_argument(fmt::format(
            "the table of pasture has canopies from which drops fall 0.5, 2 or 4 m, taken up to 5 m; {:g} m "
            "lies outside",
            cover.fall_height_m));
    if (ground.canopy_pct > 0) ground.fall_height_m = nearest(heights_m, cover.fall_height_m);
    return ground;
}

std::string words_of(const PastureGround& line) {
    const char* ground = line.cover == GroundCover::grass ? "grass" : "weeds";
    if (line.canopy_pct == 0) return fmt::format("no canopy, {}", ground);
    return fmt::format("canopy {:g} % at {:g} m, {}", line.canopy_pct, line.fall_height_m, ground);
}

/// Feet as people write them (1.5, 6.5, 13 ft) mean the line beside them.
bool means_line(const PastureCover& cover, const PastureGround& line) {
    if (cover.canopy_pct != line.canopy_pct) return false;
    return line.canopy_pct == 0 || std::abs(cover.fall_height_m - line.fall_height_m) <= 0.1 * line.fall_height_m;
}

void judge(const PastureCover& cover, const PastureGround& line, source::Remarks& remarks) {
    if (!means_line(cover, line))
        remarks.push_back({source::Weight::note, "pasture-line",
                           fmt::format("The table of pasture has no line for a canopy of {:g} % at {:.2g} m; the "
                                       "nearest is taken: {}.",
                                       cover.canopy_pct, cover.fall_height_m, words_of(line))});
    constexpr double settled_years = 7;
    if (cover.years_undisturbed && *cover.years_undisturbed < settled_years)
        remarks.push_back({source::Weight::caution, "pasture-broken",
                           fmt::format("The table of pasture holds for ground undisturbed for years; this was broken "
                                       "{:.2g} years ago and may lose up to 2.2 times as much (bare ground 1 in place "
                                       "of 0.45).",
                                       *cover.years_undisturbed)});
    else if (!cover.years_undisturbed)
        remarks.push_back({source::Weight::note, "pasture-undisturbed",
                           "This table is for ground undisturbed for years; freshly broken ground with the same cover "
                           "loses more."});
}

}  // namespace

spread::Uncertain cover_of_pasture(const PastureCover& cover) {
    const PastureGround line = line_of(cover);
    const auto [from, to] = pasture_cells(line, cover.print_of_1978);
    const double C = between_cells(from, to, line.ground_cover_pct);
    source::Steps steps;
    const auto given = [&](const char* symbol, std::string words, double value, const char* unit) {
        steps.push_back({symbol, std::move(words), "", "", value, unit, cover.origin});
    };
    if (cover.canopy_pct > 0) {
        given("canopy", "share of the ground under a canopy", cover.canopy_pct, "%");
        given("H", "how far drops fall from it", cover.fall_height_m, "m");
    }
    given("g", "share of the ground that is covered", line.ground_cover_pct, "%");
    // Where one cell was read and the other recalled, the value between them is as weak as the weaker.
    const source::Origin origin = to.origin.standing == source::Standing::from_memory ? to.origin : from.origin;
    const std::string row = "the row for " + words_of(line);
    if (from.ground_cover_pct == to.ground_cover_pct) {
        steps.push_back({"C", fmt::format("{}, {:g} % covered", row, from.ground_cover_pct), "", "", C, "1", origin});
    } else {
        const auto cell = [&](const char* symbol, const PastureCell& at) {
            steps.push_back(
                {symbol, fmt::format("{}, {:g} % covered", row, at.ground_cover_pct), "", "", at.C, "1", at.origin});
        };
        cell("C1", from);
        cell("C2", to);
        const std::string C1 = in_working(from.C), C2 = in_working(to.C), g1 = in_working(from.ground_cover_pct),
                          g2 = in_working(to.ground_cover_pct);
        steps.push_back({"C", "straight between the two (ours)", "C1 + (C2 - C1) (g - g1) / (g2 - g1)",
                         fmt::format("{0} + ({1} - {0}) x ({2} - {3}) / ({4} - {3})", C1, C2,
                                     in_working(line.ground_cover_pct), g1, g2),
                         C, "1", origin});
    }
    spread::Uncertain result = spread::with_spread({C, std::nullopt, origin}, "cover-pasture", std::move(steps));
    judge(cover, line, result.remarks);
    return result;
}

}  // namespace soilhold::factors
