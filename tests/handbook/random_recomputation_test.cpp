// Ten thousand random cases of each closed-form equation, worked out a second time by tests/handbook/recompute.py,
// which was written from the published equations alone, in the units they were published in. Cases go over as a CSV;
// the script compares to 1e-9 of the value. Without python3 and numpy these tests skip themselves, saying so.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <functional>
#include <random>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "factors/aggregate_erodibility.h"
#include "factors/contouring.h"
#include "factors/cover_subfactors.h"
#include "factors/delivery.h"
#include "factors/geometric_mean_diameter.h"
#include "factors/irregular_slope.h"
#include "factors/nomograph.h"
#include "factors/rain_energy.h"
#include "factors/rain_erosivity.h"
#include "factors/residue.h"
#include "factors/slope.h"
#include "factors/slope_length.h"
#include "factors/slope_steepness.h"
#include "factors/soil_depth.h"
#include "factors/texture_carbon.h"
#include "factors/unit_area_slope.h"
#include "program.h"
#include "units/unit.h"

namespace soilhold::factors {
namespace {

constexpr int cases = 10'000;
constexpr std::uint64_t seed = 20'260'901;

enum class Draw {
    even,     ///< evenly over the range
    decades,  ///< evenly over its logarithm
    whole,    ///< whole numbers, both ends included
    rest,     ///< what the inputs before it leave of `high`: shares that sum
    part,     ///< a share of what they leave
};

struct Input {
    std::string name;
    double low = 0, high = 1;
    Draw draw = Draw::even;
};

struct Equation {
    std::string name;
    std::vector<Input> inputs;
    std::function<double(const std::vector<double>&)> work_out;
};

/// The same numbers on every machine: std::uniform_real_distribution is not.
double uniform(std::mt19937_64& engine) { return static_cast<double>(engine() >> 11) * 0x1.0p-53; }

std::vector<double> drawn(const Equation& equation, std::mt19937_64& engine) {
    std::vector<double> values;
    double shares = 0;
    for (const Input& input : equation.inputs) {
        const double u = uniform(engine);
        double value = 0;
        switch (input.draw) {
            case Draw::even:
                value = input.low + u * (input.high - input.low);
                break;
            case Draw::decades:
                value = input.low * std::pow(input.high / input.low, u);
                break;
            case Draw::whole:
                value = std::floor(input.low + u * (input.high - input.low + 1));
                break;
            case Draw::rest:
                value = input.high - shares;
                break;
            case Draw::part:
                value = u * (input.high - shares);
                break;
        }
        shares += value;
        values.push_back(value);
    }
    return values;
}

NomographSoil soil_of(const std::vector<double>& x) {
    return {x[0], x[1], x[2], x[3], static_cast<int>(x[4]), static_cast<int>(x[5])};
}

double slope_703(const std::vector<double>& x, RillRatio ratio) {
    return slope_factor(x[0], x[1], SlopeMethod::handbook_703, ratio);
}

std::vector<Equation> rain_equations() {
    std::vector<Input> months;
    for (int month = 1; month <= 12; ++month) months.push_back({fmt::format("p{}", month), 0, 300});
    const Input annual{"P", 50, 3000}, index{"F", 1, 400};
    return {
        {"unit_energy_537_us", {{"i", 1e-4, 12, Draw::decades}}, [](auto& x) { return unit_energy_537_us(x[0]); }},
        {"unit_energy_537", {{"i", 1e-2, 300, Draw::decades}}, [](auto& x) { return unit_energy_537(x[0]); }},
        {"unit_energy_brown_foster_us", {{"i", 0, 12}}, [](auto& x) { return unit_energy_brown_foster_us(x[0]); }},
        {"unit_energy_brown_foster", {{"i", 0, 300}}, [](auto& x) { return unit_energy_brown_foster(x[0]); }},
        {"erosivity_from_annual_rain", {annual}, [](auto& x) { return erosivity_from_annual_rain(x[0]); }},
        {"modified_fournier_index", months,
         [](auto& x) {
             std::array<double, 12> rain{};
             std::copy(x.begin(), x.end(), rain.begin());
             return modified_fournier_index(rain);
         }},
        {"erosivity_from_fournier_index", {index}, [](auto& x) { return erosivity_from_fournier_index(x[0]); }},
        {"erosivity_rango_arnoldus", {index}, [](auto& x) { return erosivity_rango_arnoldus(x[0]); }},
        {"erosivity_arnoldus_1980", {index}, [](auto& x) { return erosivity_arnoldus_1980(x[0]); }},
        {"erosivity_from_six_hour_rain_us",
         {{"P", 0.2, 6}},
         [](auto& x) { return erosivity_from_six_hour_rain_us(x[0]); }},
    };
}

std::vector<Equation> soil_equations() {
    const std::vector<Input> nomograph{{"silt", 0, 100, Draw::part}, {"vfs", 0, 100, Draw::part},
                                       {"clay", 0, 100, Draw::part}, {"om", 0, 8},
                                       {"b", 1, 4, Draw::whole},     {"c", 1, 6, Draw::whole}};
    const std::vector<Input> texture{
        {"sand", 0, 100, Draw::part}, {"silt", 0, 100, Draw::part}, {"clay", 0, 100, Draw::rest}};
    std::vector<Input> with_carbon = texture;
    with_carbon.push_back({"carbon", 0, 6});
    const Input diameter{"Dg", 1e-3, 2, Draw::decades};
    return {
        {"nomograph_us", nomograph, [](auto& x) { return nomograph_erodibility_us(soil_of(x)); }},
        {"nomograph_rounded_si", nomograph, [](auto& x) { return nomograph_erodibility_rounded_si(soil_of(x)); }},
        {"nomograph_si", nomograph,
         [](auto& x) { return nomograph_erodibility_us(soil_of(x)) * units::erodibility_si_per_us; }},
        {"geometric_mean_diameter", texture,
         [](auto& x) {
             const std::array<GrainClass, 3> grains{GrainClass{x[2], 0, 0.002}, GrainClass{x[1], 0.002, 0.05},
                                                    GrainClass{x[0], 0.05, 2}};
             return geometric_mean_diameter_mm(grains);
         }},
        {"erodibility_from_diameter", {diameter}, [](auto& x) { return erodibility_from_diameter(x[0]); }},
        {"erodibility_from_diameter_us_soils",
         {diameter},
         [](auto& x) { return erodibility_from_diameter_us_soils(x[0]); }},
        {"texture_carbon_us", with_carbon,
         [](auto& x) { return texture_carbon_erodibility_us(x[0], x[1], x[2], x[3]); }},
        {"volcanic_us",
         {{"x1", 0, 100}, {"x2", 0, 2500}, {"x3", 0, 100}, {"x4", 0, 100}, {"x5", 0, 100}},
         [](auto& x) {
             return volcanic_soil_erodibility_us({x[0], x[1], x[2], x[3], x[4]});
         }},
        {"midwest_us",
         {{"x6", 0, 2}, {"x7", 0, 60}, {"x8", 0.8, 1.8}, {"x2", 0, 2500}, {"x9", 0, 100}},
         [](auto& x) {
             return midwest_soil_erodibility_us({x[0], x[1], x[2], x[3], x[4]});
         }},
    };
}

std::vector<Equation> slope_equations() {
    const Input length{"length", 15 * units::metre_per_foot, 400}, gradient{"gradient", 1e-4, 1.2, Draw::decades};
    const std::vector<Input> both{length, gradient};
    const auto L_703 = [](RillRatio ratio) {
        return [ratio](const std::vector<double>& x) {
            return slope_length_factor(x[0], length_exponent_703(x[1], ratio));
        };
    };
    return {
        {"length_factor_537", both, [](auto& x) { return slope_length_factor(x[0], length_exponent_537(x[1])); }},
        {"length_factor_703_low", both, L_703(RillRatio::low)},
        {"length_factor_703_moderate", both, L_703(RillRatio::moderate)},
        {"length_factor_703_high", both, L_703(RillRatio::high)},
        {"steepness_factor_537", {gradient}, [](auto& x) { return steepness_factor_537(x[0]); }},
        {"early_steepness_factor", {gradient}, [](auto& x) { return early_steepness_factor(sine_of(x[0])); }},
        {"steepness_factor_703", {gradient}, [](auto& x) { return steepness_factor_703(x[0]); }},
        {"short_slope_steepness_factor_703",
         {gradient},
         [](auto& x) { return short_slope_steepness_factor_703(x[0]); }},
        {"thawing_steepness_factor_703", {gradient}, [](auto& x) { return thawing_steepness_factor_703(x[0]); }},
        {"slope_factor_537", both,
         [](auto& x) { return slope_factor(x[0], x[1], SlopeMethod::handbook_537, RillRatio::moderate); }},
        {"slope_factor_703_low", both, [](auto& x) { return slope_703(x, RillRatio::low); }},
        {"slope_factor_703_moderate", both, [](auto& x) { return slope_703(x, RillRatio::moderate); }},
        {"slope_factor_703_high", both, [](auto& x) { return slope_703(x, RillRatio::high); }},
        {"segment_loss_share",
         {{"j", 1, 5, Draw::whole}, {"N", 5, 10, Draw::whole}, {"m", 0, 1}},
         [](auto& x) { return segment_loss_share(static_cast<int>(x[0]), static_cast<int>(x[1]), x[2]); }},
        {"irregular_slope_537",
         {length, {"m", 0.2, 0.6}, {"g1", 0.002, 0.4}, {"g2", 0.002, 0.4}, {"g3", 0.002, 0.4}},
         [](auto& x) {
             const std::array<double, 3> gradients{x[2], x[3], x[4]};
             return irregular_slope_factor_537(x[0], gradients, x[1]);
         }},
        {"irregular_slope_703",
         {{"x1", 2, 150}, {"x2", 2, 150}, {"x3", 2, 150}, {"g1", 0.002, 0.6}, {"g2", 0.002, 0.6}, {"g3", 0.002, 0.6}},
         [](auto& x) {
             const std::array<SlopeSegment, 3> profile{SlopeSegment{x[0], x[3]}, SlopeSegment{x[0] + x[1], x[4]},
                                                       SlopeSegment{x[0] + x[1] + x[2], x[5]}};
             return irregular_slope_factor_703(profile);
         }},
        {"unit_area_slope_factor",
         {{"As", 0.1, 1e5, Draw::decades}, gradient},
         [](auto& x) { return unit_area_slope_factor(x[0], x[1]); }},
        {"grid_cell_length_factor",
         {{"A", 1, 1e5, Draw::decades}, {"D", 1, 90}, {"m", 0, 0.8}, {"aspect", 0, 6.2831853}},
         [](auto& x) { return grid_cell_length_factor(x[0], x[1], x[2], x[3]); }},
    };
}

std::vector<Equation> cover_and_later_equations() {
    const Input area{"area", 1e-3, 1e4, Draw::decades}, roughness{"roughness", 1, 60};
    return {
        {"canopy_subfactor", {{"Fc", 0, 1}, {"height", 0, 8}}, [](auto& x) { return canopy_subfactor(x[0], x[1]); }},
        {"surface_cover_subfactor",
         {{"cover", 0, 1}, {"b", 0.02, 0.06}, roughness},
         [](auto& x) { return surface_cover_subfactor(x[0], x[1], x[2]); }},
        {"surface_roughness_subfactor", {roughness}, [](auto& x) { return surface_roughness_subfactor(x[0]); }},
        {"prior_land_use_subfactor",
         {{"Cf", 0.45, 1}, {"roots", 0, 1500}, {"buried", 0, 3000}},
         [](auto& x) { return prior_land_use_subfactor(x[0], x[1], x[2]); }},
        {"residue_cover_pct",
         {{"mass", 1, 12000}, {"a", 1e-4, 1e-3}},
         [](auto& x) { return residue_cover_pct(x[0], x[1]); }},
        {"roughness_left", {{"rain", 0, 40}, {"EI", 0, 300}}, [](auto& x) { return roughness_left(x[0], x[1]); }},
        {"roughness_after_operation",
         {{"tabled", 7, 60}, {"biomass", 0, 5000}},
         [](auto& x) { return roughness_after_operation_mm(x[0], x[1]); }},
        {"off_grade_contour",
         {{"Po", 0.3, 1}, {"row", 0, 0.02}, {"land", 0.02, 0.25}},
         [](auto& x) { return off_grade_contour(x[0], x[1], x[2]); }},
        {"depth_of_loss_mm",
         {{"loss", 0, 500}, {"density", 0.6, 2}},
         [](auto& x) { return depth_of_loss_mm(x[0], x[1]); }},
        {"delivery_ratio_vanoni", {area}, [](auto& x) { return delivery_ratio_vanoni(x[0]); }},
        {"delivery_ratio_scs", {area}, [](auto& x) { return delivery_ratio_scs(x[0]); }},
        {"delivery_ratio_boyce", {area}, [](auto& x) { return delivery_ratio_boyce(x[0]); }},
        {"delivery_ratio_by_distance",
         {{"D", 1, 1e4, Draw::decades}},
         [](auto& x) { return delivery_ratio_by_distance(x[0]); }},
    };
}

const std::vector<Equation>& all_equations() {
    static const std::vector<Equation> equations = [] {
        std::vector<Equation> all;
        for (auto list : {rain_equations(), soil_equations(), slope_equations(), cover_and_later_equations()})
            all.insert(all.end(), list.begin(), list.end());
        return all;
    }();
    return equations;
}

const std::string script = std::string(SOILHOLD_ROOT) + "/tests/handbook/recompute.py";

/// The first Python with numpy: a python3 put before the system's often lacks the system's packages. "" when none has.
const std::string& python() {
    static const std::string found = [] {
        for (const char* name : {"python3", "/usr/bin/python3"})
            if (std::system(fmt::format("{} -c 'import numpy' > /dev/null 2>&1", name).c_str()) == 0)
                return std::string(name);
        return std::string();
    }();
    return found;
}

/// What the script says of an equation's cases, and whether it found them equal. @param slip  put into one case
bool recomputes(const Equation& equation, std::string& words, double slip = 0) {
    const program::Folder folder;
    const std::string file = folder.path + "/cases.csv", out = folder.path + "/out";
    {
        std::ofstream stream(file);
        stream << "result";
        for (const Input& input : equation.inputs) stream << ',' << input.name;
        std::mt19937_64 engine(seed);
        for (int n = 0; n < cases; ++n) {
            const std::vector<double> values = drawn(equation, engine);
            stream << fmt::format("\n{:.17g}", equation.work_out(values) * (n == cases / 2 ? 1 + slip : 1));
            for (const double value : values) stream << fmt::format(",{:.17g}", value);
        }
        stream << '\n';
    }
    const int code =
        std::system(fmt::format("{} '{}' {} {} > {} 2>&1", python(), script, equation.name, file, out).c_str());
    words = program::slurp(out);
    return code == 0;
}

class Recomputation : public testing::TestWithParam<std::size_t> {};

TEST_P(Recomputation, TenThousandRandomCasesAgreeToABillionth) {
    if (python().empty()) GTEST_SKIP() << "python3 with numpy is not here: nothing was recomputed";
    const Equation& equation = all_equations().at(GetParam());
    std::string words;
    const bool same = recomputes(equation, words);
    std::printf("  %s", words.c_str());
    EXPECT_TRUE(same) << words;
    EXPECT_NE(words.find(fmt::format("{}: {} cases", equation.name, cases)), std::string::npos) << words;
}

INSTANTIATE_TEST_SUITE_P(Equations, Recomputation, testing::Range<std::size_t>(0, all_equations().size()),
                         [](const auto& info) { return all_equations().at(info.param).name; });

TEST(RecomputationItself, NoticesOneCaseInTenThousandOffByAHundredMillionth) {
    if (python().empty()) GTEST_SKIP() << "python3 with numpy is not here: nothing was recomputed";
    for (const Equation& equation : all_equations()) {
        if (equation.name != "slope_factor_703_moderate" && equation.name != "nomograph_us") continue;
        std::string words;
        EXPECT_FALSE(recomputes(equation, words, 1e-8)) << equation.name;
        EXPECT_NE(words.find("soilhold"), std::string::npos) << words;  // the case is shown
    }
}

TEST(RecomputationItself, EveryEquationOfTheScriptIsTried) {
    if (python().empty()) GTEST_SKIP() << "python3 with numpy is not here: nothing was recomputed";
    const program::Folder folder;
    ASSERT_EQ(std::system(fmt::format("{} '{}' --list > {}/list", python(), script, folder.path).c_str()), 0);
    std::istringstream list(program::slurp(folder.path + "/list"));
    std::set<std::string> known, tried;
    for (std::string name; list >> name;) known.insert(name);
    for (const Equation& equation : all_equations()) tried.insert(equation.name);
    EXPECT_EQ(known, tried);
}

}  // namespace
}  // namespace soilhold::factors
