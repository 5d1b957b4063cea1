/// The sources behind the figures, listed and searched.
#pragma once

#include <string>
#include <vector>

#include "source/citation.h"

namespace soilhold::report {

using CitationList = std::vector<source::Citation>;

/// Records that hold every word, in any of their parts; capitals don't count. No words: all.
CitationList find_citations(const std::vector<std::string>& words);

/// Key and standing, the full source, what was and wasn't seen; 80 columns.
std::string citations_text(const CitationList& list);

/// An array of {key, short, source, standing, note}.
std::string citations_json(const CitationList& list);

}  // namespace soilhold::report
