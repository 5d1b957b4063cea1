#include "input/file_text.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iostream>

#include "input/diagnostic.h"

namespace soilhold::input {

namespace {

constexpr std::size_t most_bytes = 1'000'000;

[[noreturn]] void refuse(const std::string& path, std::string code, std::string text) {
    throw InputError({{{name_of_file(path), 0, 0}, std::move(code), std::move(text), ""}});
}

/// At most one byte more than is allowed, so that an endless stream ends here.
std::string text_of_stream(std::istream& stream) {
    std::string text(most_bytes + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(stream.gcount()));
    return text;
}

}  // namespace

std::string name_of_file(const std::string& path) { return path == "-" ? "standard input" : path; }

std::string text_of_file(const std::string& path, bool only_regular) {
    if (path == "-") return text_of_stream(std::cin);
    std::error_code error;
    const auto status = std::filesystem::status(path, error);
    if (status.type() == std::filesystem::file_type::not_found)
        refuse(path, "no-file", "There is no such file. Check its name and the folder you are in");
    if (std::filesystem::is_directory(status)) refuse(path, "folder", "This is a folder; name a field file in it");
    if (only_regular && !std::filesystem::is_regular_file(status))
        refuse(path, "no-file", "This is no file that can be read as field file");
    std::ifstream file(path, std::ios::binary);
    if (!file) refuse(path, "unreadable", "The file can't be opened. Is it yours to read, or open elsewhere?");
    std::string text = text_of_stream(file);
    if (file.bad()) refuse(path, "unreadable", "The file can't be read to its end");
    if (text.size() > most_bytes)
        refuse(path, "too-large",
               "The file is larger than 1 MB, and field files are much smaller. Is it the right file?");
    return text;
}

}  // namespace soilhold::input
