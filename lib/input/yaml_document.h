/// A YAML text as a plain tree whose every piece knows its line and column; the only place that meets yaml-cpp.
///
/// Stricter than YAML, because a field file is written by hand and read by others: keys that stand twice, anchors and
/// aliases, tags, tabs as indentation, several documents, control characters and bytes that are no UTF-8 are mistakes.
/// Nothing is converted: every scalar stays the text that was written, so map unit 1E2 stays 1E2 and NO stays NO.
/// Costs one pass over the text; at most 1 MB, 32 levels deep and 100 000 pieces.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "input/diagnostic.h"

namespace soilhold::input {

struct Position {
    int line = 0;    ///< from 1; 0 when there is none
    int column = 0;  ///< from 1, in letters
};

struct Entry;

/// A scalar, a list or a mapping.
struct Node {
    enum class Kind { scalar, list, mapping } kind = Kind::scalar;
    Position at;
    std::string text;     ///< of a scalar, as written
    bool quoted = false;  ///< "" and '' are text even when they are empty
    std::vector<Node> items;
    std::vector<Entry> entries;

    bool is_scalar() const { return kind == Kind::scalar; }
    bool is_list() const { return kind == Kind::list; }
    bool is_mapping() const { return kind == Kind::mapping; }
    /// Nothing was written: `key:` with nothing behind it, ~ or null.
    bool blank() const;
};

struct Entry {
    std::string key;
    Position at;
    Node value;
};

/// One text with its tree, and the mistakes found in it so far.
class Document {
  public:
    /// @throws InputError when the text is no YAML that a field file may hold; duplicate keys are collected instead
    Document(std::string_view text, std::string file_name);

    const Node& root() const { return root_; }
    const std::string& file() const { return file_; }
    Place place(Position at) const { return {file_, at.line, at.column}; }
    std::string source_line(int line) const;

    /// Notes a mistake, once for each place and code. Line breaks and control characters in the sentence become spaces.
    /// @throws InputError when a hundred have been found: the file is of another kind
    void mistake(Position at, std::string code, std::string_view text);
    /// Takes over the mistakes of a file that this one points to.
    void adopt(const std::vector<Diagnostic>& mistakes);
    /// "bench.yaml:12:9"
    std::string where(Position at) const;
    const std::vector<Diagnostic>& mistakes() const { return mistakes_; }

  private:
    void check_bytes();
    void parse();
    int letters_before(int line, int byte_column) const;

    std::string file_;
    std::string text_;
    std::vector<std::size_t> line_starts_;
    Node root_;
    std::vector<Diagnostic> mistakes_;
};

/// Sentence with control characters made spaces and cut to a length people read.
std::string readable(std::string_view text, std::size_t most = 900);

}  // namespace soilhold::input
