#include "run.h"

#include <cstdio>
#include <exception>
#include <new>

#include "input/diagnostic.h"
#include "report/output.h"

namespace soilhold::cli {

namespace {

void print_mistakes(const input::InputError& error) {
    for (const auto& diagnostic : error.diagnostics) std::fputs(input::render(diagnostic).c_str(), stderr);
    std::fprintf(stderr, "%zu %s to mend; nothing was written.\n", error.diagnostics.size(),
                 error.diagnostics.size() == 1 ? "mistake" : "mistakes");
}

}  // namespace

int run_and_say(const std::function<Exit()>& run) {
    Exit exit = Exit::machine_failed;
    try {
        exit = run();
    } catch (const input::InputError& error) {
        print_mistakes(error);
        exit = Exit::bad_input;
    } catch (const report::OutputError& error) {
        std::fprintf(stderr, "soilhold: %s\n", error.what());
    } catch (const std::bad_alloc&) {
        std::fputs("soilhold: out of memory\n", stderr);
    } catch (const std::exception& error) {
        std::fprintf(
            stderr,
            "soilhold: a fault of the program, not of your file: %s\nPlease report it with the file that led to "
            "it.\n",
            error.what());
    }
    return static_cast<int>(exit);
}

Exit refuse_arguments(const char* why) {
    std::fprintf(stderr, "soilhold: %s [arguments]\nTry 'soilhold --help'.\n", why);
    return Exit::bad_input;
}

}  // namespace soilhold::cli
