#include "progress_line.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <string>

namespace soilhold::cli {

ProgressLine::ProgressLine(bool wanted)
    : shown_(wanted && ::isatty(STDERR_FILENO) == 1), start_(std::chrono::steady_clock::now()) {}

ProgressLine::~ProgressLine() {
    if (shown_) std::fputs("\r                                        \r", stderr);
}

void ProgressLine::reached(double share) {
    if (!shown_) return;
    const double spent = std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
    std::string line = fmt::format("{:3.0f} % done", 100 * share);
    if (share > 0.1) {
        const double left = spent * (1 - share) / share;
        line += left < 100 ? fmt::format(", about {:.0f} s left", std::ceil(left))
                           : fmt::format(", about {:.0f} min left", std::ceil(left / 60));
    }
    std::fputs(fmt::format("\r{:<38}", line).c_str(), stderr);
    std::fflush(stderr);
}

}  // namespace soilhold::cli
