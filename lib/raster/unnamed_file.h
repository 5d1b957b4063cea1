/// A file that has no name until it is whole.
///
/// It is written in the folder of its target without a name (Linux's O_TMPFILE), flushed to the disk, and only then
/// given the target's name: a reader sees the old file or the new one, and a program that is killed leaves nothing
/// behind. Where an older file stands in the way it has a name beside the target's for the moment between two calls of
/// the system. Where the file system can't make files without names (some network shares), it is written under such a
/// name, which stays behind when the program is killed.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace soilhold::raster {

/// The outside world's failure: a full disk, a folder that isn't there. Names the path and the reason; nothing of ours
/// is left behind. cli/ treats it as report::OutputError.
class WriteError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

class UnnamedFile {
  public:
    /// @throws WriteError where nothing can be written in the folder of the target
    explicit UnnamedFile(const std::string& target);
    /// Goes, unless it was put in place.
    ~UnnamedFile();
    UnnamedFile(const UnnamedFile&) = delete;
    UnnamedFile& operator=(const UnnamedFile&) = delete;

    /// How to open it, for as long as it lives.
    const std::string& name() const { return name_; }
    /// Whether it stands in the folder under a name of its own.
    bool named() const { return named_; }

    /// Puts bytes at its end. @throws WriteError
    void append(std::string_view bytes);
    /// What is written so far goes to the disk while more is made; it is no promise.
    void start_flushing() const;
    /// @throws WriteError
    void flush();
    /// Gives it the target's name, after flush(). An older file's statistics and overviews beside the target go, since
    /// they would be taken for the new one's. @throws WriteError
    void put_in_place();

  private:
    bool give_name();
    [[noreturn]] void fail(const char* what) const;

    std::string target_, name_;
    int file_ = -1;
    bool named_ = false;
};

}  // namespace soilhold::raster
