#include "watershed/map_strips.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "terrain/horn_slope.h"

namespace soilhold::watershed {

namespace {

using terrain::Grid;
using terrain::HeldRows;
using terrain::Shape;
using terrain::Strip;

/// Of a row, in its own order, so that the sums of a strip are the same whoever worked it.
struct RowSums {
    double gradient = 0, slope_factor = 0, loss = 0;
    std::int64_t channels = 0;
    double most_drained = 0;
};

/// What a strip is carried in.
struct Held {
    StripGround ground;
    std::array<Grid<float>, 4> factors;
    Grid<float> gradient, filled, area, slope_length, slope_factor, loss;
    Grid<std::uint8_t> directions, channels;
    std::vector<RowSums> sums;
};

struct Tallies {
    Tally gradient, slope_factor, loss;
};

/// A row with a cell without a height at each end, for horn_row.
class PaddedRow {
  public:
    explicit PaddedRow(std::int64_t columns) : values_(static_cast<std::size_t>(columns + 2), terrain::no_value) {}
    void set(const HeldRows<float>& rows, std::int64_t row) {
        if (rows.holds(row))
            std::copy_n(rows.row(row), rows.columns, values_.begin() + 1);
        else
            std::ranges::fill(values_, terrain::no_value);
    }
    const float* cells() const { return values_.data() + 1; }

  private:
    std::vector<float> values_;
};

class Finishing {
  public:
    Finishing(const Shape& shape, const StripFactors* factors, const terrain::SlopeLengthRules& rules,
              const MapTakers& takers)
        : shape_(shape), factors_(factors), rules_(rules), takers_(takers) {
        terrain::check_rules(rules);
        channel_cells_ = rules.channel_from_m2 / (shape.cell_m * shape.cell_m);
    }

    void bring(const Strip& strip, Held& held) const {
        if (!factors_) return;
        for (std::size_t i = 0; i < factors_->size(); ++i) {
            if (!(*factors_)[i].read) continue;
            make_room(held.factors[i], shape_, strip.rows);
            (*factors_)[i].read(strip.row, held.factors[i]);
        }
    }

    void work(const Strip& strip, Held& held) {
        make_room(held.slope_factor, shape_, strip.rows);
        if (factors_) make_room(held.loss, shape_, strip.rows);
        if (takers_.gradient) make_room(held.gradient, shape_, strip.rows);
        if (takers_.filled) make_room(held.filled, shape_, strip.rows);
        if (takers_.area) make_room(held.area, shape_, strip.rows);
        if (takers_.slope_length) make_room(held.slope_length, shape_, strip.rows);
        if (takers_.directions) make_room(held.directions, shape_, strip.rows);
        if (takers_.channels) make_room(held.channels, shape_, strip.rows);
        held.sums.assign(static_cast<std::size_t>(strip.rows), {});
        constexpr std::int64_t band = 32;
        terrain::in_parallel_here((strip.rows + band - 1) / band, [&](std::int64_t number) {
            work_rows(strip, number * band, std::min(strip.rows, (number + 1) * band), held);
        });
    }

    void take(const Strip& strip, Held& held) {
        for (const RowSums& row : held.sums) {
            sums_.gradient += row.gradient;
            sums_.slope_factor += row.slope_factor;
            sums_.loss += row.loss;
            sums_.channels += row.channels;
            sums_.most_drained = std::max(sums_.most_drained, row.most_drained);
        }
        if (takers_.gradient) takers_.gradient(strip.row, held.gradient);
        if (takers_.filled) takers_.filled(strip.row, held.filled);
        if (takers_.directions) takers_.directions(strip.row, held.directions);
        if (takers_.channels) takers_.channels(strip.row, held.channels);
        if (takers_.area) takers_.area(strip.row, held.area);
        if (takers_.slope_length) takers_.slope_length(strip.row, held.slope_length);
        if (takers_.slope_factor) takers_.slope_factor(strip.row, held.slope_factor);
        if (takers_.loss) takers_.loss(strip.row, held.loss);
    }

    MapFindings findings() {
        Tallies all;
        tallies_.combine_each([&](const Tallies& one) {
            all.gradient.join(one.gradient);
            all.slope_factor.join(one.slope_factor);
            all.loss.join(one.loss);
        });
        return {all.gradient.spread(sums_.gradient), all.slope_factor.spread(sums_.slope_factor),
                all.loss.spread(sums_.loss), sums_.channels, sums_.most_drained};
    }

