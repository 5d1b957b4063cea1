#include "input/test_file.h"

#include <fmt/format.h>

#include <filesystem>

#include "input/file_text.h"
#include "input/tests_section.h"

namespace soilhold::input {

void read_test_file(const Reader& reader, const Node& node, const std::string& path, loss::Field& field) {
    const auto name = scalar_text(reader, node, "tests");
    if (!name) return;
    std::filesystem::path target(*name);
    if (target.is_relative() && path != "-") target = std::filesystem::path(path).parent_path() / target;
    try {
        Document document(text_of_file(target.string(), true), target.string());
        const Reader inside{document, "test file " + target.filename().string(), reader.remarks};
        read_tests(Section(inside, "tests", &document.root()), field.texture_class, field);
        reader.document.adopt(document.mistakes());
    } catch (const InputError& error) {
        for (const Diagnostic& found : error.diagnostics) {
            if (found.place.line > 0)
                reader.document.adopt({found});
            else
                reader.mistake(node.at, found.code, fmt::format("'{}': {}", *name, found.text));
        }
    }
}

void read_test_file(const std::string& path, loss::Field& field) {
    Document document(text_of_file(path, true), path);
    const Reader reader{document, "test file " + std::filesystem::path(path).filename().string(), field.remarks};
    read_tests(Section(reader, "tests", &document.root()), field.texture_class, field);
    if (!document.mistakes().empty()) throw InputError(document.mistakes());
}

}  // namespace soilhold::input
