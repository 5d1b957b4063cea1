/// What a grid larger than memory is kept in while it is worked: a file without a name, which is gone when it is closed
/// or the program is killed.
///
/// Where the file system can't make a file without a name, it has one for a moment. GDAL can use it by path().
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "terrain/stored_grid.h"

namespace soilhold::raster {

class ScratchFile {
  public:
    /// @throws WriteError where nothing can be written in the folder
    explicit ScratchFile(const std::string& folder);
    ~ScratchFile();
    ScratchFile(ScratchFile&&) noexcept;
    ScratchFile& operator=(ScratchFile&&) noexcept;

    /// Its bytes, for as long as it lives. They throw WriteError: a full disk, a disk that fails.
    terrain::ByteStore store() const;
    /// How to open it a second time, for as long as it lives.
    std::string path() const;

  private:
    struct Open;
    std::unique_ptr<Open> open_;
};

/// Where scratch files go: the folder that TMPDIR names, else the one given.
std::string scratch_folder(const std::string& otherwise);

/// Bytes that can still be written in a folder; the most there is where nobody knows.
std::int64_t room_in(const std::string& folder);

}  // namespace soilhold::raster
