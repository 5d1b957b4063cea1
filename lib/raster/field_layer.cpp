#include "raster/field_layer.h"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <cpl_vsi.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>
#include <string_view>

#include "raster/features.h"
#include "raster/gdal_session.h"

namespace soilhold::raster {

namespace {

[[noreturn]] void fail(const std::string& path, const std::string& what, const std::string& why) {
    throw WriteError(fmt::format("{} {}: {}", path, what, why));
}

OGRLayerH create_layer(GDALDatasetH dataset, const std::string& name, OGRSpatialReferenceH reference,
                       OGRwkbGeometryType type, const char* key_column, const std::string& description) {
    const std::string fid = fmt::format("FID={}", key_column), says = fmt::format("DESCRIPTION={}", description);
    std::string f = fid, d = says;
    std::array<char*, 3> options{f.data(), d.data(), nullptr};
    return GDALDatasetCreateLayer(dataset, name.c_str(), reference, type, options.data());
}

void create_column(OGRLayerH layer, const FieldColumn& column) {
    const OGRFieldType type = column.kind == FieldColumn::Kind::text    ? OFTString
                              : column.kind == FieldColumn::Kind::whole ? OFTInteger64
                                                                        : OFTReal;
    OGRFieldDefnH definition = OGR_Fld_Create(column.name.c_str(), type);
    OGR_L_CreateField(layer, definition, 1);
    OGR_Fld_Destroy(definition);
}

void set_value(OGRFeatureH feature, int column, const FieldValue& value) {
    if (!value) return;
    if (const auto* text = std::get_if<std::string>(&*value)) OGR_F_SetFieldString(feature, column, text->c_str());
    if (const auto* whole = std::get_if<std::int64_t>(&*value)) OGR_F_SetFieldInteger64(feature, column, *whole);
    if (const auto* real = std::get_if<double>(&*value)) OGR_F_SetFieldDouble(feature, column, *real);
}

bool add_row(OGRLayerH layer, const FieldRow& row) {
    OGRFeatureH feature = OGR_F_Create(OGR_L_GetLayerDefn(layer));
    for (std::size_t i = 0; i < row.values.size(); ++i) set_value(feature, static_cast<int>(i), row.values[i]);
    if (row.parts != nullptr) OGR_F_SetGeometryDirectly(feature, geometry_of(*row.parts).release());
    const bool added = OGR_L_CreateFeature(layer, feature) == OGRERR_NONE;
    OGR_F_Destroy(feature);
    return added;
}

bool add_style(GDALDatasetH dataset, const FieldLayer& layer) {
    OGRLayerH styles = create_layer(dataset, "layer_styles", nullptr, wkbNone, "id", "colours of the layers");
    if (styles == nullptr) return false;
    const std::vector<FieldColumn> columns = {{FieldColumn::Kind::text, "f_table_catalog"},
                                              {FieldColumn::Kind::text, "f_table_schema"},
                                              {FieldColumn::Kind::text, "f_table_name"},
                                              {FieldColumn::Kind::text, "f_geometry_column"},
                                              {FieldColumn::Kind::text, "styleName"},
                                              {FieldColumn::Kind::text, "styleQML"},
                                              {FieldColumn::Kind::text, "styleSLD"},
                                              {FieldColumn::Kind::whole, "useAsDefault"},
                                              {FieldColumn::Kind::text, "description"},
                                              {FieldColumn::Kind::text, "owner"},
                                              {FieldColumn::Kind::text, "ui"},
                                              {FieldColumn::Kind::text, "update_datetime"}};
    for (const FieldColumn& column : columns) create_column(styles, column);
    FieldRow row;
    row.values = {std::string(),
                  std::string(),
                  layer.name,
                  std::string("geom"),
                  std::string(layer.graduated->title),
                  style_of(*layer.graduated),
                  std::string(),
                  std::int64_t{1},
                  std::string(layer.graduated->title),
                  std::string(),
                  FieldValue{},
                  FieldValue{}};
    return add_row(styles, row);
}

std::string quoted(const std::string& text) {
    std::string safe = "'";
    for (const char c : text) safe += c == '\'' ? std::string("''") : std::string(1, c);
    return safe + "'";
}

/// What the columns hold, in the tables of the schema extension of GeoPackage. GDAL 3.6 writes them not by itself.
void add_column_names(GDALDatasetH dataset, const FieldLayer& layer) {
    const auto run = [&](const std::string& sql) {
        GDALDatasetReleaseResultSet(dataset, GDALDatasetExecuteSQL(dataset, sql.c_str(), nullptr, nullptr));
    };
    run("CREATE TABLE IF NOT EXISTS gpkg_extensions (table_name TEXT, column_name TEXT, extension_name TEXT NOT NULL, "
        "definition TEXT NOT NULL, scope TEXT NOT NULL, CONSTRAINT ge_tce UNIQUE (table_name, column_name, "
        "extension_name))");
    run("CREATE TABLE gpkg_data_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL, name TEXT, title TEXT, "
        "description TEXT, mime_type TEXT, constraint_name TEXT, CONSTRAINT pk_gdc PRIMARY KEY (table_name, "
        "column_name), CONSTRAINT gdc_tn UNIQUE (table_name, name))");
    run("CREATE TABLE gpkg_data_column_constraints (constraint_name TEXT NOT NULL, constraint_type TEXT NOT NULL, "
        "value "
        "TEXT, min NUMERIC, min_is_inclusive BOOLEAN, max NUMERIC, max_is_inclusive BOOLEAN, description TEXT, "
        "CONSTRAINT gdcc_ntv UNIQUE (constraint_name, constraint_type, value))");
    for (const char* table : {"gpkg_data_columns", "gpkg_data_column_constraints"})
        run(
            fmt::format("INSERT INTO gpkg_extensions VALUES ('{}', NULL, 'gpkg_schema', "
                        "'http://www.geopackage.org/spec121/#extension_schema', 'read-write')",
                        table));
    for (const FieldColumn& column : layer.columns)
        if (!column.says.empty())
            run(fmt::format(
                "INSERT INTO gpkg_data_columns (table_name, column_name, name, title) VALUES ({}, {}, {}, {})",
                quoted(layer.name), quoted(column.name), quoted(column.says), quoted(column.says)));
}

/// False where GDAL refused something; what it said is heard.
bool write(GDALDatasetH dataset, const Placement& placement, const FieldLayer& layer) {
    const Reference reference = reference_of(placement.crs);
    OGRLayerH fields = create_layer(dataset, layer.name, reference.get(), wkbMultiPolygon, "fid", layer.description);
    if (fields == nullptr) return false;
    for (const FieldColumn& column : layer.columns) create_column(fields, column);
    if (GDALDatasetStartTransaction(dataset, 0) != OGRERR_NONE) return false;
    for (const FieldRow& row : layer.rows)
        if (!add_row(fields, row)) return false;
    if (layer.graduated && !add_style(dataset, layer)) return false;
    const bool named = std::ranges::any_of(layer.columns, [](const FieldColumn& one) { return !one.says.empty(); });
    if (named) add_column_names(dataset, layer);
    return GDALDatasetCommitTransaction(dataset) == OGRERR_NONE;
}

void check(const FieldLayer& layer) {
    for (const FieldRow& row : layer.rows)
        if (row.values.size() != layer.columns.size())
            throw std::invalid_argument("a row of a layer needs a value, or none, for each column");
    if (layer.graduated && layer.graduated->colours.size() != layer.graduated->limits.size() + 1)
        throw std::invalid_argument("a graduated layer needs one colour more than limits");
}

/// For a value inside XML.
std::string escaped(const std::string& text) {
    const std::unique_ptr<char, decltype(&VSIFree)> xml(CPLEscapeString(text.c_str(), -1, CPLES_XML), &VSIFree);
    return xml.get();
}

/// The same fields give the same bytes: while this lives, GDAL writes the beginning of time as the day of a layer.
struct WithoutTime {
    WithoutTime() { CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", "1970-01-01T00:00:00.000Z"); }
    ~WithoutTime() { CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", nullptr); }
    WithoutTime(const WithoutTime&) = delete;
    WithoutTime& operator=(const WithoutTime&) = delete;
};

/// A file of GDAL's that lies in memory, for as long as this lives.
struct InMemory {
    InMemory() : name(fmt::format("/vsimem/soilhold-{}.gpkg", static_cast<const void*>(this))) {}
    ~InMemory() {
        for (const char* ending : {"", "-journal", "-wal", "-shm"}) VSIUnlink((name + ending).c_str());
    }
    InMemory(const InMemory&) = delete;
    InMemory& operator=(const InMemory&) = delete;
    std::string_view bytes() const {
        vsi_l_offset count = 0;
        const GByte* const first = VSIGetMemFileBuffer(name.c_str(), &count, FALSE);
        return {reinterpret_cast<const char*>(first), first ? static_cast<std::size_t>(count) : 0};
    }
    std::string name;
};

}  // namespace

std::string style_of(const Graduated& style) {
    std::string ranges, symbols;
    for (std::size_t i = 0; i < style.colours.size(); ++i) {
        const bool first = i == 0, last = i == style.limits.size();
        const double low = first ? 0 : style.limits[i - 1], high = last ? 1e9 : style.limits[i];
        const std::string label = first  ? fmt::format("below {:g}", high)
                                  : last ? fmt::format("{:g} and more", low)
                                         : fmt::format("{:g} to {:g}", low, high);
        const Colour& colour = style.colours[i];
        ranges += fmt::format(R"(<range symbol="{}" lower="{:.6f}" upper="{:.6f}" label="{}" render="true"/>)", i, low,
                              high, label);
        symbols += fmt::format(
            R"(<symbol name="{}" type="fill" alpha="1"><layer class="SimpleFill" enabled="1" locked="0" pass="0">)"
            R"(<Option type="Map"><Option name="color" type="QString" value="{},{},{},{}"/>)"
            R"(<Option name="outline_color" type="QString" value="60,60,60,255"/>)"
            R"(<Option name="outline_width" type="QString" value="0.2"/><Option name="style" type="QString" value="solid"/>)"
            R"(</Option></layer></symbol>)",
            i, colour[0], colour[1], colour[2], colour[3]);
    }
    return fmt::format(
        R"(<!DOCTYPE qgis><qgis styleCategories="Symbology"><renderer-v2 type="graduatedSymbol" attr="{}" )"
        R"(graduatedMethod="GraduatedColor" enableorderby="0"><ranges>{}</ranges><symbols>{}</symbols>)"
        R"(</renderer-v2></qgis>)",
        escaped(style.column), ranges, symbols);
}

PendingFieldLayer::PendingFieldLayer(const std::string& path, const Placement& placement, const FieldLayer& layer) {
    check(layer);
    wake_gdal();
    file_ = std::make_unique<UnnamedFile>(path);
    // SQLite keeps a journal by the name of its file: it is written in memory, so that none stays when we are killed.
    const InMemory memory;
    const WithoutTime no_time;
    const Listening listening;
    Dataset dataset(GDALCreate(GDALGetDriverByName("GPKG"), memory.name.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    if (!dataset) fail(path, "can't be written", listening.words());
    const bool whole = write(dataset.get(), placement, layer);
    GDALFlushCache(dataset.get());
    dataset.reset();
    if (!whole || listening.failed()) fail(path, "could not be written whole", listening.words());
    file_->append(memory.bytes());
    file_->flush();
}

PendingFieldLayer::~PendingFieldLayer() = default;

void PendingFieldLayer::finish() { file_->put_in_place(); }

}  // namespace soilhold::raster
