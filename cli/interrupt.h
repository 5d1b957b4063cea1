/// Ctrl-C and the end of a session, for work that has files to take away before it ends.
#pragma once

namespace soilhold::cli {

/// From now on SIGINT and SIGTERM only leave word, until the program ends.
void hold_back_interrupts();

/// The signal that came, or 0.
int interrupted_by();

}  // namespace soilhold::cli
