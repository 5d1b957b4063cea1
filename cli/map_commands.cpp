#include "map_commands.h"

#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>

namespace soilhold::cli {

Exit hand_over_to_maps(char** argv) {
    std::array<char, 4096> name{};
    const ssize_t length = ::readlink("/proc/self/exe", name.data(), name.size() - 1);
    std::string path = length > 0 ? std::string(name.data(), static_cast<std::size_t>(length)) : std::string(argv[0]);
    const std::size_t slash = path.rfind('/');
    path = (slash == std::string::npos ? std::string() : path.substr(0, slash + 1)) + "soilhold-maps";
    ::execv(path.c_str(), argv);
    std::fprintf(stderr,
                 "soilhold: %s can't be started: %s.\nThe commands on maps need that program beside soilhold; "
                 "was only one of the two installed?\n",
                 path.c_str(), std::strerror(errno));
    return Exit::machine_failed;
}

}  // namespace soilhold::cli
