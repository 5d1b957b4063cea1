// soilhold cite: the sources behind the figures, and how far each was seen.
#include <cstdio>

#include "options.h"
#include "report/citations.h"

namespace soilhold::cli {

Exit cite(const Options& options) {
    const report::CitationList found = report::find_citations(options.words);
    const std::string text = options.json ? report::citations_json(found) : report::citations_text(found);
    std::fputs(text.c_str(), stdout);
    if (found.empty()) std::fputs("No source has all of these words. 'soilhold cite' alone lists them all.\n", stderr);
    return found.empty() ? Exit::limit_not_met : Exit::done;
}

}  // namespace soilhold::cli
