/// Sizes of memory as people write them, "2 GB", and how much a command takes when nobody says.
#pragma once

#include <cstdint>
#include <string>

namespace soilhold::cli {

/// Bytes. MB and GB are powers of ten, MiB and GiB of two.
/// @throws std::invalid_argument with what would be right: no unit, another one, no number, nothing at all
std::int64_t read_memory_size(const std::string& text);

/// Whether it is one of the units.
bool is_memory_unit(const std::string& text);

/// A quarter of the machine's memory; 2 GB where that can't be known.
std::int64_t usual_memory();

}  // namespace soilhold::cli
