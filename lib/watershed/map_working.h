/// What the working of a map in memory (slope_map.h) and of one from the disk (map_from_disk.h) have in common. For
/// the sources of watershed/ only.
#pragma once

#include <functional>
#include <string>

#include "raster/onto.h"
#include "terrain/flow_shares.h"
#include "watershed/slope_map.h"

namespace soilhold::watershed {

/// Says how far the work is; the shares are about those of time.
class Steps {
  public:
    explicit Steps(const std::function<bool(double)>& progress) : progress_(progress) {}
    /// @throws Stopped where nobody wants the rest
    void reached(double share) const {
        if (progress_ && !progress_(share)) throw Stopped{};
    }
    /// The same for a part of the work, which says how far it is of itself.
    std::function<void(double)> within(double from, double to) const {
        return [this, from, to](double share) { reached(from + (to - from) * share); };
    }

  private:
    const std::function<bool(double)>& progress_;
};

/// How barriers are drawn: every cell that is touched, and of areas their edges.
raster::BurnOptions barrier_burn();

/// 1 for a channel: where so much ground drains, whatever stands in its way, since a road or a field's edge ends no
/// stream. @param channel_cells  cells that drain through it
terrain::Grid<std::uint8_t> channels_of(const terrain::Grid<double>& drained, double channel_cells);

/// Who gets a cell's water.
terrain::ShareRule rule_of(Routing routing);

/// What a careful colleague would ask of such a map. The limits are our own.
void add_cautions(const std::string& path, const SlopeMapOptions& options, SlopeMapResult& result);

}  // namespace soilhold::watershed
