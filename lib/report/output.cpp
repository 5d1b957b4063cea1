#include "report/output.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

namespace soilhold::report {

namespace {

/// A finished temporary file that vanishes unless it is put in place.
class Pending {
  public:
    Pending(const std::string& path, std::string_view bytes) : path_(path), temporary_(path + ".XXXXXX") {
        const int file = mkstemp(temporary_.data());
        if (file < 0) fail("can't be written");
        for (std::size_t done = 0; done < bytes.size();) {
            const ssize_t n = ::write(file, bytes.data() + done, bytes.size() - done);
            if (n < 0 && errno == EINTR) continue;
            if (n < 0) {
                const int why = errno;
                ::close(file);
                ::unlink(temporary_.c_str());
                errno = why;
                fail("could not be written whole");
            }
            done += static_cast<std::size_t>(n);
        }
        // mkstemp makes files for the owner alone; a page is for others too, as far as the umask lets it.
        const mode_t mask = ::umask(0);
        ::umask(mask);
        const bool kept = ::fchmod(file, 0666 & ~mask) == 0 && ::fsync(file) == 0;
        const int why = errno;
        if (::close(file) != 0 || !kept) {
            ::unlink(temporary_.c_str());
            errno = why;
            fail("could not be flushed to the disk");
        }
    }
    Pending(Pending&& other) noexcept : path_(std::move(other.path_)), temporary_(std::move(other.temporary_)) {
        other.temporary_.clear();
    }
    Pending(const Pending&) = delete;
    Pending& operator=(const Pending&) = delete;
    Pending& operator=(Pending&&) = delete;
    ~Pending() {
        if (!temporary_.empty()) ::unlink(temporary_.c_str());
    }
    void put_in_place() {
        if (std::rename(temporary_.c_str(), path_.c_str()) != 0) fail("could not be put in place");
        temporary_.clear();
    }

  private:
    [[noreturn]] void fail(const char* what) const {
        throw OutputError(fmt::format("{} {}: {}", path_, what, std::strerror(errno)));
    }
    std::string path_, temporary_;
};

}  // namespace

void write_whole(const std::string& path, std::string_view bytes) { Pending(path, bytes).put_in_place(); }

void write_all(const std::vector<Output>& outputs) {
    std::vector<Pending> pending;
    pending.reserve(outputs.size());
    for (const Output& output : outputs) pending.emplace_back(output.path, output.bytes);
    for (Pending& one : pending) one.put_in_place();
}

}  // namespace soilhold::report
