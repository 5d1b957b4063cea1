// Every value that is printed says whose it is: the user's own words, or a record of data/reference/citations.csv.
#include <gmock/gmock.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "change/comparison.h"
#include "input/diagnostic.h"
#include "input/field_file.h"
#include "source/citation.h"
#include "source/reference_table.h"

namespace soilhold::report {
namespace {

namespace fs = std::filesystem;
const fs::path root = SOILHOLD_ROOT;

bool is_known(const std::string& key) {
    const auto& records = source::all_citations();
    return std::any_of(records.begin(), records.end(), [&](const auto& record) { return record.key == key; });
}

/// What is wrong with an origin; "" when a reader can tell whose figure it is.
std::string lack(const source::Origin& origin) {
    if (!origin.citation.empty()) return is_known(origin.citation) ? "" : "no citation '" + origin.citation + "'";
    if (origin.standing != source::Standing::users_figure) return "neither the user's nor cited: '" + origin.from + "'";
    return origin.from.empty() ? "the user's figure without a word of whose" : "";
}

void expect_origins(const source::Steps& steps, const std::string& place) {
    EXPECT_FALSE(steps.empty()) << place;
    for (const source::Step& step : steps) {
        EXPECT_EQ(lack(step.origin), "") << place << ": " << step.symbol << ", " << step.words;
        EXPECT_FALSE(step.unit.empty()) << place << ": " << step.symbol << ", " << step.words;
        EXPECT_FALSE(step.words.empty()) << place << ": " << step.symbol;
        EXPECT_EQ(step.symbol.empty(), step.upper.has_value()) << place << ": " << step.words;
    }
}

void expect_origins(const loss::FactorValue& factor, const std::string& place) {
    const std::string here = place + ": " + factor.symbol;
    EXPECT_EQ(lack(factor.origin), "") << here;
    EXPECT_EQ(lack(factor.spread_origin), "") << here << ", spread";
    expect_origins(factor.steps, here);
    // The working ends in the value that was used, bit for bit, and in its printed range.
    const auto& steps = factor.steps;
    EXPECT_TRUE(std::any_of(steps.begin(), steps.end(), [&](const source::Step& step) {
        return !step.upper && step.value == factor.value.central && step.symbol == factor.symbol;
    })) << here;
    if (factor.value.low == factor.value.high) return;
    ASSERT_TRUE(steps.back().upper.has_value()) << here;
    EXPECT_EQ(steps.back().value, factor.value.low) << here;
    EXPECT_EQ(*steps.back().upper, factor.value.high) << here;
}

void expect_origins(const loss::FieldEstimate& field) {
    const std::string& name = field.field.name;
    for (const loss::FactorValue& factor : field.factors) expect_origins(factor, name);
    for (const loss::ChangeResult& change : field.changes) {
        for (const loss::FactorValue* factor : {&change.LS, &change.C, &change.P})
            expect_origins(*factor, name + ", " + change.name);
        expect_origins(change.steps, name + ", " + change.name);
    }
    expect_origins(field.steps, name);
    EXPECT_EQ(lack(field.bulk_density_origin), "") << name << ": bulk density";
    if (field.field.tolerance) {
        EXPECT_EQ(lack(field.field.tolerance->origin), "") << name << ": T";
    }
    if (field.field.area_ha) {
        EXPECT_EQ(lack(field.field.area_ha->origin), "") << name << ": area";
    }
}

/// Fields of every file in a folder that can be read.
std::vector<std::vector<loss::Field>> readable(const fs::path& folder) {
    std::vector<std::vector<loss::Field>> files;
    for (const auto& entry : fs::directory_iterator(folder)) {
        if (entry.path().extension() != ".yaml") continue;
        try {
            files.push_back(input::read_field_file(entry.path().string()));
        } catch (const input::InputError&) {  // a file of mistakes has no values to print
        }
    }
    return files;
}

TEST(Provenance, EveryValuePrintedIsTheUsersOrCited) {
    std::size_t fields = 0, pairs = 0;
    for (const char* folder : {"data/demo", "tests/abuse/golden", "tests/abuse/pairs"})
        for (const auto& file : readable(root / folder)) {
            const change::Comparison comparison = change::compare(file, {64, 1});
            fields += comparison.fields.size();
            for (const loss::FieldEstimate& field : comparison.fields) expect_origins(field);
            for (const change::Pair& pair : comparison.pairs) {
                if (!pair.ratio) continue;
                ++pairs;
                expect_origins(pair.steps, "pair");
                if (pair.structure) expect_origins(pair.structure->steps, "structure of a pair");
            }
        }
    EXPECT_GT(fields, 20U);
    EXPECT_GT(pairs, 0U);
}

TEST(Provenance, AValueOfNobodyIsFound) {
    EXPECT_NE(lack({"", "", source::Standing::users_figure}), "");
    EXPECT_NE(lack({"a usual topsoil", "", source::Standing::our_assumption}), "");
    EXPECT_NE(lack({"a handbook", "no-such-key", source::Standing::from_memory}), "");
    EXPECT_EQ(lack({"county sheet", "", source::Standing::users_figure}), "");
}

std::string text_of(const fs::path& path) {
    std::stringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

/// The arguments of a call, split at the commas of its own level; `at` is where its bracket opens.
std::vector<std::string> arguments_at(const std::string& text, std::size_t at) {
    std::vector<std::string> list(1);
    int depth = 0;
    bool quoted = false;
    for (; at < text.size(); ++at) {
        const char c = text[at];
        if (c == '"' && text[at - 1] != '\\') quoted = !quoted;
        if (!quoted && (c == '(' || c == '{')) ++depth;
        if (!quoted && (c == ')' || c == '}') && --depth == 0) break;
        if (!quoted && c == ',' && depth == 1)
            list.emplace_back();
        else
            list.back() += c;
    }
    return list;
}

std::string all_of_lib() {
    std::string text;
    for (const auto& entry : fs::recursive_directory_iterator(root / "lib"))
        if (entry.path().extension() == ".cpp" || entry.path().extension() == ".h") text += text_of(entry.path());
    return text;
}

bool of_a_name(char c) { return std::isalnum(static_cast<unsigned char>(c)) || c == '_'; }

/// Functions that take a citation's key, and which of their parameters it is.
std::set<std::pair<std::string, std::size_t>> takers_of_keys(const std::string& text) {
    std::set<std::pair<std::string, std::size_t>> takers;
    for (const std::string parameter : {"string citation", "string_view citation"})
        for (auto at = text.find(parameter); at != std::string::npos; at = text.find(parameter, at + 1)) {
            auto open = at;
            int depth = 1;
            while (open > 0 && depth > 0 && text[open] != ';') {
                --open;
                if (text[open] == ')') ++depth;
                if (text[open] == '(') --depth;
            }
            if (depth > 0) continue;  // a member of a struct
            auto begin = open;
            while (begin > 0 && of_a_name(text[begin - 1])) --begin;
            const auto parameters = arguments_at(text, open);
            for (std::size_t i = 0; i < parameters.size(); ++i)
                if (parameters[i].find(parameter) != std::string::npos)
                    takers.insert({text.substr(begin, open - begin), i});
        }
    return takers;
}

TEST(Provenance, EveryKeyInTheSourcesHasItsRecord) {
    const std::string text = all_of_lib();
    const auto takers = takers_of_keys(text);
    ASSERT_THAT(takers, testing::Contains(std::pair<std::string, std::size_t>("origin_of", 0)));
    ASSERT_THAT(takers, testing::Contains(std::pair<std::string, std::size_t>("by_equation", 1)));
    std::set<std::string> keys;
    const std::regex literal("\"([^\"]*)\"");
    for (const auto& [name, place] : takers) {
        for (auto at = text.find(name + "("); at != std::string::npos; at = text.find(name + "(", at + 1)) {
            const auto given = arguments_at(text, at + name.size());
            if (of_a_name(text[at - 1]) || place >= given.size()) continue;
            const std::string& key = given[place];  // may choose: newer ? "ls-ah703" : "ls-ah537"
            for (std::sregex_iterator one(key.begin(), key.end(), literal), end; one != end; ++one)
                keys.insert((*one)[1]);
        }
    }
    EXPECT_GT(keys.size(), 30U);
    for (const std::string& key : keys) EXPECT_TRUE(is_known(key)) << key;
}

TEST(Provenance, EveryCitationSaysHowWellItWasSeen) {
    const std::string text = text_of(root / "data/reference/citations.csv");
    const auto rows = source::split_csv(text);
    const auto column = std::find(rows[0].begin(), rows[0].end(), "standing") - rows[0].begin();
    for (std::size_t i = 1; i < rows.size(); ++i) {
        ASSERT_EQ(rows[i].size(), rows[0].size()) << rows[i][0];
        const std::string& standing = rows[i][static_cast<std::size_t>(column)];
        EXPECT_FALSE(standing.empty()) << rows[i][0];
        EXPECT_NO_THROW(source::standing_from(standing)) << rows[i][0];
    }
}

}  // namespace
}  // namespace soilhold::report
