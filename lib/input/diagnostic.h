/// A user's mistakes, collected and reported together; each with its place, what was read, why it can't be right and
/// what would be.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace soilhold::input {

struct Place {
    std::string file;  ///< as given on the command line; "standard input" for -
    int line = 0;      ///< from 1; 0 unknown
    int column = 0;    ///< from 1, in letters
};

struct Diagnostic {
    Place place;
    std::string code;         ///< stable, in brackets at the end, listed in docs/messages.md: "no-unit"
    std::string text;         ///< a plain sentence or two
    std::string source_line;  ///< the line as it stands in the file, for the caret
};

/// All mistakes of the input; cli/ prints them with render() and exits 2.
class InputError : public std::runtime_error {
  public:
    explicit InputError(std::vector<Diagnostic> found)
        : std::runtime_error("the input can't be used"), diagnostics(std::move(found)) {}
    std::vector<Diagnostic> diagnostics;
};

/// file:line:column: text [code], the line, a caret under the column.
std::string render(const Diagnostic& diagnostic);

}  // namespace soilhold::input
