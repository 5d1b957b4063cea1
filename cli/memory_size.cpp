#include "memory_size.h"

#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>

namespace soilhold::cli {

namespace {

struct Unit {
    const char* name;
    double bytes;
};
constexpr std::array<Unit, 4> units{{{"MB", 1e6}, {"GB", 1e9}, {"MiB", 1024.0 * 1024}, {"GiB", 1024.0 * 1024 * 1024}}};

}  // namespace

bool is_memory_unit(const std::string& text) {
    for (const Unit& unit : units)
        if (text == unit.name) return true;
    return false;
}

std::int64_t read_memory_size(const std::string& text) {
    double number = 0;
    const char* const begin = text.data();
    const char* const end = begin + text.size();
    const auto [rest, error] = std::from_chars(begin, end, number, std::chars_format::fixed);
    std::string unit(rest, end);
    unit.erase(0, unit.find_first_not_of(' '));
    if (error != std::errc{} || !(number > 0))
        throw std::invalid_argument("a size of memory looks like this: 2 GB, 500 MB.");
    if (unit.empty()) {
        const std::string said = text.substr(0, text.find_last_not_of(' ') + 1);
        throw std::invalid_argument(fmt::format(
            "{0} of what? Give \"{0} GB\" or \"{0} MB\". A GB is 1000 MB; MiB and GiB are known too.", said));
    }
    for (const Unit& known : units)
        if (unit == known.name) {
            const double bytes = number * known.bytes;
            if (bytes < 1e15) return static_cast<std::int64_t>(bytes);
            throw std::invalid_argument("no machine has so much.");
        }
    throw std::invalid_argument(
        fmt::format("'{}' is no unit of memory that is known. There are MB, GB, MiB and GiB.", unit));
}

std::int64_t usual_memory() {
    const long pages = ::sysconf(_SC_PHYS_PAGES), size = ::sysconf(_SC_PAGE_SIZE);
    if (pages <= 0 || size <= 0) return 2'000'000'000;
    return static_cast<std::int64_t>(pages) * size / 4;
}

}  // namespace soilhold::cli
