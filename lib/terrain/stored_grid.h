/// Grids that don't fit in memory: their rows, and records of their tiles, kept in bytes that stand somewhere else.
///
/// Where they stand is not this room's to know: whoever has files gives a ByteStore (raster/scratch_file.h).
/// Memory: what is read at a time.
#pragma once

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <type_traits>
#include <utility>
#include <vector>

#include "terrain/grid.h"

namespace soilhold::terrain {

/// Bytes by their place, from 0 on. Several threads may call both at once, at places that have nothing in common. What
/// was never written is not read.
struct ByteStore {
    std::function<void(std::int64_t at, const void* bytes, std::size_t count)> write;
    std::function<void(std::int64_t at, void* bytes, std::size_t count)> read;
};

/// Fills `to` with the rows of a grid from `row` on.
template <class T>
using RowReader = std::function<void(std::int64_t row, Grid<T>& to)>;

/// The rows of a grid in a store, one after the other.
template <class T>
class StoredGrid {
    static_assert(std::is_trivially_copyable_v<T>);

  public:
    StoredGrid(const Shape& shape, ByteStore store) : shape_(shape), store_(std::move(store)) {}
    const Shape& shape() const { return shape_; }
    void write(std::int64_t row, const Grid<T>& rows) const {
        store_.write(place_of(row), rows.values().data(), rows.values().size_bytes());
    }
    void read(std::int64_t row, Grid<T>& to) const {
        store_.read(place_of(row), to.values().data(), to.values().size_bytes());
    }
    RowReader<T> reader() const {
        return [grid = *this](std::int64_t row, Grid<T>& to) { grid.read(row, to); };
    }

  private:
    std::int64_t place_of(std::int64_t row) const {
        return row * shape_.columns * static_cast<std::int64_t>(sizeof(T));
    }
    Shape shape_;
    ByteStore store_;
};

/// What is kept of each tile: a few lists of plain values. Tiles may be put and got by several threads at once.
class TileRecords {
  public:
    TileRecords(std::int64_t tiles, ByteStore store)
        : places_(static_cast<std::size_t>(tiles)), store_(std::move(store)) {}

    /// Keeps the lists of a tile. Lists as long as those that were put before take their place.
    template <class... T>
    void put(std::int64_t tile, const std::vector<T>&... lists) {
        static_assert((std::is_trivially_copyable_v<T> && ...));
        const std::array<std::int64_t, sizeof...(T)> counts{static_cast<std::int64_t>(lists.size())...};
        const std::int64_t size = static_cast<std::int64_t>(sizeof counts) + (bytes_of(lists) + ...);
        Place& place = places_[static_cast<std::size_t>(tile)];
        if (place.size != size) place = {end_.fetch_add(size), size};
        store_.write(place.at, counts.data(), sizeof counts);
        std::int64_t at = place.at + static_cast<std::int64_t>(sizeof counts);
        const auto keep = [&](const auto& list) {
            store_.write(at, list.data(), static_cast<std::size_t>(bytes_of(list)));
            at += bytes_of(list);
        };
        (keep(lists), ...);
    }
    /// Gives back the lists of a tile, in the same order.
    template <class... T>
    void get(std::int64_t tile, std::vector<T>&... lists) const {
        std::array<std::int64_t, sizeof...(T)> counts{};
        std::int64_t at = places_[static_cast<std::size_t>(tile)].at;
        store_.read(at, counts.data(), sizeof counts);
        at += static_cast<std::int64_t>(sizeof counts);
        std::size_t which = 0;
        const auto fetch = [&](auto& list) {
            list.resize(static_cast<std::size_t>(counts[which++]));
            store_.read(at, list.data(), static_cast<std::size_t>(bytes_of(list)));
            at += bytes_of(list);
        };
        (fetch(lists), ...);
    }

  private:
    struct Place {
        std::int64_t at = 0;
        std::int64_t size = 0;
    };
    template <class T>
    static std::int64_t bytes_of(const std::vector<T>& list) {
        return static_cast<std::int64_t>(list.size() * sizeof(T));
    }

    std::vector<Place> places_;
    std::atomic<std::int64_t> end_{0};
    ByteStore store_;
};

}  // namespace soilhold::terrain
