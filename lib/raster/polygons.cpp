#include "raster/polygons.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <optional>
#include <stdexcept>

#include "raster/features.h"
#include "raster/raster_error.h"

namespace soilhold::raster {

namespace {

/// Coordinates in a sentence of the geometry library, which writes all their digits, with two decimals.
std::string to_centimetres(const std::string& sentence) {
    std::string rounded;
    for (std::size_t at = 0; at < sentence.size();) {
        std::size_t end = sentence.find(' ', at);
        if (end == std::string::npos) end = sentence.size();
        const std::string word = sentence.substr(at, end - at);
        char* rest = nullptr;
        const double number = std::strtod(word.c_str(), &rest);
        const bool decimals = word.find('.') != std::string::npos && rest != word.c_str();
        rounded += (at > 0 ? " " : "") + (decimals ? fmt::format("{:.2f}{}", number, rest) : word);
        at = end + 1;
    }
    return rounded;
}

using source::Weight;

Ring points_of(OGRGeometryH line) {
    Ring ring(static_cast<std::size_t>(OGR_G_GetPointCount(line)));
    for (std::size_t i = 0; i < ring.size(); ++i)
        ring[i] = {OGR_G_GetX(line, static_cast<int>(i)), OGR_G_GetY(line, static_cast<int>(i))};
    return ring;
}

/// The areas of a geometry; lines and points that a repair leaves over have none.
void add_parts(OGRGeometryH geometry, std::vector<Part>& parts) {
    const OGRwkbGeometryType type = wkbFlatten(OGR_G_GetGeometryType(geometry));
    const int count = OGR_G_GetGeometryCount(geometry);
    if (type == wkbPolygon) {
        if (count == 0) return;
        Part part;
        part.outer = points_of(OGR_G_GetGeometryRef(geometry, 0));
        for (int i = 1; i < count; ++i) part.holes.push_back(points_of(OGR_G_GetGeometryRef(geometry, i)));
        if (ring_area(part.outer) > 0) parts.push_back(std::move(part));
    } else if (type == wkbMultiPolygon || type == wkbGeometryCollection) {
        for (int i = 0; i < count; ++i) add_parts(OGR_G_GetGeometryRef(geometry, i), parts);
    }
}

double outline_of(const std::vector<Part>& parts) {
    double length = 0;
    const auto add = [&](const Ring& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Point a = ring[i], b = ring[(i + 1) % ring.size()];
            length += std::hypot(b.x - a.x, b.y - a.y);
        }
    };
    for (const Part& part : parts) {
        add(part.outer);
        for (const Ring& hole : part.holes) add(hole);
    }
    return length;
}

std::map<std::string, Attribute> attributes_of(const OpenFeatures& open, OGRFeatureH feature) {
    std::map<std::string, Attribute> found;
    for (std::size_t i = 0; i < open.columns.size(); ++i) {
        const int column = static_cast<int>(i);
        if (OGR_F_IsFieldSetAndNotNull(feature, column) == 0) continue;
        const OGRFieldType type = OGR_Fld_GetType(OGR_F_GetFieldDefnRef(feature, column));
        if (type == OFTInteger || type == OFTInteger64)
            found[open.columns[i]] = static_cast<std::int64_t>(OGR_F_GetFieldAsInteger64(feature, column));
        else if (type == OFTReal)
            found[open.columns[i]] = OGR_F_GetFieldAsDouble(feature, column);
        else
            found[open.columns[i]] = text_or_empty(OGR_F_GetFieldAsString(feature, column));
    }
    return found;
}

std::optional<std::size_t> name_column(const OpenFeatures& open, const std::string& wanted) {
    if (!wanted.empty()) return static_cast<std::size_t>(column_of(open, wanted));
    for (std::size_t i = 0; i < open.columns.size(); ++i) {
        std::string lower = open.columns[i];
        for (char& letter : lower)
            if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
        if (lower == "name") return i;
    }
    return std::nullopt;
}

bool any_areas(OGRGeometryH geometry) {
    const OGRwkbGeometryType type = wkbFlatten(OGR_G_GetGeometryType(geometry));
    return type == wkbPolygon || type == wkbMultiPolygon || type == wkbGeometryCollection;
}

/// A polygon and the geometry it came from, for overlaps.
struct Taken {
    Geometry geometry;
    OGREnvelope bounds{};
};

class Reading {
  public:
    Reading(const OpenFeatures& open, const Placement& placement, const PolygonOptions& options)
        : open_(open), placement_(placement), options_(options), name_column_(name_column(open, options.name_column)) {
        unit_m_ = metres_per_unit(placement);
        if (!(unit_m_ > 0)) throw std::invalid_argument("areas need a grid in metres or feet");
    }

