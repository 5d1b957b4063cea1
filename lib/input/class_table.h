/// Tables beside a watershed file: the erodibility and tolerance of each map unit of a soil survey, and the cover
/// factor of each class of a land cover map.
///
/// CSV with a line of headings; the unit stands behind a heading ("erodibility US", "tolerance (t/ac)"). Soils: key,
/// share (of the map unit, 1 where left out), erodibility, tolerance, and for soil tests clay and organic matter in %
/// and the texture. Covers: class, name, C. Other columns are left alone. A cell left blank is no value, and never 0.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "source/remark.h"

namespace soilhold::input {

/// How the components of a map unit make one soil of it.
enum class Components {
    dominant,  ///< the one with the largest share that has a K
    weighted,  ///< the mean of all that have a K, by share
};

/// What a soil test is judged against.
struct SoilWords {
    std::optional<double> clay_pct, organic_matter_pct;
    std::string texture;  ///< "silt loam"; empty: not known
};

/// A map unit as one soil.
struct SoilOfUnit {
    double K = 0;                     ///< t ha h/(ha MJ mm)
    std::optional<double> tolerance;  ///< T, t/(ha yr)
    double share_known = 1;           ///< of the map unit's components, by share, with a K
    SoilWords words;
};

struct SoilTable {
    std::map<std::string, SoilOfUnit> units;  ///< by key; map units without any K are absent
    std::vector<std::string> without_K;       ///< keys in the table, none of whose components has a K
    source::Remarks remarks;
};

/// @param unit  of K where the heading has none: "US", "SI" or empty
/// @throws InputError with every mistake of the table, each with its line
SoilTable read_soil_table(const std::string& path, const std::string& unit, Components components);

struct CoverClass {
    std::string name;
    double C = 0;
};

/// By class number. @throws InputError as read_soil_table()
std::map<std::int32_t, CoverClass> read_cover_classes(const std::string& path);

}  // namespace soilhold::input
