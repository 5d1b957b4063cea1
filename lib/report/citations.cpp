#include "report/citations.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <nlohmann/json.hpp>

#include "report/columns.h"

namespace soilhold::report {

namespace {

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

}  // namespace

CitationList find_citations(const std::vector<std::string>& words) {
    CitationList found;
    for (const source::Citation& record : source::all_citations()) {
        const std::string whole = lower(fmt::format("{} {} {} {} {}", record.key, record.short_form, record.text,
                                                    source::words_for(record.standing), record.note));
        if (std::all_of(words.begin(), words.end(),
                        [&](const std::string& word) { return whole.find(lower(word)) != std::string::npos; }))
            found.push_back(record);
    }
    return found;
}

std::string citations_text(const CitationList& list) {
    std::string text;
    for (const source::Citation& record : list) {
        text += wrapped(fmt::format("{}: {} [{}]", record.key, record.short_form, source::words_for(record.standing)),
                        "", "  ");
        text += wrapped(record.text, "  ", "  ");
        if (!record.note.empty()) text += wrapped(record.note, "  ", "  ");
    }
    return text;
}

std::string citations_json(const CitationList& list) {
    nlohmann::ordered_json json = nlohmann::ordered_json::array();
    for (const source::Citation& record : list)
        json.push_back({{"key", record.key},
                        {"short", record.short_form},
                        {"source", record.text},
                        {"standing", source::words_for(record.standing)},
                        {"note", record.note}});
    return json.dump(2) + "\n";
}

}  // namespace soilhold::report
