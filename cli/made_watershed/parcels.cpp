#include "parcels.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "land.h"
#include "noise.h"

namespace soilhold::made {

namespace {

double to_centimetre(double value) { return std::round(100 * value) / 100; }

/// A lattice over the raster: corners pushed about, edges bent, but straight along the raster's border.
struct Lattice {
    std::uint64_t seed = 0;
    int columns = 0, rows = 0;

    raster::Point corner(int c, int r) const {
        const raster::Placement place = placement();
        const double wide = (place.east() - place.west) / columns, tall = (place.north - place.south()) / rows;
        const double push_x = c == 0 || c == columns ? 0 : 0.5 * (chance(seed, c, r, 1) - 0.5);
        const double push_y = r == 0 || r == rows ? 0 : 0.5 * (chance(seed, c, r, 2) - 0.5);
        return {to_centimetre(place.west + (c + push_x) * wide), to_centimetre(place.south() + (r + push_y) * tall)};
    }

    /// Points between two neighbouring corners, the first with it, the last without. The way back has the same points.
    std::vector<raster::Point> edge(int c0, int r0, int c1, int r1) const {
        const bool turned = c1 < c0 || r1 < r0;
        if (turned) {
            std::vector<raster::Point> back = edge(c1, r1, c0, r0);
            back.push_back(corner(c0, r0));
            std::reverse(back.begin(), back.end());
            back.pop_back();
            return back;
        }
        const bool upright = r1 > r0;
        const bool border = upright ? c0 == 0 || c0 == columns : r0 == 0 || r0 == rows;
        const raster::Point from = corner(c0, r0), to = corner(c1, r1);
        std::vector<raster::Point> points = {from};
        constexpr int pieces = 8;
        for (int i = 1; i < pieces; ++i) {
            const double t = static_cast<double>(i) / pieces;
            // A bow over the whole edge and a little wriggling.
            const double bow = 4 * t * (1 - t) * 60 * (chance(seed, c0, r0, upright ? 3 : 4) - 0.5);
            const double off = border ? 0 : bow + 10 * (chance(seed, c0 * 64 + i, r0, upright ? 5 : 6) - 0.5);
            points.push_back({to_centimetre(from.x + t * (to.x - from.x) + (upright ? off : 0)),
                              to_centimetre(from.y + t * (to.y - from.y) + (upright ? 0 : off))});
        }
        return points;
    }

    raster::Ring ring(int c, int r) const {
        raster::Ring ring;
        for (const auto& [c0, r0, c1, r1] : {std::array{c, r, c + 1, r}, std::array{c + 1, r, c + 1, r + 1},
                                             std::array{c + 1, r + 1, c, r + 1}, std::array{c, r + 1, c, r}}) {
            const std::vector<raster::Point> points = edge(c0, r0, c1, r1);
            ring.insert(ring.end(), points.begin(), points.end());
        }
        ring.push_back(ring.front());
        return ring;
    }
};

/// East and north of the raster's corner, in its middle.
raster::Point middle_of(const raster::Ring& ring) {
    raster::Point sum;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) sum = {sum.x + ring[i].x, sum.y + ring[i].y};
    const auto count = static_cast<double>(ring.size() - 1);
    return {sum.x / count - placement().west, sum.y / count - placement().south()};
}

/// Height over the stream beside it.
double above_stream(std::uint64_t seed, raster::Point middle) {
    return height(seed, middle.x, middle.y) - height(seed, middle.x, stream_north(seed, middle.x));
}

std::string name_of(std::size_t count) {
    static constexpr std::array first = {"Thornback",    "Amble",  "Quillow", "Dapple", "Cowslip",
                                         "Fernal",       "Marrow", "Tansy",   "Wicket", "Harrow",
                                         "Bramley Nook", "Oxlip",  "Sorrel"};
    static constexpr std::array second = {"Ley",   "Butts",  "Shot",    "Close", "Garth", "Furlong", "Dole",
                                          "Croft", "Hanger", "Pightle", "Slade", "Wong",  "Breach",  "Stubs"};
    // 13 and 14 have no common divisor: 182 names before one comes again.
    return std::string(first[count % first.size()]) + " " + second[count % second.size()];
}

/// Clods of two ploughed fields and of two that are not tilled any more were soaked: the files of weak and firm ones.
void soak_some(std::vector<Parcel>& parcels) {
    int ploughed = 0, rested = 0;
    for (Parcel& one : parcels) {
        if (one.rotation == "ploughed" && ploughed < 2) one.soak = "soak-" + std::to_string(++ploughed) + ".yaml";
        if (one.rotation == "no-till" && rested < 2) one.soak = "soak-" + std::to_string(2 + ++rested) + ".yaml";
    }
}

Parcel awkward(const std::string& name, raster::Ring ring, double hectares) {
    for (raster::Point& point : ring) point = {to_centimetre(point.x), to_centimetre(point.y)};
    ring.push_back(ring.front());
    Parcel parcel;
    parcel.ring = ring;
    parcel.field = true;
    parcel.name = name;
    parcel.tillage = "chisel";
    parcel.hectares = hectares > 0 ? hectares : raster::ring_area(ring) / 1e4;
    return parcel;
}

}  // namespace

