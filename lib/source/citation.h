/// Where a number comes from, and how far that source was seen.
///
/// Every value a user meets carries an Origin; data/reference/citations.csv holds the records its `citation` names.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace soilhold::source {

/// How well a figure is backed. A page or table never shows `from_memory` as if it were quoted.
enum class Standing {
    read_in_source,   ///< the figure or equation was read in the source named
    from_memory,      ///< recalled, not re-read: "from memory, check the source"
    our_assumption,   ///< no source: a choice of this project
    users_figure,     ///< the person who wrote the field file says so
    computed,         ///< follows by arithmetic from other values shown
    common_practice,  ///< a habit of the trade without a source
};

/// "read in the source", "from memory, check the source", "our assumption", ...
std::string_view words_for(Standing standing);

/// Parses the words used in the `standing` columns of data/reference ("read", "memory", "assumption", "practice",
/// "computed"). @throws std::runtime_error on anything else.
Standing standing_from(std::string_view word);

/// Whose figure a value is.
struct Origin {
    std::string from;      ///< in plain words: "county sheet of the local office", "nomograph equation"
    std::string citation;  ///< key of data/reference/citations.csv, or empty for the user's own figures
    Standing standing = Standing::users_figure;
    bool operator==(const Origin&) const = default;
};

/// One record of data/reference/citations.csv.
struct Citation {
    std::string key;         ///< "ah703-eq-4-4"
    std::string short_form;  ///< "AH 703 eq. 4-4"
    std::string text;        ///< the full reference
    Standing standing = Standing::from_memory;
    std::string note;  ///< where it was seen, what was not
};

const std::vector<Citation>& all_citations();

/// The record of a key. @throws std::out_of_range when there is none (our bug: a test looks up every key).
const Citation& citation(std::string_view key);

/// An origin that quotes a record: from = its short form, standing = its standing.
Origin origin_of(std::string_view citation_key);

}  // namespace soilhold::source
