// Real ground: the program's estimate beside what was measured, from field files that say where each input comes from.
// The order of the two must be right; the figures are printed side by side and not held to a bound (nothing was
// fitted).
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <sstream>

#include "program.h"
#include "source/reference_table.h"

namespace soilhold {
namespace {

const std::string folder = std::string(SOILHOLD_ROOT) + "/tests/field/measured/";

std::map<std::string, double> measured_of(const std::string& file) {
    std::ifstream stream(folder + "measured.csv");
    std::stringstream text;
    text << stream.rdbuf();
    std::map<std::string, double> measured;
    for (const auto& line : source::split_csv(text.str()))
        if (line.at(0) == file) measured[line.at(1)] = std::stod(line.at(2));
    return measured;
}

nlohmann::json compared(const std::string& file) {
    const program::Outcome run = program::run({"compare", folder + file + ".yaml", "--json"});
    EXPECT_EQ(run.exit_code, 0) << run.err;
    return nlohmann::json::parse(run.out);
}

void print_beside(const std::string& file, const nlohmann::json& field, std::optional<double> measured) {
    const auto& loss = field["loss"];
    const std::string beside = measured ? fmt::format("{:6.2f} t/(ha yr)", *measured) : "not at hand";
    std::printf("  %-22s %-36s predicted %6.2f (%.2f to %.2f)  measured %s\n", file.c_str(),
                field["name"].get<std::string>().c_str(), loss["central"].get<double>(), loss["low"].get<double>(),
                loss["high"].get<double>(), beside.c_str());
}

class MeasuredPair : public testing::TestWithParam<const char*> {};

TEST_P(MeasuredPair, IsOrderedAsMeasured) {
    const std::string file = GetParam();
    const auto measured = measured_of(file);
    ASSERT_EQ(measured.size(), 2U);
    const nlohmann::json result = compared(file);
    const auto& fields = result["fields"];
    ASSERT_EQ(fields.size(), 2U);
    for (const auto& field : fields) print_beside(file, field, measured.at(field["name"]));
    const double a = measured.at(fields[0]["name"]), b = measured.at(fields[1]["name"]);
    ASSERT_FALSE(result["pairs"][0]["ratio"].is_null()) << result["pairs"][0].dump(2);
    const double ratio = result["pairs"][0]["ratio"]["central"];
    std::printf("  %-22s ratio predicted %.2f, measured %.2f\n", file.c_str(), ratio, b / a);
    EXPECT_EQ(ratio < 1, b < a);
}

// Four places hold both conventional tillage and no-till with measured loss: Riesel, Holly Springs (two crops), Mills
// River, Lafayette. Bushland sets stubble mulch against no-till.
INSTANTIATE_TEST_SUITE_P(Places, MeasuredPair,
                         testing::Values("riesel", "holly-springs-soybean", "holly-springs-corn", "mills-river",
                                         "lafayette", "bushland"),
                         [](const auto& info) {
                             std::string name = info.param;
                             for (char& c : name)
                                 if (c == '-') c = '_';
                             return name;
                         });

TEST(Woburn, PlotSevensTreatmentIsTheWorstOfTheFour) {
    // The experiment's own text: plot 7 (up and down, standard) always eroded when any other plot did.
    const nlohmann::json result = compared("woburn");
    const auto measured = measured_of("woburn");
    ASSERT_EQ(result["fields"].size(), 4U);
    const auto& worst = result["fields"][0];
    print_beside("woburn", worst, measured.at(worst["name"]));
    for (std::size_t i = 1; i < 4; ++i) {
        print_beside("woburn", result["fields"][i], std::nullopt);
        EXPECT_GT(worst["loss"]["central"], result["fields"][i]["loss"]["central"]);
    }
    // Residue kept and drilled across: the least of the four.
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_LT(result["fields"][3]["loss"]["central"], result["fields"][i]["loss"]["central"]);
}

}  // namespace
}  // namespace soilhold
