/// The tree of a YAML text built from yaml-cpp's events, which carry the places that its own nodes lose.
///
/// Used by yaml_document.cpp alone. Columns are in bytes here; the document counts them in letters afterwards.
#pragma once

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/mark.h>

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "input/yaml_document.h"

namespace soilhold::input {

inline constexpr std::size_t most_levels = 32;
inline constexpr std::size_t most_pieces = 100'000;
inline constexpr std::size_t most_keys = 500;  // of one mapping; each new key is held against those before it

/// A mistake after which the rest of the text can't be read.
struct Stop {
    YAML::Mark mark;
    std::string code;
    std::string text;
};

struct Duplicate {
    Position first;
    YAML::Mark mark;
    std::string key;
};

/// Builds the tree from yaml-cpp's events, which carry marks that its own nodes lose.
class TreeBuilder : public YAML::EventHandler {
  public:
    Node root;
    bool any = false;
    std::vector<Duplicate> duplicates;

    YAML::Mark start;

    void OnDocumentStart(const YAML::Mark& mark) override { start = mark; }
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override { scalar(mark, "?", anchor, ""); }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
        throw Stop{mark, "alias",
                   "An alias (*name) stands here. Field files don't take anchors and aliases: write the "
                   "value again, or put what the fields share under 'place:'"};
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override {
        scalar(mark, tag, anchor, value);
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value) override {
        open(mark, tag, anchor, Node::Kind::list);
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value) override {
        open(mark, tag, anchor, Node::Kind::mapping);
    }
    void OnMapEnd() override { close(); }

    /// Where the innermost list or section opened that is still open.
    std::optional<YAML::Mark> open_since() const {
        if (levels_.empty()) return std::nullopt;
        YAML::Mark mark;
        mark.line = levels_.back().node.at.line - 1;
        mark.column = levels_.back().node.at.column - 1;
        return mark;
    }

  private:
    struct Level {
        Node node;
        std::string key;
        Position key_at;
        bool key_waits = false;
    };
    std::vector<Level> levels_;
    std::size_t pieces_ = 0;

    static Position at(const YAML::Mark& mark) { return {mark.line + 1, mark.column + 1}; }

    bool key_comes() const { return !levels_.empty() && levels_.back().node.is_mapping() && !levels_.back().key_waits; }

    void plain(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
        if (anchor != 0)
            throw Stop{mark, "alias",
                       "An anchor (&name) stands here. Field files don't take anchors and aliases: put "
                       "what the fields share under 'place:'"};
        if (!tag.empty() && tag != "?" && tag != "!")
            throw Stop{mark, "tag", fmt::format("The tag '{}' stands here. Field files don't take tags", tag)};
        if (++pieces_ > most_pieces)
            throw Stop{mark, "too-large", "The file holds more than 100000 pieces; split it into several files"};
    }

    void scalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, const std::string& value) {
        plain(mark, tag, anchor);
        if (key_comes()) {
            Level& level = levels_.back();
            if (level.node.entries.size() >= most_keys)
                throw Stop{mark, "too-large", fmt::format("One section holds more than {} keys here", most_keys)};
            for (const Entry& entry : level.node.entries)
                if (entry.key == value) duplicates.push_back({entry.at, mark, value});
            level.key = value;
            level.key_at = at(mark);
            level.key_waits = true;
            return;
        }
        Node node;
        node.at = at(mark);
        node.text = value;
        node.quoted = tag == "!";
        place(std::move(node));
    }

    void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, Node::Kind kind) {
        plain(mark, tag, anchor);
        if (key_comes())
            throw Stop{mark, "key", "A list or a mapping stands where a key belongs; a key is a word and a colon"};
        if (levels_.size() >= most_levels)
            throw Stop{mark, "too-deep",
                       fmt::format("Brackets and sections are nested deeper than {} levels here; a "
                                   "field file needs six",
                                   most_levels)};
        Level level;
        level.node.kind = kind;
        level.node.at = at(mark);
        levels_.push_back(std::move(level));
    }

    void close() {
        Node done = std::move(levels_.back().node);
        levels_.pop_back();
        place(std::move(done));
    }

    void place(Node node) {
        any = true;
        if (levels_.empty()) {
            root = std::move(node);
            return;
        }
        Level& level = levels_.back();
        if (level.node.is_list()) {
            level.node.items.push_back(std::move(node));
        } else {
            // A blank value has no place of its own: its mark is that of what follows.
            if (node.is_scalar() && node.text.empty() && !node.quoted) node.at = level.key_at;
            level.node.entries.push_back({level.key, level.key_at, std::move(node)});
            level.key_waits = false;
        }
    }
};

}  // namespace soilhold::input
