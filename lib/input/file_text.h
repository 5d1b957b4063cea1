/// The text of a file that a user named, or why it can't be had.
#pragma once

#include <cstddef>
#include <string>

namespace soilhold::input {

/// @param path          "-" is standard input
/// @param only_regular  refuse pipes and devices: for files that another file points to
/// @throws InputError when there is no such file, it is a folder, can't be read or is larger than any field file
std::string text_of_file(const std::string& path, bool only_regular = false);

/// The bytes of a file of data, which may be large; errors as above. @param what  "a gauge record"
std::string bytes_of_file(const std::string& path, std::size_t most_bytes, const char* what);

/// "standard input" for "-", else the path as given.
std::string name_of_file(const std::string& path);

}  // namespace soilhold::input
