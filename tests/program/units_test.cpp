// One field written twice, in feet and in metres: every number of the answer is the same.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "program.h"

namespace soilhold::program {
namespace {

// From the definitions of foot, acre, ton and ton-force, not from the program.
constexpr double foot_m = 0.3048, acre_ha = 43560 * foot_m * foot_m / 1e4, ton_t = 2000 * 0.45359237 / 1000;
constexpr double foot_ton_mj = foot_m * 2000 * 0.45359237 * 9.80665 / 1e6;
constexpr double R_si = 100 * foot_ton_mj / acre_ha * 25.4, K_si = ton_t / acre_ha / R_si, A_si = ton_t / acre_ha;

/// A field with a spread, parts of C, contours, soak tests and a change.
std::string field(const std::string& rain, const std::string& soil, const std::string& length,
                  const std::string& tolerance, const std::string& area, const std::string& fall,
                  const std::string& roughness, const std::string& depth, const std::string& shorter) {
    return fmt::format(
        "field: Twice written\narea: {area}\n"
        "soil:\n  texture: {{sand: 44 %, very fine sand: 12 %, silt: 36 %, clay: 20 %}}\n  organic matter: 2.4 %\n"
        "  erodibility: {soil}\n  tolerance: {tolerance}\n  bulk density: 1.35 g/cm3\n  from: a sheet\n"
        "rain:\n  erosivity: {rain}\n  from: a sheet\n"
        "slope:\n  length: {length}\n  steepness: 7 %\n"
        "cover:\n  parts: {{surface cover: 20 %, canopy: 40 %, fall height: {fall}, roughness: {roughness}}}\n"
        "practice: {{contouring: yes}}\n"
        "tests:\n  date: 2026-04-08\n  drying: 4 days\n  clod size: 6 to 8 mm\n  depth: {depth}\n  water: rain water\n"
        "  scorer: first scorer\n  blind: yes\n  position: field\n  tilled: 190 days\n"
        "  slake:\n    spot 1: [2, 1, 2]\n    spot 2: [3, 2, 2]\n    spot 3: [1, 2, 3]\n    spot 4: [2, 4, 2]\n"
        "    spot 5: [3, 2, 1]\n    spot 6: [2, 2, 3]\n"
        "changes:\n  - change: A barrier half way\n    length: {shorter}\n",
        fmt::arg("rain", rain), fmt::arg("soil", soil), fmt::arg("length", length), fmt::arg("tolerance", tolerance),
        fmt::arg("area", area), fmt::arg("fall", fall), fmt::arg("roughness", roughness), fmt::arg("depth", depth),
        fmt::arg("shorter", shorter));
}

nlohmann::json estimated(const std::string& text) {
    const Folder folder;
    const std::string path = folder.path + "/field.yaml";
    std::ofstream(path) << text;
    const Outcome done = run({"estimate", path, "--json"});
    EXPECT_EQ(done.exit_code, 0) << done.err;
    return done.exit_code == 0 ? nlohmann::json::parse(done.out) : nlohmann::json();
}

/// Every number of two results, by its place; returns how many were compared.
int compare(const nlohmann::json& one, const nlohmann::json& other, const std::string& place = "") {
    if (one.is_number()) {
        EXPECT_TRUE(other.is_number()) << place;
        if (!other.is_number()) return 0;
        const double a = one, b = other;
        EXPECT_LE(std::abs(a - b), 1e-9 * std::max(std::abs(a), std::abs(b))) << place << ": " << a << " and " << b;
        return 1;
    }
    EXPECT_EQ(one.size(), other.size()) << place;
    int compared = 0;
    if (one.is_structured() && one.size() == other.size())
        for (const auto& item : one.items())
            compared += one.is_array() ? compare(item.value(), other[std::stoul(item.key())], place + "/" + item.key())
                                       : compare(item.value(), other.value(item.key(), nlohmann::json()),
                                                 place + "/" + item.key());
    return compared;
}

TEST(OneFieldInTwoSystemsOfUnits, HasTheSameLossToABillionth) {
    const auto si = [](double value, double factor, const char* unit) {
        return fmt::format("{:.17g} {}", value * factor, unit);
    };
    const auto us =
        estimated(field("140 US", "0.30 US", "240 ft", "4 t/ac/yr", "38 ac", "2 ft", "0.6 in", "0 to 2 in", "120 ft"));
    const auto metric = estimated(field(si(140, R_si, "SI"), si(0.30, K_si, "SI"), si(240, foot_m, "m"),
                                        si(4, A_si, "t/ha/yr"), si(38, acre_ha, "ha"), si(2, foot_m, "m"),
                                        si(0.6, 25.4, "mm"), "0 to 50.8 mm", si(120, foot_m, "m")));
    ASSERT_TRUE(us.is_object() && metric.is_object());
    EXPECT_GT(us["fields"][0]["loss"]["central"].get<double>(), 1);
    EXPECT_NE(us["fields"][0]["factors"]["m"]["value"].get<double>(), 1);  // the tests do count
    const int compared = compare(us, metric);
    std::printf("  %d numbers compared\n", compared);
    EXPECT_GT(compared, 40);
}

}  // namespace
}  // namespace soilhold::program
