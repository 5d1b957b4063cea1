#include "watershed/field_map.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "input/known_keys.h"
#include "input/test_file.h"
#include "raster/raster_error.h"
#include "units/reading.h"

namespace soilhold::watershed {

std::string text_of(const raster::Attribute& attribute) {
    if (const auto* text = std::get_if<std::string>(&attribute)) {
        const auto first = text->find_first_not_of(' ');
        return first == std::string::npos ? "" : text->substr(first, text->find_last_not_of(' ') - first + 1);
    }
    if (const auto* whole = std::get_if<std::int64_t>(&attribute)) return std::to_string(*whole);
    return fmt::format("{:g}", std::get<double>(attribute));
}

namespace {

/// The number in a column of a field; none where it is blank.
std::optional<double> number_in(const raster::Polygon& polygon, const std::string& column, const std::string& path,
                                double most) {
    if (column.empty()) return std::nullopt;
    const auto found = polygon.attributes.find(column);
    if (found == polygon.attributes.end()) return std::nullopt;
    double value = std::nan("");
    if (const auto* whole = std::get_if<std::int64_t>(&found->second)) value = static_cast<double>(*whole);
    if (const auto* real = std::get_if<double>(&found->second)) value = *real;
    if (const auto* text = std::get_if<std::string>(&found->second)) {
        if (text_of(*text).empty()) return std::nullopt;
        try {
            value = units::read_number(text_of(*text));
        } catch (const units::ReadingError&) {
        }
    }
    if (!(value >= 0) || value > most)
        throw raster::RasterError(path, "factor-range",
                                  fmt::format("'{}' has '{}' in its column '{}', which takes a number from 0 to {:g}.",
                                              polygon.name, text_of(found->second), column, most));
    return value;
}

/// A column that no field has a value in is most often misspelt.
void check_columns(const input::WatershedFile& file, const raster::Polygons& polygons) {
    for (const std::string& column : {file.fields.cover, file.fields.practice, file.fields.tillage,
                                      file.fields.tolerance, file.fields.rotation, file.fields.tests}) {
        if (column.empty()) continue;
        std::set<std::string> have;
        for (const raster::Polygon& polygon : polygons.polygons)
            for (const auto& [name, value] : polygon.attributes) have.insert(name);
        if (have.contains(column)) continue;
        std::string list;
        for (const std::string& name : have) list += (list.empty() ? "" : ", ") + name;
        throw raster::RasterError(file.fields.map.path, "no-such-column",
                                  fmt::format("no field has a value in a column '{}'; columns with values: {}.", column,
                                              list.empty() ? "none" : list));
    }
}

/// The words in a column of a field; empty where it is blank.
std::string text_in(const raster::Polygon& polygon, const std::string& column) {
    const auto found = polygon.attributes.find(column);
    return column.empty() || found == polygon.attributes.end() ? "" : text_of(found->second);
}

/// Which rotation of the list a field names.
std::optional<std::size_t> rotation_of(const raster::Polygon& polygon, const input::WatershedFile& file,
                                       const std::optional<double>& C) {
    const std::string& column = file.fields.rotation;
    const std::string name = text_in(polygon, column);
    if (name.empty()) return std::nullopt;
    if (C)
        throw raster::RasterError(file.fields.map.path, "one-of",
                                  fmt::format("'{}' has both C {:g} in its column '{}' and the rotation '{}' in '{}'; "
                                              "leave one of them blank.",
                                              polygon.name, *C, file.fields.cover, name, column));
    const auto found = std::ranges::find(file.rotations, name, &input::NamedRotation::name);
    if (found != file.rotations.end()) return static_cast<std::size_t>(found - file.rotations.begin());
    std::vector<std::string_view> names;
    std::string list;
    for (const input::NamedRotation& one : file.rotations) {
        names.push_back(one.name);
        list += (list.empty() ? "" : ", ") + one.name;
    }
    const std::string nearest = input::nearest_word(names, name);
    throw raster::RasterError(
        file.fields.map.path, "no-such-rotation",
        fmt::format("'{}' has '{}' in its column '{}', which is not in the list 'rotations': {}.{}", polygon.name, name,
                    column, list, nearest.empty() ? "" : fmt::format(" Did you mean '{}'?", nearest)));
}

std::optional<input::TestedField> tests_in_column(const raster::Polygon& polygon, const input::WatershedFile& file) {
    const std::string name = text_in(polygon, file.fields.tests);
    if (name.empty()) return std::nullopt;
    std::filesystem::path target(name);
    if (target.is_relative() && file.path != "-") target = std::filesystem::path(file.path).parent_path() / target;
    loss::Field read;
    try {
        input::read_test_file(target.string(), read);
    } catch (const input::InputError& error) {
        const input::Diagnostic& first = error.diagnostics.front();
        if (first.place.line > 0) throw;
        throw raster::RasterError(file.fields.map.path, first.code,
                                  fmt::format("'{}' names the soil tests '{}' in its column '{}': {}", polygon.name,
                                              name, file.fields.tests, first.text));
    }
    return input::TestedField{polygon.name, name, "", std::move(read.tests), {}, "", std::move(read.remarks)};
}

/// The tests of the list to the fields that they name.
void give_tests(const input::WatershedFile& file, FieldMap& map) {
    std::vector<input::Diagnostic> mistakes;
    for (const input::TestedField& tests : file.tests) {
        bool there = false;
        for (FieldGiven& field : map.fields) {
            if (field.polygon.name != tests.field) continue;
            there = true;
            if (field.tests)
                mistakes.push_back({tests.named_at, "same-name",
                                    fmt::format("The tests of '{}' stand here and in its column '{}'; leave one of "
                                                "them out",
                                                tests.field, file.fields.tests),
                                    tests.source_line});
            field.tests = tests;
        }
        if (there) continue;
        if (std::ranges::find(map.left_out, tests.field, &raster::LeftOut::name) != map.left_out.end()) {
            map.remarks.push_back(
                {source::Weight::caution, "tests-unused",
                 fmt::format("'{}' has soil tests and is not ranked, so they are not used.", tests.field),
                 fmt::format("{}:{}:{}", tests.named_at.file, tests.named_at.line, tests.named_at.column)});
            continue;
        }
        std::vector<std::string_view> names;
        for (const FieldGiven& field : map.fields) names.push_back(field.polygon.name);
        const std::string nearest = input::nearest_word(names, tests.field);
        mistakes.push_back({tests.named_at, "no-such-field",
                            fmt::format("No field '{}' is in {}{}", tests.field,
                                        std::filesystem::path(file.fields.map.path).filename().string(),
                                        nearest.empty() ? "" : fmt::format("; did you mean '{}'?", nearest)),
                            tests.source_line});
    }
    if (!mistakes.empty()) throw input::InputError(std::move(mistakes));
}

}  // namespace

FieldMap read_fields(const input::WatershedFile& file, const raster::Placement& placement) {
    raster::PolygonOptions options;
    options.layer = file.fields.map.layer;
    options.name_column = file.fields.name;
    const std::string& path = file.fields.map.path;
    raster::Polygons polygons = raster::read_polygons(path, placement, options);
    check_columns(file, polygons);
    FieldMap map;
    map.left_out = std::move(polygons.left_out);
    map.overlaps = std::move(polygons.overlaps);
    for (raster::Polygon& polygon : polygons.polygons) {
        FieldGiven field;
        field.C = number_in(polygon, file.fields.cover, path, 1.2);
        field.P = number_in(polygon, file.fields.practice, path, 1);
        field.tolerance = number_in(polygon, file.fields.tolerance, path, 50 / file.fields.tolerance_unit);
        if (field.tolerance) *field.tolerance *= file.fields.tolerance_unit;
        field.tillage = text_in(polygon, file.fields.tillage);
        field.rotation = rotation_of(polygon, file, field.C);
        field.tests = tests_in_column(polygon, file);
        field.polygon = std::move(polygon);
        map.fields.push_back(std::move(field));
    }
    give_tests(file, map);
    return map;
}

}  // namespace soilhold::watershed
