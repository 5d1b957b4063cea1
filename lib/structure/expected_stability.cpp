#include "structure/expected_stability.h"

#include <fmt/format.h>

#include <stdexcept>

#include "source/reference_table.h"
#include "structure/knots.h"
#include "structure/parameters.h"

namespace soilhold::structure {

namespace {

Knots suitable_rows(const char* by) {
    Knots knots;
    for (const source::Row& row : source::table("wsa-suitable").rows)
        if (row.text("by") == by) knots.emplace_back(row.number("percent"), row.number("suitable_pct"));
    return knots;
}

}  // namespace

const Knots& suitable_knots_by_clay() {
    static const Knots knots = suitable_rows("clay");
    return knots;
}

const Knots& suitable_knots_by_organic_matter() {
    static const Knots knots = suitable_rows("organic_matter");
    return knots;
}

double suitable_by_clay(double clay_pct) { return between_knots(suitable_knots_by_clay(), clay_pct); }

double suitable_by_organic_matter(double organic_matter_pct) {
    return between_knots(suitable_knots_by_organic_matter(), organic_matter_pct);
}

double management_offset(Credited credited, CountingMode mode, std::optional<double> rest_share) {
    const Parameters& p = parameters();
    if (mode == CountingMode::cover_only) return p.offset_tilled;
    if (rest_share) {
        if (!(*rest_share >= 0.0 && *rest_share <= 1.0))
            throw std::invalid_argument(fmt::format("a share of rest of {}: 0 to 1 is wanted", *rest_share));
        return p.offset_tilled + *rest_share * (p.offset_no_till - p.offset_tilled);
    }
    switch (credited) {
        case Credited::tilled:
            return p.offset_tilled;
        case Credited::reduced:
            return p.offset_reduced;
        case Credited::no_till:
            return p.offset_no_till;
    }
    throw std::invalid_argument("no such management");
}

double expected_stability(double clay_pct, double organic_matter_pct, Credited credited, CountingMode mode,
                          std::optional<double> rest_share) {
    for (const double percent : {clay_pct, organic_matter_pct})
        if (!(percent >= 0.0 && percent <= 100.0))
            throw std::invalid_argument(fmt::format("{} %: clay and organic matter lie between 0 and 100 %", percent));
    return 0.5 * (suitable_by_clay(clay_pct) + suitable_by_organic_matter(organic_matter_pct)) +
           management_offset(credited, mode, rest_share);
}

}  // namespace soilhold::structure
