/// Files that appear whole or not at all.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace soilhold::report {

/// The outside world's failure: a folder that isn't there, a full disk. Names the path and the system's reason.
class OutputError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// Writes the bytes beside the target, flushes them to the disk, and renames them into place: a reader sees the old
/// file or the new one, never a part. @throws OutputError; then nothing of ours is left behind
void write_whole(const std::string& path, std::string_view bytes);

struct Output {
    std::string path;
    std::string bytes;
};

/// Several files: all are written beside their targets before the first is renamed.
void write_all(const std::vector<Output>& outputs);

}  // namespace soilhold::report
