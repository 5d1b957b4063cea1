/// One section of a field file, read key by key; what can't be read becomes a mistake of the document.
///
/// A section may have a second mapping behind it, that of `place:`, which holds for every key that the field leaves
/// out.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "input/yaml_document.h"
#include "source/citation.h"
#include "source/remark.h"

namespace soilhold::input {

/// Where reading stands: the document, whose figures are taken by default, and what was noticed.
struct Reader {
    Document& document;
    std::string default_from;  ///< "field file bench.yaml"
    source::Remarks& remarks;

    void note(Position at, std::string code, std::string_view text) const;
    void caution(Position at, std::string code, std::string_view text) const;
    void mistake(Position at, std::string code, std::string_view text) const;
};

class Section {
  public:
    /// @param own       the section of the field, or nullptr
    /// @param fallback  the section of `place:`, or nullptr
    /// Keys that `name` does not know become mistakes, with the one that was probably meant.
    Section(const Reader& reader, std::string_view name, const Node* own, const Node* fallback = nullptr);

    const Reader& reader() const { return *reader_; }
    Position at() const;

    /// The value of a key, or nullptr when it is not there or blank (blank is a mistake).
    const Node* find(std::string_view key) const;
    /// Whether the key was written at all, even if its value can't be used.
    bool has(std::string_view key) const { return holder_of(key) != nullptr; }
    /// Whether the field itself, not `place:`, says it.
    bool own(std::string_view key) const;

    std::optional<std::string> text(std::string_view key) const;
    std::optional<bool> yes_no(std::string_view key) const;
    /// One of the words, in lower case; anything else is a mistake that lists them.
    std::optional<std::string> word(std::string_view key, std::span<const std::string_view> words) const;
    /// Whose figure a value is: its own `from`, the section's, or the file.
    source::Origin origin(const Node& value, std::string_view key) const;

  private:
    void check_keys(const Node* mapping, std::string_view name) const;
    const Node* holder_of(std::string_view key) const;

    const Reader* reader_;
    const Node* own_ = nullptr;
    const Node* fallback_ = nullptr;
};

/// The entry of a mapping, or nullptr. Takes any node.
const Entry* entry_of(const Node* mapping, std::string_view key);

/// The text of a scalar as people mean it: trimmed. A list, a mapping or "NA" is a mistake.
std::optional<std::string> scalar_text(const Reader& reader, const Node& node, std::string_view key);

/// yes, no, true, false, on, off in any case.
std::optional<bool> yes_no_of(const Reader& reader, const Node& node, std::string_view key);

std::string lower_case(std::string_view text);
std::string joined(std::span<const std::string_view> words);

}  // namespace soilhold::input
