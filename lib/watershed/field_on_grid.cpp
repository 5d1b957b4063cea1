#include "watershed/field_on_grid.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace soilhold::watershed {

namespace {

/// A cell's part of a field.
struct Piece {
    double loss = 0;
    double share = 0;
    std::int64_t row = 0, column = 0;
};

/// The tenth of the area that loses most; its last cell is cut so that it is a tenth and not a hair more.
void find_worst_tenth(FieldOnGrid& to, std::vector<Piece>& pieces, double valued) {
    std::sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) {
        return a.loss != b.loss ? a.loss > b.loss : a.row != b.row ? a.row < b.row : a.column < b.column;
    });
    const double wanted = valued / 10;
    double taken = 0, tons = 0, x = 0, y = 0;
    for (const Piece& piece : pieces) {
        const double share = std::min(piece.share, wanted - taken);
        if (!(share > 0)) break;
        taken += share;
        tons += share * piece.loss;
        x += share * (static_cast<double>(piece.column) + 0.5);
        y += share * (static_cast<double>(piece.row) + 0.5);
    }
    to.worst_tenth_mean = tons / taken;
    to.worst_tenth_share = to.mean > 0 ? tons / (to.mean * valued) : 0;
    to.worst_tenth = {x / taken, y / taken};
}

}  // namespace

FieldOnGrid field_on_grid(const terrain::Grid<float>& loss, std::span<const raster::Share> shares,
                          std::optional<double> tolerance) {
    FieldOnGrid result;
    const double cell_ha = loss.shape().cell_m * loss.shape().cell_m / 10000;
    std::vector<Piece> pieces;
    double area = 0, valued = 0, tons = 0, above = 0, twice = 0;
    for (const raster::Share& run : shares)
        for (std::int64_t column = run.column; column < run.column + run.cells; ++column) {
            area += run.share;
            const double value = loss(run.row, column);
            if (std::isnan(value)) continue;
            valued += run.share;
            tons += run.share * value;
            if (tolerance && value > *tolerance) above += run.share;
            if (tolerance && value > 2 * *tolerance) twice += run.share;
            pieces.push_back({value, run.share, run.row, column});
        }
    result.area_ha = area * cell_ha;
    result.valued_ha = valued * cell_ha;
    if (!(valued > 0)) return result;
    result.gap_share = 1 - valued / area;
    result.mean = tons / valued;
    result.total_t = result.mean * result.area_ha;
    result.share_above_T = above / valued;
    result.share_above_2T = twice / valued;
    find_worst_tenth(result, pieces, valued);
    return result;
}

std::optional<double> mean_over(const terrain::Grid<float>& values, std::span<const raster::Share> shares) {
    double area = 0, sum = 0;
    for (const raster::Share& run : shares)
        for (std::int64_t column = run.column; column < run.column + run.cells; ++column) {
            const double value = values(run.row, column);
            if (std::isnan(value)) continue;
            area += run.share;
            sum += run.share * value;
        }
    return area > 0 ? std::optional(sum / area) : std::nullopt;
}

std::string ninth_of(raster::Point point, const std::vector<raster::Part>& parts) {
    double west = INFINITY, east = -INFINITY, south = INFINITY, north = -INFINITY;
    for (const raster::Part& part : parts)
        for (const raster::Point& corner : part.outer) {
            west = std::min(west, corner.x), east = std::max(east, corner.x);
            south = std::min(south, corner.y), north = std::max(north, corner.y);
        }
    const auto third = [](double value, double low, double high) {
        return !(high > low) ? 1 : value < low + (high - low) / 3 ? 0 : value > high - (high - low) / 3 ? 2 : 1;
    };
    static constexpr std::array names{"south-west", "south",      "south-east", "west",      "middle",
                                      "east",       "north-west", "north",      "north-east"};
    return names.at(static_cast<std::size_t>(3 * third(point.y, south, north) + third(point.x, west, east)));
}

}  // namespace soilhold::watershed
