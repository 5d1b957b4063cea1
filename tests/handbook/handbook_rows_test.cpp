// Every row of the six files of handbook figures, one test each: reproduced within its printed precision, or excepted
// in tests/handbook/exceptions.csv with the reason.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <set>

#include "factors/quantities.h"
#include "row_file.h"

namespace soilhold::rows {
namespace {

const std::vector<std::string> files = {
    "rainfall-erosivity-R.csv", "soil-erodibility-K.csv", "slope-LS.csv",
    "cover-management-C.csv",   "support-practice-P.csv", "soil-loss-T-delivery-value.csv"};

/// Where a row may miss by more than half its printed precision, and why. Everything else may not.
struct Allowance {
    const char* quantity;
    double units_of_last_digit;  ///< of the printed precision, or of `absolute` where that is set
    double absolute;
    const char* why;
};
// Printed figure and worked-out figure are both rounded as printed before the allowance is applied.
constexpr Allowance allowances[] = {
    {"LS_ah537", 1.0, 0, "AH 537 Table 3 runs up to 1 % above its own equation, always upward"},
    {"segment_soil_loss_fraction", 1.0, 0, "AH 537 Table 4 rounds so that its shares sum to 1"},
    {"m_ah703", 1.0, 0, "AH 703 Table 4-5 was rounded from rounded parts"},
    {"Kw_table", 1.0, 0, "the handbook rounded its factor and its product apart"},
    {"canopy_subfactor_table", 0, 0.02, "a curve read off a chart, against AH 703's equation"},
};

double tolerance_of(const Row& row) {
    const double precision = row.value("printed_precision");
    for (const Allowance& one : allowances)
        if (row.text("quantity") == one.quantity)
            return one.absolute > 0 ? one.absolute : one.units_of_last_digit * precision;
    return 0.5 * precision;
}

std::vector<Row> all_rows() {
    std::vector<Row> rows;
    for (const std::string& file : files)
        for (Row& row : read(file)) rows.push_back(std::move(row));
    return rows;
}

const std::map<std::string, std::string>& exceptions() {
    static const std::map<std::string, std::string> known = [] {
        std::map<std::string, std::string> reasons;
        for (const Row& row : read("../exceptions.csv")) reasons[row.text("id")] = row.text("reason");
        return reasons;
    }();
    return known;
}

/// How far a row's figure was seen. A row whose number was computed from an equation tests our transcription of it
/// only.
enum class Seen { read, memory, computed };
Seen seen_of(const Row& row) {
    const std::string& seen = row.text("seen");
    if (seen == "computed" || seen.starts_with("yes (") || row.text("source").find("computed") != std::string::npos)
        return Seen::computed;
    return seen == "yes" ? Seen::read : Seen::memory;
}

struct Outcome {
    bool answered = false;
    double value = 0.0;
    std::string trouble;
    factors::Way way = factors::Way::equation;
    bool within(const Row& row) const {
        // An allowance of whole units compares figures as both would be printed.
        const double precision = row.value("printed_precision");
        if (answered && tolerance_of(row) >= precision)
            return std::abs(std::round(value / precision) * precision - row.value("expected")) <=
                   tolerance_of(row) + 1e-6 * precision;
        // A hair of room: a figure that lies exactly half a unit off is what rounding makes of it.
        return answered &&
               std::abs(value - row.value("expected")) <= tolerance_of(row) + 1e-9 * std::abs(value) + 1e-12;
    }
};

Outcome outcome_of(const Row& row) {
    try {
        const factors::Answer answer = factors::answer(row.text("quantity"), row.text("inputs"));
        return {true, answer.value, "", answer.way};
    } catch (const std::exception& trouble) {
        return {false, 0.0, trouble.what(), {}};
    }
}

class HandbookRow : public testing::TestWithParam<Row> {};

TEST_P(HandbookRow, IsReproduced) {
    const Row& row = GetParam();
    const Outcome outcome = outcome_of(row);
    ASSERT_TRUE(outcome.answered) << outcome.trouble << "\n" << testing::PrintToString(row);
    const auto excepted = exceptions().find(row.text("id"));
    if (excepted != exceptions().end()) {
        EXPECT_FALSE(outcome.within(row)) << "needs no exception any more: " << testing::PrintToString(row);
        return;
    }
    EXPECT_TRUE(outcome.within(row)) << "worked out " << outcome.value << ", printed " << row.text("expected")
                                     << " within " << tolerance_of(row) << "\n"
                                     << testing::PrintToString(row);
}

INSTANTIATE_TEST_SUITE_P(Rows, HandbookRow, testing::ValuesIn(all_rows()), [](const auto& info) {
    std::string name = info.param.text("id");
    for (char& c : name)
        if (!std::isalnum(static_cast<unsigned char>(c))) c = '_';
    return name;
});

TEST(HandbookRows, AreAllReproducedOrExcepted) {
    const char* const words[] = {"read in a source", "from memory", "computed from an equation"};
    int reproduced[3] = {0, 0, 0}, excepted[3] = {0, 0, 0}, by_way[3] = {0, 0, 0};
    std::set<std::string> ids;
    for (const Row& row : all_rows()) {
        EXPECT_TRUE(ids.insert(row.text("id")).second) << "id given twice: " << row.text("id");
        const Outcome outcome = outcome_of(row);
        const auto seen = static_cast<std::size_t>(seen_of(row));
        if (exceptions().contains(row.text("id")))
            ++excepted[seen];
        else {
            EXPECT_TRUE(outcome.within(row)) << testing::PrintToString(row);
            ++reproduced[seen];
        }
        ++by_way[static_cast<std::size_t>(outcome.way)];
    }
    std::printf("%zu rows: %d reproduced, %d excepted\n", ids.size(), reproduced[0] + reproduced[1] + reproduced[2],
                excepted[0] + excepted[1] + excepted[2]);
    for (std::size_t i = 0; i < 3; ++i)
        std::printf("  %s: %d reproduced, %d excepted\n", words[i], reproduced[i], excepted[i]);
    std::printf("  by an equation %d, from a reference table %d, one source's single figure %d\n", by_way[0], by_way[1],
                by_way[2]);
}

TEST(HandbookRows, ExceptOnlyRowsThatExistAndSayWhy) {
    std::set<std::string> ids;
    for (const Row& row : all_rows()) ids.insert(row.text("id"));
    for (const auto& [id, reason] : exceptions()) {
        EXPECT_TRUE(ids.contains(id)) << id;
        EXPECT_GE(reason.size(), 20U) << id;
    }
}

}  // namespace
}  // namespace soilhold::rows