    void take(OGRFeatureH feature, Geometry geometry, const std::string& failed) {
        Polygon polygon;
        polygon.id = OGR_F_GetFID(feature);
        polygon.attributes = attributes_of(open_, feature);
        polygon.name = name_of(feature, polygon.id);
        const std::string why = why_not(geometry, failed, polygon);
        if (!why.empty()) {
            found.left_out.push_back({polygon.id, polygon.name, why, std::move(polygon.parts)});
            return;
        }
        Taken taken{geometry_of(polygon.parts), {}};
        OGR_G_GetEnvelope(taken.geometry.get(), &taken.bounds);
        taken_.push_back(std::move(taken));
        found.polygons.push_back(std::move(polygon));
    }

    void compare() {
        find_duplicates();
        find_overlaps();
    }

    Polygons found;

  private:
    std::string name_of(OGRFeatureH feature, std::int64_t id) const {
        if (name_column_ && OGR_F_IsFieldSetAndNotNull(feature, static_cast<int>(*name_column_)) != 0) {
            const std::string name = text_or_empty(OGR_F_GetFieldAsString(feature, static_cast<int>(*name_column_)));
            if (!name.empty()) return name;
        }
        return fmt::format("feature {}", id);
    }

    void say(Polygon& polygon, Weight weight, const char* code, const std::string& text) const {
        polygon.remarks.push_back({weight, code, text, open_.path});
    }

    /// Fills the polygon in; a sentence where it can't be used.
    std::string why_not(Geometry& geometry, const std::string& failed, Polygon& polygon) const {
        const Listening listening;
        if (!failed.empty())
            return fmt::format("It could not be brought into '{}' ({}).", crs_name(placement_), failed);
        if (!geometry || OGR_G_IsEmpty(geometry.get()) != 0) return "It has no outline.";
        if (!any_areas(geometry.get()))
            return fmt::format("It is a {}, not a polygon.", text_or_empty(OGR_G_GetGeometryName(geometry.get())));
        const bool valid = OGR_G_IsValid(geometry.get()) != 0;
        std::string crossing;
        if (!valid) {
            crossing = to_centimetres(listening.words());
            Geometry repaired(OGR_G_MakeValid(geometry.get()));
            if (!repaired) {
                add_parts(geometry.get(), polygon.parts);
                return fmt::format("Its outline crosses itself and could not be repaired ({}).", crossing);
            }
            geometry = std::move(repaired);
        }
        add_parts(geometry.get(), polygon.parts);
        const double square = unit_m_ * unit_m_, area = area_of(polygon.parts);
        polygon.area_m2 = area * square;
        if (!(area > 0) || !std::isfinite(area)) return "Its outline holds no area.";
        if (!valid)
            say(polygon, Weight::caution, "polygon-repaired",
                fmt::format(
                    "The outline of '{}' was not valid ({}); it was repaired and now holds {:.4g} ha. Look at it "
                    "on a map.",
                    polygon.name, crossing, polygon.area_m2 / 10000));
        double covered = 0;
        for (const Share& share : area_shares(polygon.parts, placement_))
            covered += share.share * static_cast<double>(share.cells);
        polygon.share_inside = std::min(1.0, covered * placement_.cell_width * placement_.cell_height / area);
        if (!(polygon.share_inside > 0)) return "It lies wholly outside the raster.";
        if (polygon.share_inside < 1 - 1e-6)
            say(polygon, Weight::caution, "partly-outside",
                fmt::format("Only {:.3g} % of '{}' lies on the raster; the rest is not worked.",
                            100 * polygon.share_inside, polygon.name));
        const double width_m = 2 * polygon.area_m2 / (outline_of(polygon.parts) * unit_m_);
        if (width_m < options_.sliver_m)
            say(polygon, Weight::caution, "sliver",
                fmt::format("'{}' is {:.2g} m wide on average, a sliver of {:.3g} m². Was it left over between two "
                            "outlines?",
                            polygon.name, width_m, polygon.area_m2));
        return "";
    }

