#include "raster/unnamed_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace soilhold::raster {

namespace {

std::string folder_of(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? "." : slash == 0 ? "/" : path.substr(0, slash);
}

}  // namespace

void UnnamedFile::fail(const char* what) const {
    throw WriteError(fmt::format("{} {}: {}", target_, what, std::strerror(errno)));
}

UnnamedFile::UnnamedFile(const std::string& target) : target_(target) {
    file_ = ::open(folder_of(target).c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, 0666);
    if (file_ >= 0) {
        name_ = fmt::format("/proc/self/fd/{}", file_);
        if (::access(name_.c_str(), W_OK) == 0) return;
        ::close(file_);
    }
    name_ = target + ".XXXXXX";
    file_ = ::mkostemp(name_.data(), O_CLOEXEC);
    if (file_ < 0) fail("can't be written");
    named_ = true;
}

UnnamedFile::~UnnamedFile() {
    ::close(file_);
    if (!named_) return;
    // GDAL leaves what it could not put into the file beside it.
    for (const char* ending : {"", ".aux.xml", ".ovr", ".msk"}) ::unlink((name_ + ending).c_str());
}

void UnnamedFile::append(std::string_view bytes) {
    for (std::size_t done = 0; done < bytes.size();) {
        const ssize_t now = ::write(file_, bytes.data() + done, bytes.size() - done);
        if (now < 0 && errno == EINTR) continue;
        if (now < 0) fail("could not be written whole");
        done += static_cast<std::size_t>(now);
    }
}

void UnnamedFile::start_flushing() const { ::sync_file_range(file_, 0, 0, SYNC_FILE_RANGE_WRITE); }

void UnnamedFile::flush() {
    // A map is for others too, as far as the umask lets it.
    const mode_t mask = ::umask(0);
    ::umask(mask);
    if (::fchmod(file_, 0666 & ~mask) != 0 || ::fsync(file_) != 0) fail("could not be flushed to the disk");
}

void UnnamedFile::put_in_place() {
    if (!named_ && !give_name()) fail("could not be put in place");
    if (named_ && std::rename(name_.c_str(), target_.c_str()) != 0) fail("could not be put in place");
    if (named_) ::unlink((name_ + ".aux.xml").c_str());
    named_ = false;
    for (const char* ending : {".aux.xml", ".ovr", ".msk"}) ::unlink((target_ + ending).c_str());
}

/// The target's own name where that is free, else one beside it: a name can't be given over another's head.
bool UnnamedFile::give_name() {
    if (::linkat(AT_FDCWD, name_.c_str(), AT_FDCWD, target_.c_str(), AT_SYMLINK_FOLLOW) == 0) return true;
    for (int attempt = 0; errno == EEXIST && attempt < 100; ++attempt) {
        const std::string beside = fmt::format("{}.{}-{}", target_, ::getpid(), attempt);
        if (::linkat(AT_FDCWD, name_.c_str(), AT_FDCWD, beside.c_str(), AT_SYMLINK_FOLLOW) != 0) continue;
        name_ = beside;
        named_ = true;
        return true;
    }
    return false;
}

}  // namespace soilhold::raster
