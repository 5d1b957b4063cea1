/// Runs the program as a user would, and keeps what it said.
#pragma once

#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <sstream>
#include <stdexcept>
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

/// Starts the program, sends it a signal after a while, and waits for its end; what it says is dropped.
/// @return whether the signal ended it
inline bool run_and_send(std::vector<std::string> words, int signal, double after_s) {
    words.insert(words.begin(), SOILHOLD_PROGRAM);
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", 01, 0);
    posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", 01, 0);
    pid_t child = 0;
    const bool started = posix_spawn(&child, SOILHOLD_PROGRAM, &actions, nullptr, argv.data(), environ) == 0;
    posix_spawn_file_actions_destroy(&actions);
    if (!started) throw std::runtime_error("the program could not be started");
    usleep(static_cast<useconds_t>(after_s * 1e6));
    kill(child, signal);
    int status = 0;
    waitpid(child, &status, 0);
    return WIFSIGNALED(status);
}

/// Whether a JSON text fits a schema of docs/; nothing where python3 has no jsonschema to tell.
inline std::optional<bool> fits_schema(const std::string& json, const std::string& schema) {
    if (std::system("python3 -c 'import jsonschema' 2>/dev/null") != 0) return std::nullopt;
    const Folder folder;
    std::ofstream(folder.path + "/result.json") << json;
    const std::string check =
        "python3 -c \"import json, sys, jsonschema; "
        "jsonschema.Draft7Validator(json.load(open(sys.argv[1]))).validate(json.load(open(sys.argv[2])))\" "
        "'" SOILHOLD_ROOT "/docs/" +
        schema + "' '" + folder.path + "/result.json'";
    return std::system(check.c_str()) == 0;
}

}  // namespace soilhold::program
