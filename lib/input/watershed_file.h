/// Watershed files: which maps a ranking of fields is worked from, and whose each is (docs/watershed.md).
///
/// YAML, read like a field file: units are written, keys are known, every mistake is told with its line and column.
/// Files lie beside the watershed file. Nothing is opened here but the tables; the maps are raster/'s.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "input/class_table.h"
#include "input/diagnostic.h"
#include "input/yaml_document.h"
#include "loss/field.h"
#include "rotation/climate.h"
#include "source/citation.h"
#include "source/remark.h"

namespace soilhold::input {

/// A file of a map, found beside the watershed file.
struct MapFile {
    std::string path;
    Place named_at;           ///< where the watershed file names it; of the heights: the key 'elevation'
    std::string source_line;  ///< that line
    std::string layer;        ///< of a vector file; empty: the only one
    std::string crs;          ///< what the file should have said; empty: as it says
    source::Origin origin;
};

/// A factor that is one figure for the whole watershed.
struct OneFigure {
    double value = 0;  ///< SI
    source::Origin origin;
};

/// What is done with ground that can't drain.
struct PitsGiven {
    bool breach = false;                  ///< cut open within limits first; else filled only
    std::optional<double> longest_cut_m;  ///< none: as usual
    std::optional<double> deepest_cut_m;
};

struct ElevationGiven {
    MapFile map;
    int band = 1;
    std::string project;      ///< "EPSG:32617", "auto" or empty
    std::string height_unit;  ///< as written, or empty: as the file says
    std::string cell_unit;    ///< likewise, for a map without a coordinate system
    std::optional<double> nodata;
    std::optional<double> cell_m;
    PitsGiven pits;
};

struct RainGiven {
    std::optional<OneFigure> erosivity;  ///< R, MJ mm/(ha h yr)
    std::optional<MapFile> raster;
    double raster_unit = 1;  ///< MJ mm/(ha h yr) in a unit of the raster
};

struct SoilsGiven {
    std::optional<MapFile> map;  ///< polygons where `key` names a column, else a raster of classes
    std::string key;
    std::string table_path;
    SoilTable table;
    Components components = Components::dominant;
    std::optional<OneFigure> erodibility;  ///< K of the whole watershed, instead of a map; t ha h/(ha MJ mm)
    std::optional<OneFigure> tolerance;    ///< T where no column of the fields and no table gives it; t/(ha yr)
    SoilWords whole;                       ///< of the one soil, beside `erodibility`
};

struct FieldsGiven {
    MapFile map;
    std::string name, cover, rotation, practice, tillage, tolerance, tests;  ///< columns; empty: none
    double tolerance_unit = 1;                                               ///< t/(ha yr) in a unit of its column
};

struct CoverGiven {
    std::optional<OneFigure> factor;
    std::vector<MapFile> rasters;                ///< of C, or of classes: one a year
    std::map<std::int32_t, CoverClass> classes;  ///< empty: the rasters hold C itself
    std::string classes_path;
    std::optional<structure::Credited> credits;  ///< what C of a figure, column, raster or class credits
};

struct PracticeGiven {
    std::optional<OneFigure> factor;
    std::optional<MapFile> raster;
};

/// A rotation that fields and practices name.
struct NamedRotation {
    std::string name;
    loss::RotationGiven grown;
};

/// A field whose soil was tested.
struct TestedField {
    std::string field;  ///< its name in the outlines
    std::string file;   ///< of the tests, as written
    std::string soil;   ///< the map unit that was tested; empty: the main soil of the field
    soiltest::Record record;
    Place named_at;
    std::string source_line;
    source::Remarks remarks;  ///< of the test file, with their places
};

/// A practice that a field could take up.
struct Offered {
    std::string name;
    std::optional<double> cover_factor;  ///< C with it
    std::optional<double> times;         ///< or C times this
    std::string rotation;                ///< or the C of this rotation of the list
    Position rotation_at;
    std::optional<double> practice_factor;  ///< P with it; none: as now
    source::Origin origin;
};

/// What fields are ranked by.
enum class RankBy { loss, tons, times_T, avoidable, delivered };

/// By which relation soil reaches a channel.
enum class DeliverBy { distance, vanoni, boyce, scs };

struct WatershedFile {
    std::string path;
    std::string name;
    ElevationGiven elevation;
    RainGiven rain;
    SoilsGiven soils;
    FieldsGiven fields;
    CoverGiven cover;
    std::vector<NamedRotation> rotations;
    rotation::Weather weather;  ///< that the rotations' calendars need; its R is that of `rain`
    std::vector<TestedField> tests;
    PracticeGiven practice;
    std::vector<Offered> offered;
    std::vector<MapFile> barriers;
    bool field_edges = false;  ///< the edges of the fields are barriers too
    double channel_ha = 0;     ///< drained ground from which a cell is a channel
    double longest_m = 0;      ///< longest slope
    std::size_t visits = 20;
    RankBy rank_by = RankBy::tons;
    DeliverBy delivery = DeliverBy::distance;
    source::Remarks remarks;
};

/// Mistakes that were found in a map, told at the line that names it; others as they are.
std::vector<Diagnostic> told_at_their_lines(const WatershedFile& file, std::vector<Diagnostic> mistakes);

/// @param path  "-" reads standard input. @throws InputError with every mistake found
WatershedFile read_watershed_file(const std::string& path);

/// The same from text; `path` only names it in messages and finds the files beside it.
WatershedFile read_watershed(std::string_view yaml, const std::string& path);

}  // namespace soilhold::input
