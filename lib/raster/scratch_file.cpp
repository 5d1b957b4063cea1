#include "raster/scratch_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <limits>

#include "raster/atomic_file.h"

namespace soilhold::raster {

struct ScratchFile::Open {
    std::string folder;
    int file = -1;

    [[noreturn]] void fail(const char* what) const {
        throw WriteError(fmt::format("the scratch file in {} {}: {}", folder, what, std::strerror(errno)));
    }
};

ScratchFile::ScratchFile(const std::string& folder) : open_(std::make_unique<Open>()) {
    open_->folder = folder;
    open_->file = ::open(folder.c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, 0600);
    if (open_->file >= 0) return;
    std::string name = folder + "/soilhold-scratch-XXXXXX";
    open_->file = ::mkstemp(name.data());
    if (open_->file < 0) open_->fail("can't be written");
    ::unlink(name.c_str());
}

ScratchFile::~ScratchFile() {
    if (open_ && open_->file >= 0) ::close(open_->file);
}

ScratchFile::ScratchFile(ScratchFile&&) noexcept = default;
ScratchFile& ScratchFile::operator=(ScratchFile&& other) noexcept {
    std::swap(open_, other.open_);
    return *this;
}

terrain::ByteStore ScratchFile::store() const {
    const Open* const open = open_.get();
    return {[open](std::int64_t at, const void* bytes, std::size_t count) {
                for (std::size_t done = 0; done < count;) {
                    const ssize_t now = ::pwrite(open->file, static_cast<const char*>(bytes) + done, count - done,
                                                 at + static_cast<std::int64_t>(done));
                    if (now < 0 && errno == EINTR) continue;
                    if (now < 0) open->fail("can't be written");
                    done += static_cast<std::size_t>(now);
                }
            },
            [open](std::int64_t at, void* bytes, std::size_t count) {
                for (std::size_t done = 0; done < count;) {
                    const ssize_t now = ::pread(open->file, static_cast<char*>(bytes) + done, count - done,
                                                at + static_cast<std::int64_t>(done));
                    if (now < 0 && errno == EINTR) continue;
                    if (now == 0) errno = EIO;
                    if (now <= 0) open->fail("can't be read back");
                    done += static_cast<std::size_t>(now);
                }
            }};
}

std::string ScratchFile::path() const { return fmt::format("/proc/self/fd/{}", open_->file); }

std::string scratch_folder(const std::string& otherwise) {
    const char* const named = std::getenv("TMPDIR");
    return named && *named ? named : otherwise;
}

std::int64_t room_in(const std::string& folder) {
    struct statvfs facts {};
    if (::statvfs(folder.c_str(), &facts) != 0) return std::numeric_limits<std::int64_t>::max();
    return static_cast<std::int64_t>(facts.f_bavail) * static_cast<std::int64_t>(facts.f_frsize);
}

}  // namespace soilhold::raster
