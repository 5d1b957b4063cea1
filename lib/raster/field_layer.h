/// Fields with their results as a GeoPackage that a map program opens with its colours already set.
///
/// One layer of polygons with a column a figure, and a table layer_styles that map programs look for (graduated by one
/// of the columns). Made in memory, then written without a name until it is whole (raster/unnamed_file.h).
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "raster/atomic_file.h"
#include "raster/placement.h"
#include "raster/shares.h"

namespace soilhold::raster {

struct FieldColumn {
    enum class Kind { text, whole, real } kind = Kind::real;
    std::string name;
    std::string says = {};  ///< what it holds, with its unit; no two columns the same. Map programs show it
};

/// A cell without a value stays NULL.
using FieldValue = std::optional<std::variant<std::string, std::int64_t, double>>;

struct FieldRow {
    const std::vector<Part>* parts = nullptr;  ///< null: without an outline
    std::vector<FieldValue> values;            ///< one a column
};

/// Colours of one column's values: below each limit its own, the last from the last limit on.
struct Graduated {
    std::string column, title;
    std::vector<double> limits;
    std::vector<Colour> colours;  ///< one more than limits
};

struct FieldLayer {
    std::string name;
    std::string description;
    std::vector<FieldColumn> columns;
    std::vector<FieldRow> rows;
    std::optional<Graduated> graduated;
};

/// A layer written whole, not yet in place; it goes unless finish() is called.
class PendingFieldLayer {
  public:
    /// @throws WriteError; std::invalid_argument for a row with more or fewer values than columns, or limits that
    /// don't fit the colours
    PendingFieldLayer(const std::string& path, const Placement& placement, const FieldLayer& layer);
    ~PendingFieldLayer();
    PendingFieldLayer(const PendingFieldLayer&) = delete;
    PendingFieldLayer& operator=(const PendingFieldLayer&) = delete;
    /// Puts it in place. @throws WriteError
    void finish();

  private:
    std::unique_ptr<UnnamedFile> file_;
};

/// The style as map programs keep it in layer_styles (QML).
std::string style_of(const Graduated& graduated);

}  // namespace soilhold::raster
