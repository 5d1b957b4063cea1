#include "input/yaml_document.h"

#include <fmt/format.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <optional>
#include <sstream>
#include <utility>

#include "input/text_bytes.h"
#include "input/yaml_events.h"

namespace soilhold::input {

namespace {

constexpr std::size_t most_bytes = 1'000'000;
constexpr std::size_t most_mistakes = 100;

/// Gives every place of the tree its column in letters.
template <typename Letters>
void count_letters(Node& node, const Letters& letters) {
    node.at.column = letters(node.at.line, node.at.column);
    for (Node& item : node.items) count_letters(item, letters);
    for (Entry& entry : node.entries) {
        entry.at.column = letters(entry.at.line, entry.at.column);
        count_letters(entry.value, letters);
    }
}

bool never_closed(const std::string& message) {
    return message.find("end of sequence flow") != std::string::npos ||
           message.find("end of map flow") != std::string::npos;
}

/// The parser's own words, without the jargon where we know better.
std::string plain_words(const std::string& message) {
    if (message.find("end of map not found") != std::string::npos)
        return "Here the file stops making sense as YAML. Check that this line is indented like its neighbours, that "
               "every key ends in a colon and a space, and that brackets and quotation marks are closed";
    if (message.find("illegal map value") != std::string::npos)
        return "This line is indented differently from its neighbours, or a second colon stands on it. Indent it like "
               "them; put a value that holds a colon in quotation marks";
    if (never_closed(message))
        return "The bracket that opens here is not closed, or a comma or a quotation mark is missing behind it";
    return fmt::format("This is not YAML: {}", message);
}

}  // namespace

bool Node::blank() const {
    return is_scalar() && !quoted &&
           (text.empty() || text == "~" || text == "null" || text == "Null" || text == "NULL");
}

std::string readable(std::string_view text, std::size_t most) {
    std::string result;
    for (const char c : text) {
        if (result.size() >= most && (static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
            result += "...";
            break;
        }
        result += static_cast<unsigned char>(c) < 0x20U || c == 0x7f ? ' ' : c;
    }
    return result;
}

Document::Document(std::string_view text, std::string file_name) : file_(std::move(file_name)) {
    if (text.size() > most_bytes)
        throw InputError({{place({}), "too-large",
                           fmt::format("The file is {} bytes; a field file has at most {}. Is it the right file?",
                                       text.size(), most_bytes),
                           ""}});
    text_ = with_line_feeds(text);
    line_starts_.push_back(0);
    for (std::size_t i = 0; i < text_.size(); ++i)
        if (text_[i] == '\n') line_starts_.push_back(i + 1);
    check_bytes();
    parse();
}

void Document::check_bytes() {
    if (const auto wrong = first_wrong_byte(text_)) {
        const auto line =
            std::upper_bound(line_starts_.begin(), line_starts_.end(), wrong->offset) - line_starts_.begin();
        const std::size_t start = line_starts_[static_cast<std::size_t>(line - 1)];
        const Position at{static_cast<int>(line),
                          letters_before(static_cast<int>(line), static_cast<int>(wrong->offset - start) + 1)};
        throw InputError({{place(at), wrong->code, wrong->text, wrong->show_line ? source_line(at.line) : ""}});
    }
}

void Document::parse() {
    TreeBuilder builder;
    const auto letters = [this](int line, int column) { return letters_before(line, column); };
    const auto stop = [&](const YAML::Mark& mark, std::string code, const std::string& sentence) {
        Position at{mark.line + 1, mark.column + 1};
        if (at.line < 1) at = {};
        at.column = letters(at.line, at.column);
        mistake(at, std::move(code), sentence);
        throw InputError(mistakes_);
    };
    try {
        std::istringstream stream(text_);
        YAML::Parser parser(stream);
        parser.HandleNextDocument(builder);
        if (!builder.any || builder.root.blank())
            throw InputError({{place({}), "empty", "The file is empty: no field is described in it", ""}});
        TreeBuilder second;
        if (parser.HandleNextDocument(second))
            throw Stop{second.start, "several-documents",
                       "The file holds several documents, set apart by ---. Keep one; a file may list many fields "
                       "under 'fields:'"};
    } catch (const Stop& found) {
        stop(found.mark, found.code, found.text);
    } catch (const YAML::Exception& error) {
        const YAML::Mark mark = never_closed(error.msg) ? builder.open_since().value_or(error.mark) : error.mark;
        stop(mark, "yaml", plain_words(error.msg));
    }
    root_ = std::move(builder.root);
    count_letters(root_, letters);
    for (const Duplicate& twice : builder.duplicates) {
        const int line = twice.mark.line + 1;
        mistake({line, letters(line, twice.mark.column + 1)}, "twice",
                fmt::format("'{}' stands here a second time; the first is in line {}. Keep one of them", twice.key,
                            twice.first.line));
    }
}

int Document::letters_before(int line, int byte_column) const {
    if (line < 1 || static_cast<std::size_t>(line) > line_starts_.size()) return byte_column;
    const std::size_t start = line_starts_[static_cast<std::size_t>(line - 1)];
    int column = 1;
    for (int i = 0; i + 1 < byte_column && start + static_cast<std::size_t>(i) < text_.size(); ++i)
        if ((static_cast<unsigned char>(text_[start + static_cast<std::size_t>(i)]) & 0xC0U) != 0x80U) ++column;
    return column;
}

std::string Document::source_line(int line) const {
    if (line < 1 || static_cast<std::size_t>(line) > line_starts_.size()) return {};
    const std::size_t start = line_starts_[static_cast<std::size_t>(line - 1)];
    const std::size_t end = std::min(text_.find('\n', start), text_.size());
    constexpr std::size_t longest_shown = 240;
    return end - start > longest_shown ? std::string() : text_.substr(start, end - start);
}

void Document::mistake(Position at, std::string code, std::string_view text) {
    const std::string sentence = readable(text);
    const bool known = std::any_of(mistakes_.begin(), mistakes_.end(), [&](const Diagnostic& earlier) {
        return earlier.place.line == at.line && earlier.place.column == at.column && earlier.code == code &&
               earlier.place.file == file_ && earlier.text == sentence;
    });
    if (known) return;
    mistakes_.push_back({place(at), std::move(code), sentence, source_line(at.line)});
    if (mistakes_.size() < most_mistakes) return;
    mistakes_.push_back(
        {place({}), "too-many",
         fmt::format("{} mistakes were found, and the rest was not read. Is this a field file?", most_mistakes), ""});
    throw InputError(mistakes_);
}

void Document::adopt(const std::vector<Diagnostic>& mistakes) {
    mistakes_.insert(mistakes_.end(), mistakes.begin(), mistakes.end());
}

std::string Document::where(Position at) const {
    return at.line > 0 ? fmt::format("{}:{}:{}", file_, at.line, at.column) : file_;
}

}  // namespace soilhold::input