std::vector<Parcel> parcels(std::uint64_t seed) {
    const Lattice lattice{seed + 20, 22, 17};
    static constexpr std::array<std::array<Crop, years>, 6> rotations = {{{Crop::maize, Crop::beans, Crop::maize},
                                                                          {Crop::beans, Crop::maize, Crop::beans},
                                                                          {Crop::maize, Crop::maize, Crop::maize},
                                                                          {Crop::maize, Crop::beans, Crop::grain},
                                                                          {Crop::grain, Crop::hay, Crop::hay},
                                                                          {Crop::hay, Crop::hay, Crop::maize}}};
    std::vector<Parcel> all;
    std::size_t named = 0;
    for (int r = 0; r < lattice.rows; ++r)
        for (int c = 0; c < lattice.columns; ++c) {
            Parcel parcel;
            parcel.ring = lattice.ring(c, r);
            parcel.hectares = raster::ring_area(parcel.ring) / 1e4;
            const double high = above_stream(seed, middle_of(parcel.ring));
            // Fields where the ground is neither the highest nor at the border of the map.
            const bool border = c == 0 || r == 0 || c == lattice.columns - 1 || r == lattice.rows - 1;
            parcel.field = !border && chance(seed, c, r, 10) < (high < 55 ? 0.72 : 0.4) && named < 182;
            if (parcel.field) {
                parcel.name = name_of(named++);
                const double how = chance(seed, c, r, 11);
                parcel.tillage = how < 0.4 ? "plough" : how < 0.75 ? "chisel" : "no-till";
                const double rows = chance(seed, c, r, 12);
                parcel.practice = rows < 0.7 ? 1.0 : rows < 0.9 ? 0.75 : 0.5;
                const auto turn = static_cast<std::size_t>(6 * chance(seed, c, r, 13));
                parcel.crops.assign(rotations[turn].begin(), rotations[turn].end());
                if (turn < 2)
                    parcel.rotation = parcel.tillage == "plough"   ? "ploughed"
                                      : parcel.tillage == "chisel" ? "chiselled"
                                                                   : "no-till";
            } else {
                parcel.crops.assign(years, high > 40 || chance(seed, c, r, 14) < 0.4 ? Crop::woods : Crop::pasture);
            }
            all.push_back(parcel);
        }
    soak_some(all);
    return all;
}

std::vector<Parcel> awkward_parcels(const std::vector<Parcel>& parcels) {
    const raster::Placement place = placement();
    std::vector<raster::Point> woods;
    for (const Parcel& parcel : parcels)
        if (!parcel.field) {
            const raster::Point middle = middle_of(parcel.ring);
            if (middle.x > 1500 && middle.x < 14500 && middle.y > 1500 && middle.y < 11000)
                woods.push_back({place.west + middle.x, place.south() + middle.y});
        }
    const auto under = std::find_if(parcels.begin(), parcels.end(), [](const Parcel& one) { return one.field; });
    std::vector<Parcel> made;
    const raster::Point a = woods.front(), b = woods.back();
    made.push_back(awkward("Hedgerow Strip",
                           {{a.x, a.y - 120}, {a.x + 0.8, a.y - 120}, {a.x + 0.8, a.y + 120}, {a.x, a.y + 120}}, 0));
    // Two wings, each a triangle 120 m long with a side of 160 m.
    made.push_back(awkward("Bowtie Piece",
                           {{b.x - 120, b.y - 80}, {b.x + 120, b.y + 80}, {b.x + 120, b.y - 80}, {b.x - 120, b.y + 80}},
                           2 * 0.5 * 120 * 160 / 1e4));
    const raster::Point middle{place.west + middle_of(under->ring).x, place.south() + middle_of(under->ring).y};
    made.push_back(awkward("Twice-told Acre",
                           {{middle.x - 100, middle.y - 60},
                            {middle.x + 100, middle.y - 60},
                            {middle.x + 100, middle.y + 60},
                            {middle.x - 100, middle.y + 60}},
                           0));
    const double east = place.east(), north = place.north - 6000;
    made.push_back(awkward(
        "Marchland",
        {{east - 300, north - 200}, {east + 300, north - 200}, {east + 300, north + 200}, {east - 300, north + 200}},
        0));
    return made;
}

std::vector<Soil> soils(std::uint64_t seed) {
    const Lattice lattice{seed + 40, 14, 11};
    std::vector<Soil> all;
    for (int r = 0; r < lattice.rows; ++r)
        for (int c = 0; c < lattice.columns; ++c) {
            Soil soil;
            soil.ring = lattice.ring(c, r);
            const double high = above_stream(seed, middle_of(soil.ring)) + 14 * (chance(seed, c, r, 30) - 0.5);
            soil.unit = high < 5 ? "Am1" : high < 26 ? "Th2" : high < 48 ? "Qu3" : high < 70 ? "Ox4" : "Ha5";
            all.push_back(soil);
        }
    return all;
}

}  // namespace soilhold::made
