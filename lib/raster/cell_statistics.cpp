#include "raster/cell_statistics.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace soilhold::raster {

namespace {

constexpr std::size_t part = 1024;
constexpr std::size_t lanes = 64;  // sums side by side

CellStatistics of_part(std::span<const float> cells) {
    std::array<double, lanes> sums{};
    std::array<float, lanes> least, most;
    std::array<std::int32_t, lanes> there{};
    least.fill(std::numeric_limits<float>::infinity());
    most.fill(-std::numeric_limits<float>::infinity());
    const auto look = [&](const float* at, std::size_t count) {
        for (std::size_t j = 0; j < count; ++j) {
            const float value = at[j];
            there[j] += value == value ? 1 : 0;
            least[j] = value < least[j] ? value : least[j];
            most[j] = value > most[j] ? value : most[j];
        }
        for (std::size_t j = 0; j < count; ++j) sums[j] += static_cast<double>(at[j] == at[j] ? at[j] : 0.0F);
    };
    std::size_t i = 0;
    for (; i + lanes <= cells.size(); i += lanes) look(&cells[i], lanes);
    if (i < cells.size()) look(&cells[i], cells.size() - i);
    CellStatistics found;
    for (std::size_t j = 0; j < lanes; ++j) {
        found.count += there[j];
        found.mean += sums[j];
        found.least = std::min(found.least, static_cast<double>(least[j]));
        found.most = std::max(found.most, static_cast<double>(most[j]));
    }
    if (found.count == 0) return found;
    found.mean /= found.count;
    std::array<double, lanes> squares{};
    const auto square = [&](const float* at, std::size_t count) {
        for (std::size_t j = 0; j < count; ++j) {
            const double off = at[j] == at[j] ? static_cast<double>(at[j]) - found.mean : 0.0;
            squares[j] += off * off;
        }
    };
    for (i = 0; i + lanes <= cells.size(); i += lanes) square(&cells[i], lanes);
    if (i < cells.size()) square(&cells[i], cells.size() - i);
    for (const double sum : squares) found.squares += sum;
    return found;
}

}  // namespace

void CellStatistics::add(std::span<const float> cells) {
    for (std::size_t at = 0; at < cells.size(); at += part)
        join(of_part(cells.subspan(at, std::min(part, cells.size() - at))));
}

void CellStatistics::add(std::span<const std::uint8_t> cells, std::optional<int> none) {
    std::array<std::int64_t, 256> counts{};
    for (const std::uint8_t cell : cells) ++counts[cell];
    if (none) counts[static_cast<std::size_t>(*none)] = 0;
    for (std::size_t value = 0; value < counts.size(); ++value) {
        if (counts[value] == 0) continue;
        const auto number = static_cast<double>(value);
        join({static_cast<double>(counts[value]), number, 0, number, number});
    }
}

void CellStatistics::join(const CellStatistics& other) {
    if (other.count == 0) return;
    const double all = count + other.count, apart = other.mean - mean;
    squares += other.squares + apart * apart * (count * other.count / all);
    mean += apart * (other.count / all);
    count = all;
    least = std::min(least, other.least);
    most = std::max(most, other.most);
}

double CellStatistics::deviation() const { return count > 0 ? std::sqrt(squares / count) : 0; }

}  // namespace soilhold::raster
