/// Runs the program as a user would, and keeps what it said.
#pragma once

#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

extern char** environ;

namespace soilhold::program {

struct Outcome {
    int exit_code = -1;
    std::string out, err;
};

inline std::string slurp(const std::string& path) {
    std::ifstream stream(path, std::ios::binary);
    std::stringstream text;
    text << stream.rdbuf();
    return text.str();
}

/// A fresh folder that goes when the test does.
class Folder {
  public:
    Folder() {
        char name[] = "/tmp/soilhold-test-XXXXXX";
        path = mkdtemp(name);
    }
    ~Folder() { std::system(("rm -rf " + path).c_str()); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string path;
};

/// @param input  what stands on standard input
inline Outcome run(const std::vector<std::string>& arguments, const std::string& input = "") {
    Folder folder;
    const std::string in = folder.path + "/in", out = folder.path + "/out", err = folder.path + "/err";
    std::ofstream(in, std::ios::binary) << input;
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, in.c_str(), 0, 0);
    posix_spawn_file_actions_addopen(&actions, 1, out.c_str(), 01101, 0600);  // write, create, truncate
    posix_spawn_file_actions_addopen(&actions, 2, err.c_str(), 01101, 0600);
    std::vector<std::string> words = {SOILHOLD_PROGRAM};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    pid_t child = 0;
    Outcome result;
    if (posix_spawn(&child, SOILHOLD_PROGRAM, &actions, nullptr, argv.data(), environ) == 0) {
        int status = 0;
        waitpid(child, &status, 0);
        result.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    }
    posix_spawn_file_actions_destroy(&actions);
    result.out = slurp(out);
    result.err = slurp(err);
    return result;
}

}  // namespace soilhold::program