  private:
    void work_rows(const Strip& strip, std::int64_t begin, std::int64_t end, Held& held) {
        Tallies& tallies = tallies_.local();
        const StripGround& ground = held.ground;
        const std::int64_t columns = shape_.columns;
        PaddedRow north(columns), here(columns), south(columns);
        std::vector<float> slope(static_cast<std::size_t>(columns)), contour(slope.size());
        std::vector<double> slopes(ground.channels ? slope.size() : 0);
        here.set(ground.elevation, strip.row + begin - 1);
        south.set(ground.elevation, strip.row + begin);
        for (std::int64_t r = begin; r < end; ++r) {
            const std::int64_t row = strip.row + r;
            std::swap(north, here);
            std::swap(here, south);
            south.set(ground.elevation, row + 1);
            RowSums& sums = held.sums[static_cast<std::size_t>(r)];
            const double* drained = ground.drained.row(row);
            if (ground.channels) drained = without_channels(drained, ground.channels.row(row), slopes.data());
            float* gradient = takers_.gradient ? &held.gradient(r, 0) : slope.data();
            terrain::horn_row(north.cells(), here.cells(), south.cells(), columns, shape_.cell_m, gradient,
                              contour.data());
            const float* crossed = contour.data();
            if (ground.contour)
                crossed = ground.contour.row(row);
            else if (ground.ways)
                terrain::cross_ways(ground.ways.row(row), columns, contour.data());
            float* LS = &held.slope_factor(r, 0);
            terrain::slope_factor_row(gradient, crossed, drained, columns, shape_.cell_m, rules_, LS);
            sums.gradient = tallies.gradient.add(gradient, columns);
            sums.slope_factor = tallies.slope_factor.add(LS, columns);
            count_channels(drained, r, held, sums);
            if (factors_) {
                float* loss = &held.loss(r, 0);
                multiply(LS, r, held, loss);
                sums.loss = tallies.loss.add(loss, columns);
            }
            hand_on(ground, row, here.cells(), crossed, LS, r, held);
        }
    }

    /// What drains through slopes; infinite in channels, so that they get no slope factor.
    const double* without_channels(const double* drained, const std::uint8_t* channels, double* slopes) const {
        for (std::int64_t c = 0; c < shape_.columns; ++c)
            slopes[c] = channels[c] != 0 ? std::numeric_limits<double>::infinity() : drained[c];
        return slopes;
    }

    void count_channels(const double* drained, std::int64_t r, Held& held, RowSums& sums) const {
        std::int64_t channels = 0;
        double most = 0;
        for (std::int64_t c = 0; c < shape_.columns; ++c) {
            channels += drained[c] >= channel_cells_ ? 1 : 0;
            most = drained[c] > most ? drained[c] : most;
        }
        sums.channels = channels;
        sums.most_drained = most;
        if (takers_.channels)
            std::transform(drained, drained + shape_.columns, &held.channels(r, 0),
                           [this](double cells) { return static_cast<std::uint8_t>(cells >= channel_cells_); });
    }

    void multiply(const float* LS, std::int64_t r, const Held& held, float* loss) const {
        std::copy_n(LS, shape_.columns, loss);
        for (std::size_t i = 0; i < factors_->size(); ++i) {
            const StripFactor& factor = (*factors_)[i];
            terrain::multiply_row(loss, shape_.columns, factor.read ? &held.factors[i](r, 0) : nullptr,
                                  static_cast<double>(factor.value));
        }
    }

    /// Grids that are asked for, but not worked with.
    void hand_on(const StripGround& ground, std::int64_t row, const float* height, const float* contour,
                 const float* LS, std::int64_t r, Held& held) const {
        const std::int64_t columns = shape_.columns;
        if (takers_.filled) std::copy_n(ground.filled.row(row), columns, &held.filled(r, 0));
        if (takers_.directions)
            std::transform(ground.ways.row(row), ground.ways.row(row) + columns, &held.directions(r, 0),
                           [](terrain::Direction way) { return static_cast<std::uint8_t>(way); });
        if (takers_.area && ground.area) {
            std::copy_n(ground.area.row(row), columns, &held.area(r, 0));
        } else if (takers_.area) {
            const double cell_m2 = shape_.cell_m * shape_.cell_m;
            const double* cells = ground.drained.row(row);
            float* to = &held.area(r, 0);
            for (std::int64_t c = 0; c < columns; ++c)
                to[c] = std::isfinite(height[c]) ? static_cast<float>(cells[c] * cell_m2) : terrain::no_value;
        }
        if (!takers_.slope_length) return;
        // (A + D^2)/(D x) at the lower side of each cell, held to the longest slope; never shorter than the cell.
        const double* cells = ground.drained.row(row);
        float* to = &held.slope_length(r, 0);
        for (std::int64_t c = 0; c < columns; ++c) {
            const double own_m = shape_.cell_m / static_cast<double>(contour[c]);
            to[c] = std::isnan(LS[c])
                        ? terrain::no_value
                        : static_cast<float>(std::max(std::min(cells[c] * own_m, rules_.longest_slope_m), own_m));
        }
    }

    const Shape& shape_;
    const StripFactors* factors_;
    const terrain::SlopeLengthRules& rules_;
    const MapTakers& takers_;
    double channel_cells_ = 0;
    terrain::PerThread<Tallies> tallies_;
    RowSums sums_;
};

}  // namespace

MapFindings finish_map(const Shape& shape, const GroundSource& ground, const StripFactors* factors,
                       const terrain::SlopeLengthRules& rules, const MapTakers& takers, int threads,
                       const std::function<void(double)>& progress, std::size_t most_held) {
    Finishing finishing(shape, factors, rules, takers);
    std::array<Held, terrain::strips_at_a_time> held;
    terrain::along_strips(
        shape, threads, held,
        [&](const Strip& strip, Held& to) {
            ground.bring(strip, to.ground);
            finishing.bring(strip, to);
        },
        [&](const Strip& strip, Held& to) {
            if (ground.work) ground.work(strip, to.ground);
            finishing.work(strip, to);
        },
        [&](const Strip& strip, Held& to) {
            finishing.take(strip, to);
            if (progress) progress(static_cast<double>(strip.row + strip.rows) / static_cast<double>(shape.rows));
        },
        most_held);
    return finishing.findings();
}

}  // namespace soilhold::watershed
