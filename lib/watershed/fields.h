/// The fields of a watershed with what each loses, what could be avoided and what reaches a channel, ranked.
///
/// A field's tons are summed by exact area with its own C and P (raster/shares.h). Its doubts for the ranking: R is
/// shared by all and cancels; K moves with all fields of its main soil; C, P, the mean of LS and m of its soil tests
/// are its own; C of a rotation moves with all rotations, part of the calendar by part (rotation_covers.h). Tests share
/// part of their doubt too (reference, season), which this counts as a field's own: the ranking is rather less sure of
/// tested fields than it could be.
///   times T    its mean loss over the T of its ground, by area
///   avoidable  its tons less those with the best practice on offer, at least 0
///   delivered  its avoidable tons that reach a channel, by one of four relations (delivery.h), with the doubt of the
///              share itself beside the others
/// @source ranking: ranking.h; spreads of C, P, LS, K and the share: data/reference/default-spreads.csv
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "raster/placement.h"
#include "raster/polygons.h"
#include "source/citation.h"
#include "source/remark.h"
#include "watershed/delivery.h"
#include "watershed/field_on_grid.h"
#include "watershed/field_tests.h"
#include "watershed/loss_map.h"
#include "watershed/ranking.h"
#include "watershed/rotation_covers.h"

namespace soilhold::watershed {

/// What fields can be ranked by, in this order wherever there are five.
enum class Criterion { loss, tons, times_T, avoidable, delivered };
inline constexpr std::array criteria{Criterion::loss, Criterion::tons, Criterion::times_T, Criterion::avoidable,
                                     Criterion::delivered};
/// As columns and keys name them.
inline constexpr std::array<const char*, 5> criterion_names{"loss", "tons", "times_T", "avoidable", "delivered"};

/// A practice that every field could take up.
struct Practice {
    std::string name;
    std::optional<double> cover_factor;     ///< C with it
    std::optional<double> times;            ///< or C times this
    std::optional<double> practice_factor;  ///< P with it
    source::Origin origin;
    std::optional<std::size_t> rotation{};  ///< whose C `cover_factor` is, in the settings' list
};

/// A field as its file gives it.
struct FieldGiven {
    raster::Polygon polygon;
    std::optional<double> C, P;       ///< its own, instead of the layers'
    std::optional<double> tolerance;  ///< T, t/(ha yr)
    std::string tillage;
    std::optional<std::size_t> rotation{};  ///< whose C it has, in the settings' list
    std::optional<input::TestedField> tests{};
};

struct FieldResult {
    std::int64_t id = 0;
    std::string name, tillage;
    std::vector<raster::Part> parts;  ///< its outline, map coordinates
    double area_ha = 0;               ///< of the outline
    FieldOnGrid on_grid;              ///< on the part that lies on the grid
    raster::Point worst_at{};         ///< middle of its worst tenth, map coordinates
    std::string worst_where;          ///< the ninth of the field that this is: "north-west", "middle"
    std::string main_soil;
    std::string rotation;                       ///< whose C it has; empty: a figure's, column's or layer's
    std::optional<FieldStructure> structure;    ///< of a field whose soil was tested; all its tons are with this m
    double R = 0, K = 0, LS = 0, C = 0, P = 0;  ///< means by area where there is a loss
    std::optional<double> tolerance, times_T;
    std::string best_practice;                         ///< empty: none on offer lowers the loss
    std::optional<double> avoidable_t;                 ///< t/yr; none without practices on offer
    std::optional<double> way_m;                       ///< mean way to a channel; none where none is on the map
    DeliveryRatios delivery;                           ///< share of its tons that reaches a channel, by each relation
    std::optional<double> delivered_t;                 ///< t/yr, by the relation that was chosen
    double delivered_low_t = 0, delivered_high_t = 0;  ///< least and most of all relations
    std::optional<double> delivered_avoidable_t;
    std::array<double, 5> missing{};  ///< share of its area on the grid that lacks each factor (factor_names)
    double own_log_sd = 0, group_log_sd = 0;
    double delivery_log_sd = 0;                ///< beside them, of what is delivered
    double cover_log_sd = 0, rest_log_sd = 0;  ///< of its own: C where no rotation gives it, and all else
    double rotation_log_sd = 0;                ///< of C from a calendar, shared part by part with all calendars
    std::vector<SharedDoubt> shared;           ///< the same by part
    std::optional<Taken> taken;                ///< tons that stay where the best practice is another rotation
    std::array<std::optional<Rank>, 5> ranks;  ///< by Criterion
    source::Remarks remarks;

    std::optional<double> value(Criterion criterion) const;
};

/// Where the water goes; both of the shape of the layers.
struct Ways {
    terrain::Grid<float> to_channel_m;  ///< NaN where it meets none on the map
    double largest_basin_km2 = 0;       ///< drained by the largest stream that leaves the map
};

struct FieldSettings {
    std::vector<Practice> offered;
    Delivery delivery = Delivery::distance;
    std::size_t top = 20;
    std::size_t draws = 1000;
    std::uint64_t seed = 1;
    int threads = 0;
    std::vector<RotationWorked> rotations{};
    std::optional<structure::Credited> credits{};  ///< what C that is no rotation's credits
};

struct Fields {
    std::vector<FieldResult> fields;        ///< in the file's order
    std::vector<raster::LeftOut> left_out;  ///< with the reason: on no cell that has a loss
};

/// @param map  loss by the layers alone; the cells that lie at least half in a field with a C, P or m of its own get
///             that field's loss
/// @throws std::invalid_argument for grids of other shapes
Fields work_fields(const Layers& layers, const Ways& ways, const raster::Placement& placement,
                   std::span<const FieldGiven> given, const FieldSettings& settings, LossMap& map);

/// What a field lacks and on how much of its ground: "soil on 12 %, slope on 3 %"; empty for nothing.
std::string lacks_of(const FieldResult& field);

/// m of its soil tests, 1 without.
double times_of(const FieldResult& field);

/// All remarks of a field as one text.
std::string words_of_remarks(const FieldResult& field);

/// "tons", "t/ha", "times T", "avoidable tons", "avoidable tons that reach a channel".
std::string words_of(Criterion criterion);

}  // namespace soilhold::watershed
