/// What a page says, before it is known how large the paper is: sentences, bars and clods in the order they are read.
///
/// Paper and HTML are made from one content, so that they can't say different things. All numbers are words already.
#pragma once

#include <string>
#include <vector>

#include "change/comparison.h"
#include "report/clods.h"
#include "report/loss_bars.h"
#include "report/year_strips.h"
#include "units/unit.h"

namespace soilhold::report {

/// One passage: a heading, what is said first, a list, bars, clods, and what is said under them.
struct PagePart {
    std::string heading;
    std::vector<std::string> before;
    std::vector<std::string> list;
    LossBars bars;
    std::string bars_alt;
    YearPicture year;  ///< strips of the year; none when empty
    std::string year_alt;
    std::vector<std::vector<std::string>> year_table;  ///< the strips in figures, first row and column headings
    std::vector<ClodRow> clods;
    std::string clods_alt;
    bool clod_key = true;  ///< the classes explained under the clods
    std::vector<std::string> after;
    std::vector<std::string> remarks;  ///< how to read it, in the small size
    bool half = false;                 ///< may stand beside the next half part
};

struct PageContent {
    std::string headline;  ///< the one idea of the page
    std::string farm;
    std::vector<PagePart> parts;
    std::vector<std::string> cautions;
    std::string local_office, prepared_by, date, sources, maker;
    std::vector<std::string> names;  ///< the fields' names, as printed
};

/// How much may be said when room is short.
struct PageLimits {
    std::size_t changes = 4;
    std::size_t reasons = 6;
    std::size_t name_letters = 60;
    std::size_t note_letters = 200;
    std::size_t source_letters = 4000;
};

/// What a page is printed with, beside its numbers.
struct PageFacts {
    units::System system = units::System::us;
    std::string date;
    std::string program_version;
};

/// The foot that every page has: cautions, office, date, sources; the farm's name above.
void add_foot(PageContent& content, const std::vector<const loss::FieldEstimate*>& fields, const PageFacts& facts,
              const PageLimits& limits);

/// A pair: with its ratio when it is fair, and why not when it isn't.
PageContent content_of(const change::Comparison& comparison, const change::Pair& pair, const PageFacts& facts,
                       const PageLimits& limits);

/// One field alone. @throws std::out_of_range when there is no such field
PageContent content_of(const change::Comparison& comparison, std::size_t field, const PageFacts& facts,
                       const PageLimits& limits);

}  // namespace soilhold::report
