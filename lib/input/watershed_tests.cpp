#include "input/watershed_tests.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "input/test_file.h"

namespace soilhold::input {

namespace {

constexpr std::size_t most_tests = 2000;

bool in_table(const SoilTable& table, const std::string& key) {
    return table.units.contains(key) || std::ranges::find(table.without_K, key) != table.without_K.end();
}

void read_item(const Reader& reader, const Node& item, WatershedFile& file) {
    const Section section(reader, "soil tests", &item);
    if (!item.is_mapping()) return;
    TestedField one;
    one.field = section.text("field").value_or("");
    one.soil = section.text("soil").value_or("");
    const Node* name = section.find("field");
    one.named_at = reader.document.place(name != nullptr ? name->at : item.at);
    one.source_line = reader.document.source_line(one.named_at.line);
    for (const std::string_view key : {"field", "file"})
        if (!section.has(key))
            reader.mistake(item.at, "missing",
                           "A soil test of the list has its 'field' and its 'file': {field: Long Ridge, file: "
                           "long-ridge-tests.yaml}");
    for (const TestedField& other : file.tests)
        if (!one.field.empty() && other.field == one.field)
            reader.mistake(item.at, "same-name",
                           fmt::format("The tests of '{}' stand in the list already", readable(one.field, 80)));
    if (!one.soil.empty() && !file.soils.table.units.empty() && !in_table(file.soils.table, one.soil))
        reader.mistake(section.find("soil")->at, "soil-not-in-table",
                       fmt::format("The map unit '{}' is not in {}", readable(one.soil, 80),
                                   std::filesystem::path(file.soils.table_path).filename().string()));
    if (const Node* at = section.find("file")) {
        loss::Field read;
        const Reader inside{reader.document, reader.default_from, read.remarks};
        read_test_file(inside, *at, file.path, read);
        one.file = scalar_text(reader, *at, "file").value_or("");
        one.record = std::move(read.tests);
        one.remarks = std::move(read.remarks);
    }
    file.tests.push_back(std::move(one));
}

}  // namespace

void read_watershed_tests(const Section& top, WatershedFile& file) {
    const Node* list = top.find("soil tests");
    if (list == nullptr) return;
    if (!list->is_list() || list->items.empty() || list->items.size() > most_tests) {
        top.reader().mistake(
            list->at, "not-a-list",
            fmt::format("'soil tests' is a list of 1 to {}, each '- {{field: ..., file: ...}}'", most_tests));
        return;
    }
    for (const Node& item : list->items) read_item(top.reader(), item, file);
}

}  // namespace soilhold::input
