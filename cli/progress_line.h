/// How far long work is, on a terminal's standard error: one line that is written over, and goes at the end.
#pragma once

#include <chrono>

namespace soilhold::cli {

class ProgressLine {
  public:
    /// @param wanted  false: nothing is ever printed; nor is it where standard error is no terminal
    explicit ProgressLine(bool wanted);
    ~ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;
    /// @param share  done, 0 to 1
    void reached(double share);

  private:
    bool shown_;
    std::chrono::steady_clock::time_point start_;
};

}  // namespace soilhold::cli
