/// The habits that every command shares, as read from the command line.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "units/unit.h"

namespace soilhold::cli {

/// 0 done, 1 finished but a requested limit was not met, 2 the input can't be used, 3 the machine failed.
enum class Exit { done = 0, limit_not_met = 1, bad_input = 2, machine_failed = 3 };

struct Options {
    std::vector<std::string> files;  ///< "-" is standard input
    std::vector<std::string> words;  ///< what cite looks for; the quantity and inputs of factor
    std::string table;               ///< rows that factor is to work
    bool list = false;               ///< list the quantities that factor knows
    bool all = false;                ///< every method of a factor side by side
    bool json = false;
    bool csv = false;
    bool explain = false;  ///< print the working behind each value
    bool quiet = false;
    units::System units = units::System::us;
    std::string out;  ///< where the page goes: NAME makes NAME.pdf and NAME.html; a name with an ending makes that one
    std::string at_most;  ///< a loss, or "T": exit 1 when a field loses more
    std::string paper;    ///< "letter" or "A4"
    std::uint64_t seed = 1;
    std::size_t draws = 8192;
};

Exit estimate(const Options& options);
Exit compare(const Options& options);
Exit cite(const Options& options);
Exit factor(const Options& options);

}  // namespace soilhold::cli
