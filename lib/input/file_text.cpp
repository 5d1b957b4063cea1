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

std::string bytes_of_file(const std::string& path, std::size_t most_bytes, const char* what) {
    std::error_code error;
    if (path != "-" && std::filesystem::status(path, error).type() == std::filesystem::file_type::not_found)
        refuse(path, "no-file", "There is no such file. Check its name and the folder you are in");
    if (path != "-" && std::filesystem::is_directory(path, error))
        refuse(path, "folder", fmt::format("This is a folder; name {} in it", what));
    std::ifstream file;
    if (path != "-") {
        file.open(path, std::ios::binary);
        if (!file) refuse(path, "unreadable", "The file can't be opened. Is it yours to read, or open elsewhere?");
    }
    std::istream& stream = path == "-" ? std::cin : file;
    std::string bytes;
    constexpr std::size_t piece = 1U << 24U;
    // In pieces, because a pipe doesn't say how long it is.
    while (stream && bytes.size() <= most_bytes) {
        const std::size_t before = bytes.size();
        bytes.resize(before + piece);
        stream.read(bytes.data() + before, static_cast<std::streamsize>(piece));
        bytes.resize(before + static_cast<std::size_t>(stream.gcount()));
    }
    if (stream.bad()) refuse(path, "unreadable", "The file can't be read to its end");
    if (bytes.size() > most_bytes)
        refuse(path, "too-large",
               fmt::format("The file is larger than {} MB. Cut {} into years", most_bytes / 1000000, what));
    return bytes;
}

}  // namespace soilhold::input
