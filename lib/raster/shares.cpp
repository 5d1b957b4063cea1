#include "raster/shares.h"

#include <algorithm>
#include <cmath>

namespace soilhold::raster {

namespace {

/// What a piece of an edge gives to its cell, and to the cells east of it.
struct Piece {
    std::int64_t row;
    std::int64_t column;
    double area;
    double cover;
};

/// Twice the signed area, counted from the ring's own first point so that large coordinates cost no digits.
double doubled_area(const Ring& ring) {
    double sum = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        const Point a{ring[i].x - ring[0].x, ring[i].y - ring[0].y};
        const Point b{ring[i + 1].x - ring[0].x, ring[i + 1].y - ring[0].y};
        sum += a.x * b.y - a.y * b.x;
    }
    return sum;
}

class EdgeWalk {
  public:
    explicit EdgeWalk(const Placement& placement) : placement_(placement) {}

    /// @param sign  +1: the ring adds its inside; -1: it is a hole
    void ring(const Ring& ring, int sign) {
        if (ring.size() < 3) return;
        // Counter-clockwise on the map, the west side runs south and adds all that lies east of it.
        const bool clockwise = doubled_area(ring) < 0;
        const double way = (clockwise ? -1.0 : 1.0) * sign;
        for (std::size_t i = 0; i < ring.size(); ++i)
            edge(placement_.to_cell(ring[i]), placement_.to_cell(ring[(i + 1) % ring.size()]), way);
    }

    std::vector<Share> shares() {
        std::stable_sort(pieces_.begin(), pieces_.end(), [](const Piece& a, const Piece& b) {
            return a.row != b.row ? a.row < b.row : a.column < b.column;
        });
        std::vector<Share> found;
        double cover = 0;
        for (std::size_t i = 0; i < pieces_.size();) {
            const std::int64_t row = pieces_[i].row, column = pieces_[i].column;
            double area = 0, own_cover = 0;
            for (; i < pieces_.size() && pieces_[i].row == row && pieces_[i].column == column; ++i) {
                area += pieces_[i].area;
                own_cover += pieces_[i].cover;
            }
            const double share = std::min(cover + area, 1.0);
            if (share > least) found.push_back({row, column, 1, share});
            cover += own_cover;
            if (std::abs(cover) < 1e-10) cover = 0;  // outside again: rounding must not leak into the next cells
            if (std::abs(cover - 1) < 1e-10) cover = 1;
            const bool row_goes_on = i < pieces_.size() && pieces_[i].row == row;
            const std::int64_t next = row_goes_on ? pieces_[i].column : placement_.columns;
            // Between two pieces no edge passes but along the row: the cells share one cover.
            if (next > column + 1 && cover > least)
                found.push_back({row, column + 1, next - column - 1, std::min(cover, 1.0)});
            if (!row_goes_on) cover = 0;
        }
        return found;
    }

  private:
    static constexpr double least = 1e-12;

    void edge(Point a, Point b, double way) {
        if (a.y == b.y) return;
        if (a.y > b.y) {
            std::swap(a, b);
            way = -way;
        }
        const auto rows = static_cast<double>(placement_.rows);
        const double top = std::max(a.y, 0.0), bottom = std::min(b.y, rows);
        if (!(top < bottom)) return;
        const double slope = (b.x - a.x) / (b.y - a.y);
        const auto x_at = [&](double y) { return y == a.y ? a.x : y == b.y ? b.x : a.x + (y - a.y) * slope; };
        double from = top;
        for (auto row = static_cast<std::int64_t>(std::floor(top)); from < bottom; ++row) {
            const double to = std::min(static_cast<double>(row) + 1, bottom);
            if (to > from) within_row(row, x_at(from), x_at(to), to - from, way);
            from = to;
        }
    }

    /// A piece that runs `height` southward in a row, from x = a to b: cut at the columns.
    void within_row(std::int64_t row, double a, double b, double height, double way) {
        if (a > b) std::swap(a, b);  // only the mean column of each cut counts, not the way it leans
        const auto columns = static_cast<double>(placement_.columns);
        if (a >= columns) return;
        if (b <= 0) return put(row, 0, height * way, height * way);
        if (b - a < 1e-15 * std::abs(b)) b = a;
        const double steep = b > a ? height / (b - a) : 0;
        if (a < 0) {  // west of the grid: counts for the whole row
            put(row, 0, -a * steep * way, -a * steep * way);
            a = 0;
        }
        if (b == a) {
            const auto column = static_cast<std::int64_t>(std::floor(a));
            return put(row, column, height * way * (static_cast<double>(column) + 1 - a), height * way);
        }
        double from = a;
        const double end = std::min(b, columns);
        for (auto column = static_cast<std::int64_t>(std::floor(a)); from < end; ++column) {
            const double right = static_cast<double>(column) + 1, to = std::min(right, end);
            const double dy = (to - from) * steep * way;
            if (to > from) put(row, column, dy * (right - (from + to) / 2), dy);
            from = to;
        }
    }

    void put(std::int64_t row, std::int64_t column, double area, double cover) {
        if (row < 0 || row >= placement_.rows || column < 0 || column >= placement_.columns) return;
        pieces_.push_back({row, column, area, cover});
    }

    const Placement& placement_;
    std::vector<Piece> pieces_;
};

}  // namespace

double ring_area(const Ring& ring) { return ring.size() < 3 ? 0 : std::abs(doubled_area(ring)) / 2; }

double area_of(const std::vector<Part>& parts) {
    double area = 0;
    for (const Part& part : parts) {
        area += ring_area(part.outer);
        for (const Ring& hole : part.holes) area -= ring_area(hole);
    }
    return area;
}

std::vector<Share> area_shares(const std::vector<Part>& parts, const Placement& placement) {
    EdgeWalk walk(placement);
    for (const Part& part : parts) {
        walk.ring(part.outer, +1);
        for (const Ring& hole : part.holes) walk.ring(hole, -1);
    }
    return walk.shares();
}

}  // namespace soilhold::raster
