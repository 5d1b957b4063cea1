#include "interrupt.h"

#include <csignal>

namespace soilhold::cli {

namespace {

// A signal handler can reach nothing but what stands outside of all functions.
volatile std::sig_atomic_t came = 0;

void leave_word(int signal) { came = signal; }

}  // namespace

void hold_back_interrupts() {
    std::signal(SIGINT, leave_word);
    std::signal(SIGTERM, leave_word);
}

int interrupted_by() { return came; }

}  // namespace soilhold::cli