    void find_duplicates() {
        std::map<std::string, std::vector<std::size_t>> by_name;
        for (std::size_t i = 0; i < found.polygons.size(); ++i) by_name[found.polygons[i].name].push_back(i);
        for (const auto& [name, places] : by_name) {
            if (places.size() < 2) continue;
            std::string ids;
            for (const std::size_t i : places)
                ids += fmt::format("{}{}", ids.empty() ? "" : ", ", found.polygons[i].id);
            for (const std::size_t i : places)
                say(found.polygons[i], Weight::caution, "duplicate-name",
                    fmt::format("{} polygons are called '{}' (features {}). They are worked one by one.", places.size(),
                                name, ids));
        }
    }

    /// From west to east, so that only polygons side by side are compared.
    void find_overlaps() {
        const Listening listening;
        std::vector<std::size_t> order(taken_.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        std::ranges::stable_sort(order, {}, [&](std::size_t i) { return taken_[i].bounds.MinX; });
        for (std::size_t a = 0; a < order.size(); ++a)
            for (std::size_t b = a + 1; b < order.size(); ++b) {
                const Taken &one = taken_[order[a]], &other = taken_[order[b]];
                if (other.bounds.MinX >= one.bounds.MaxX) break;
                if (other.bounds.MinY >= one.bounds.MaxY || other.bounds.MaxY <= one.bounds.MinY) continue;
                const Geometry common(OGR_G_Intersection(one.geometry.get(), other.geometry.get()));
                std::vector<Part> parts;
                if (common) add_parts(common.get(), parts);
                const double area_m2 = area_of(parts) * unit_m_ * unit_m_;
                if (area_m2 > 0.01)
                    found.overlaps.push_back({std::min(order[a], order[b]), std::max(order[a], order[b]), area_m2});
            }
        std::ranges::stable_sort(found.overlaps, [](const Overlap& a, const Overlap& b) {
            return a.one != b.one ? a.one < b.one : a.other < b.other;
        });
        for (const Overlap& overlap : found.overlaps) {
            const Polygon &one = found.polygons[overlap.one], &other = found.polygons[overlap.other];
            const double part = overlap.area_m2 / std::min(one.area_m2, other.area_m2);
            const std::string text = fmt::format(
                "'{}' and '{}' overlap by {:.3g} ha, {:.3g} % of the smaller; that ground "
                "counts in both.",
                one.name, other.name, overlap.area_m2 / 10000, 100 * part);
            const Weight weight = part < 0.01 ? Weight::note : Weight::caution;
            say(found.polygons[overlap.one], weight, "overlap", text);
            say(found.polygons[overlap.other], weight, "overlap", text);
        }
    }

    const OpenFeatures& open_;
    const Placement& placement_;
    const PolygonOptions& options_;
    std::optional<std::size_t> name_column_;
    double unit_m_ = 1;
    std::vector<Taken> taken_;
};

}  // namespace

Polygons read_polygons(const std::string& path, const Placement& placement, const PolygonOptions& options) {
    const OpenFeatures open = open_features(path, options.layer, placement);
    Reading reading(open, placement, options);
    for_each_feature(open, [&](OGRFeatureH feature, Geometry geometry, const std::string& failed) {
        reading.take(feature, std::move(geometry), failed);
    });
    if (reading.found.polygons.empty()) {
        const std::vector<LeftOut>& out = reading.found.left_out;
        throw RasterError(path, "no-polygons",
                          out.empty() ? std::string("it holds no features.")
                                      : fmt::format("none of its {} features can be used. The first, '{}': {}",
                                                    out.size(), out.front().name, out.front().why));
    }
    if (options.compare) reading.compare();
    return std::move(reading.found);
}

}  // namespace soilhold::raster
