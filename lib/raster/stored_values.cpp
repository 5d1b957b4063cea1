#include "raster/stored_values.h"

#include <algorithm>
#include <cmath>

namespace soilhold::raster {

namespace {

constexpr float no_value = std::numeric_limits<float>::quiet_NaN();
constexpr std::int64_t lanes = 64;  // least and largest side by side, so that compilers work several at a time

/// Floats between these are the nodata value; none are where the two are NaN.
struct Between {
    float low = no_value, high = no_value;
};

Between nodata_floats(const std::optional<double>& nodata) {
    if (!nodata || std::isnan(*nodata)) return {};
    const auto mark = static_cast<float>(*nodata);
    if (!std::isfinite(mark)) return {};
    Between floats{mark, mark};
    constexpr float far = std::numeric_limits<float>::infinity();
    // A mark without its last digits stands for some ten thousand floats about it; they are counted by halving.
    const auto reach = [&](float to) {
        float in = mark, out = to;
        while (true) {
            const float middle = in + (out - in) / 2;
            if (middle == in || middle == out) return in;
            (is_nodata(static_cast<double>(middle), *nodata) ? in : out) = middle;
        }
    };
    if (std::abs(*nodata) <= 1e30) return floats;
    const float most = std::numeric_limits<float>::max();
    floats.low = is_nodata(-static_cast<double>(most), *nodata) ? -far : reach(-most);
    floats.high = is_nodata(static_cast<double>(most), *nodata) ? far : reach(most);
    return floats;
}

template <bool as_stored>
void settle_part(float* cells, std::int64_t count, const Between& nodata, const Storing& storing) {
    for (std::int64_t i = 0; i < count; ++i) {
        const float stored = cells[i];
        float value = stored;
        if constexpr (!as_stored) {
            value = static_cast<float>(static_cast<double>(stored) * storing.scale + storing.offset);
            value = static_cast<float>(static_cast<double>(value) * storing.times);
        }
        // x - x is 0 for numbers, NaN for the rest; NaN spreads.
        const bool none = (stored >= nodata.low) & (stored <= nodata.high);
        cells[i] = (none ? no_value : value) + ((stored - stored) + (value - value));
    }
}

void look_at(const float* cells, std::int64_t count, ValuesSeen& seen) {
    std::int32_t none = 0;
    float least[lanes], most[lanes];
    std::fill_n(least, lanes, seen.least);
    std::fill_n(most, lanes, seen.most);
    for (std::int64_t i = 0; i < count; ++i) none += cells[i] == cells[i] ? 0 : 1;
    std::int64_t i = 0;
    for (; i + lanes <= count; i += lanes)
        for (std::int64_t j = 0; j < lanes; ++j) {
            least[j] = cells[i + j] < least[j] ? cells[i + j] : least[j];
            most[j] = cells[i + j] > most[j] ? cells[i + j] : most[j];
        }
    for (; i < count; ++i) {
        least[0] = cells[i] < least[0] ? cells[i] : least[0];
        most[0] = cells[i] > most[0] ? cells[i] : most[0];
    }
    seen.none += none;
    seen.least = *std::min_element(least, least + lanes);
    seen.most = *std::max_element(most, most + lanes);
}

}  // namespace

void ValuesSeen::join(const ValuesSeen& other) {
    none += other.none;
    least = std::min(least, other.least);
    most = std::max(most, other.most);
}

bool is_nodata(double value, double nodata) {
    if (std::isnan(value)) return true;
    if (std::isnan(nodata)) return false;
    if (value == nodata || static_cast<float>(value) == static_cast<float>(nodata)) return true;
    // No measured value is that large: a mark of the last digits a format could write.
    return std::abs(nodata) > 1e30 && std::abs(value - nodata) <= 1e-4 * std::abs(nodata);
}

void settle_values(float* cells, std::int64_t count, const std::uint8_t* shown, const Storing& storing,
                   ValuesSeen& seen) {
    const Between nodata = nodata_floats(storing.nodata);
    const bool as_stored = storing.scale == 1 && storing.offset == 0 && storing.times == 1;
    constexpr std::int64_t most = 1024;  // stays at hand from one pass to the next
    for (std::int64_t at = 0; at < count; at += most) {
        const std::int64_t part = std::min(most, count - at);
        (as_stored ? settle_part<true> : settle_part<false>)(cells + at, part, nodata, storing);
        for (std::int64_t i = at; shown && i < at + part; ++i)
            if (shown[i] == 0) cells[i] = no_value;
        look_at(cells + at, part, seen);
    }
}

void settle_values(const double* stored, std::int64_t count, const std::uint8_t* shown, const Storing& storing,
                   float* cells, ValuesSeen& seen) {
    for (std::int64_t i = 0; i < count; ++i) {
        auto value = static_cast<float>(stored[i] * storing.scale + storing.offset);
        value = static_cast<float>(static_cast<double>(value) * storing.times);
        const bool there = std::isfinite(stored[i]) && std::isfinite(value) && (!shown || shown[i] != 0) &&
                           !(storing.nodata && is_nodata(stored[i], *storing.nodata));
        cells[i] = there ? value : no_value;
        if (!there) {
            ++seen.none;
            continue;
        }
        seen.least = std::min(seen.least, value);
        seen.most = std::max(seen.most, value);
    }
}

}  // namespace soilhold::raster
