#include "input/watershed_keys.h"

#include <array>

namespace soilhold::input {

namespace {

constexpr auto table = std::to_array<KnownKey>({
    {"watershed", "watershed"},
    {"watershed", "elevation"},
    {"watershed", "rain"},
    {"watershed", "soils"},
    {"watershed", "fields"},
    {"watershed", "cover"},
    {"watershed", "rotations"},
    {"watershed", "weather"},
    {"watershed", "practice"},
    {"watershed", "soil tests"},
    {"watershed", "offered"},
    {"watershed", "barriers"},
    {"watershed", "channel"},
    {"watershed", "longest"},
    {"watershed", "visits"},
    {"watershed", "rank by"},
    {"watershed", "delivery"},

    {"elevation", "file"},
    {"elevation", "band"},
    {"elevation", "cell"},
    {"elevation", "heights"},
    {"elevation", "cells"},
    {"elevation", "crs"},
    {"elevation", "project"},
    {"elevation", "nodata"},
    {"elevation", "pits"},
    {"elevation", "longest cut"},
    {"elevation", "deepest cut"},
    {"elevation", "from"},

    {"rain of a watershed", "erosivity"},
    {"rain of a watershed", "raster"},
    {"rain of a watershed", "unit"},
    {"rain of a watershed", "crs"},
    {"rain of a watershed", "from"},

    {"soils", "file"},
    {"soils", "layer"},
    {"soils", "key"},
    {"soils", "crs"},
    {"soils", "table"},
    {"soils", "unit"},
    {"soils", "components"},
    {"soils", "erodibility"},
    {"soils", "tolerance"},
    {"soils", "clay"},
    {"soils", "organic matter"},
    {"soils", "texture"},
    {"soils", "from"},

    {"fields of a watershed", "file"},
    {"fields of a watershed", "layer"},
    {"fields of a watershed", "name"},
    {"fields of a watershed", "cover"},
    {"fields of a watershed", "rotation"},
    {"fields of a watershed", "practice"},
    {"fields of a watershed", "tillage"},
    {"fields of a watershed", "tolerance"},
    {"fields of a watershed", "tolerance unit"},
    {"fields of a watershed", "soil tests"},
    {"fields of a watershed", "from"},

    {"cover of a watershed", "factor"},
    {"cover of a watershed", "raster"},
    {"cover of a watershed", "rasters"},
    {"cover of a watershed", "classes"},
    {"cover of a watershed", "credits"},
    {"cover of a watershed", "crs"},
    {"cover of a watershed", "from"},

    {"soil tests", "field"},
    {"soil tests", "file"},
    {"soil tests", "soil"},

    {"rotation of a watershed", "name"},
    {"rotation of a watershed", "rotation"},
    {"rotation of a watershed", "residue reading"},
    {"rotation of a watershed", "from"},

    {"practice of a watershed", "factor"},
    {"practice of a watershed", "raster"},
    {"practice of a watershed", "crs"},
    {"practice of a watershed", "from"},

    {"practice on offer", "practice"},
    {"practice on offer", "cover factor"},
    {"practice on offer", "times"},
    {"practice on offer", "rotation"},
    {"practice on offer", "practice factor"},
    {"practice on offer", "from"},
});

}  // namespace

std::span<const KnownKey> watershed_keys() { return table; }

}  // namespace soilhold::input
