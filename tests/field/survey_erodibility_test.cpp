// A soil survey's own K beside ours: 65 horizons with very fine sand, through the nomograph equation and the handbook's
// codes, against the Kf the survey prints; and Kw from its rock fragments against its Kw. Nothing is fitted but one
// reading: the handbook gives single grain no structure code, and the survey's figures say it used 1 (see below).
// tests/field/data/soil_survey_*.csv: USDA-NRCS soil survey AZ649, public domain.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "factors/erodibility_class.h"
#include "factors/erodibility_methods.h"
#include "factors/nomograph.h"
#include "factors/nomograph_codes.h"
#include "factors/rock_fragments.h"
#include "factors/texture_class.h"
#include "source/reference_table.h"

namespace soilhold::factors {
namespace {

struct Horizon {
    std::string key, soil, name, structure_type, texture;
    double top_cm = 0, bottom_cm = 0, conductivity_um_s = 0;
    NomographSoil soil_for_equation;
    double sand_pct = 0, survey_Kf = 0, survey_Kw = 0;
    double fragments_by_weight_pct = 0, bulk_density = 0;
};

std::vector<std::map<std::string, std::string>> rows_of(const std::string& file) {
    std::ifstream stream(std::string(SOILHOLD_ROOT) + "/tests/field/data/" + file);
    std::stringstream text;
    text << stream.rdbuf();
    const auto lines = source::split_csv(text.str());
    std::vector<std::map<std::string, std::string>> rows;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        std::map<std::string, std::string> row;
        for (std::size_t j = 0; j < lines[0].size(); ++j) row[lines[0][j]] = lines[i].at(j);
        rows.push_back(row);
    }
    return rows;
}

double number(const std::map<std::string, std::string>& row, const std::string& column) {
    return std::stod(row.at(column));
}

/// The survey's word as the handbook's class of structure. Platy, blocky and massive are 4; the survey has no granular
/// horizon here. Single grain stands in none of the handbook's four classes.
int code_of(const std::string& structure_type, int single_grain_code) {
    if (structure_type == "Single grain") return single_grain_code;
    for (const char* coarse : {"Platy", "Massive", "Subangular blocky"})
        if (structure_type == coarse) return structure_code("blocky platy or massive");
    throw std::invalid_argument("no structure code for " + structure_type);
}

/// Every horizon for which the survey prints Kf, with the permeability code of the slowest layer from its top down 50
/// cm.
std::vector<Horizon> survey_horizons(int single_grain_code = 1) {
    std::map<std::string, std::string> structure;
    for (const auto& row : rows_of("soil_survey_structure.csv")) structure[row.at("chkey")] = row.at("structtype");
    const auto rows = rows_of("soil_survey_horizons.csv");
    std::vector<Horizon> horizons;
    for (const auto& row : rows) {
        if (row.at("kffact").empty()) continue;
        Horizon h;
        h.key = row.at("chkey");
        h.soil = row.at("cokey");
        h.name = row.at("hzname");
        h.structure_type = structure.at(h.key);
        h.texture = row.at("texture");
        h.top_cm = number(row, "hzdept_r");
        h.bottom_cm = number(row, "hzdepb_r");
        h.conductivity_um_s = number(row, "ksat_r");
        for (const auto& other : rows)
            if (other.at("cokey") == h.soil && number(other, "hzdepb_r") > h.top_cm &&
                number(other, "hzdept_r") < h.top_cm + 50)
                h.conductivity_um_s = std::min(h.conductivity_um_s, number(other, "ksat_r"));
        h.sand_pct = number(row, "sandtotal_r");
        h.soil_for_equation = {number(row, "silttotal_r"),
                               number(row, "sandvf_r"),
                               number(row, "claytotal_r"),
                               number(row, "om_r"),
                               code_of(h.structure_type, single_grain_code),
                               permeability_code(h.conductivity_um_s)};
        h.survey_Kf = number(row, "kffact");
        h.survey_Kw = number(row, "kwfact");
        const double large = number(row, "fraggt10_r") + number(row, "frag3to10_r");  // % of the whole soil by weight
        const double gravel = 100 - number(row, "sieveno10_r");                       // % of what passes 3 in
        h.fragments_by_weight_pct = large + (100 - large) * gravel / 100;
        h.bulk_density = number(row, "dbthirdbar_r");
        horizons.push_back(h);
    }
    return horizons;
}

double silt_and_very_fine_sand(const Horizon& h) {
    return h.soil_for_equation.silt_pct + h.soil_for_equation.very_fine_sand_pct;
}

double difference(const Horizon& h) { return nomograph_erodibility_us(h.soil_for_equation) - h.survey_Kf; }

/// Classes between two K: 0 the same, 1 neighbours. Above the top class a K belongs to it.
int classes_apart(double K_us, double printed_us) {
    std::vector<double> classes;
    for (const auto& row : source::table("erodibility-classes").rows) classes.push_back(row.number("class_us"));
    const auto place = [&](double K) {
        return std::distance(classes.begin(), std::find(classes.begin(), classes.end(), erodibility_class_us(K)));
    };
    return static_cast<int>(std::abs(place(K_us) - place(printed_us)));
}

/// Volume of fragments from their weight: stones of 2.65 t/m3 in fine earth of the survey's bulk density. The survey's
/// own volumes are in a table that is not at hand, so this adds an error of its own.
double fragments_by_volume_pct(const Horizon& h) {
    const double stones = h.fragments_by_weight_pct / 2.65;
    const double earth = (100 - h.fragments_by_weight_pct) / h.bulk_density;
    return 100 * stones / (stones + earth);
}

TEST(SurveyErodibility, TheSurveysRowsAreWhatTheTestTakesThemFor) {
    const auto horizons = survey_horizons();
    EXPECT_EQ(horizons.size(), 65U);  // 68 rows, three of them rock or hardpan without K
    for (const Horizon& h : horizons) {
        EXPECT_NEAR(h.sand_pct + h.soil_for_equation.silt_pct + h.soil_for_equation.clay_pct, 100, 0.5) << h.key;
        EXPECT_LE(h.soil_for_equation.very_fine_sand_pct, h.sand_pct) << h.key;
        EXPECT_GT(h.bulk_density, 1) << h.key;
    }
}

TEST(SurveyErodibility, NineInTenHorizonsAreWithinFiveHundredthsOfTheSurvey) {
    int within = 0, same_class = 0;
    const auto horizons = survey_horizons();
    for (const Horizon& h : horizons) {
        const double K = nomograph_erodibility_us(h.soil_for_equation);
        within += std::abs(difference(h)) <= 0.05;
        same_class += classes_apart(K, h.survey_Kf) == 0;
        if (std::abs(difference(h)) > 0.05 || classes_apart(K, h.survey_Kf) > 0)
            std::printf("  %s %-4s silt + vfs %4.1f %%  equation %.3f  survey %.2f  off by %+.3f\n", h.key.c_str(),
                        h.name.c_str(), silt_and_very_fine_sand(h), K, h.survey_Kf, difference(h));
    }
    std::printf("  within 0.05: %d of %zu; same class: %d\n", within, horizons.size(), same_class);
    EXPECT_GE(within, 0.9 * static_cast<double>(horizons.size()));
    EXPECT_GE(same_class, 0.9 * static_cast<double>(horizons.size()));
}

TEST(SurveyErodibility, WithinTheEquationsRangeNoHorizonIsOffByMoreThanFiveHundredths) {
    int in_range = 0;
    for (const Horizon& h : survey_horizons()) {
        if (silt_and_very_fine_sand(h) > 70) continue;
        ++in_range;
        EXPECT_LE(std::abs(difference(h)), 0.05) << h.key << " " << h.name;
        EXPECT_LE(classes_apart(nomograph_erodibility_us(h.soil_for_equation), h.survey_Kf), 1) << h.key;
    }
    EXPECT_EQ(in_range, 61);
}

TEST(SurveyErodibility, AboveSeventyPercentSiltTheEquationOverstatesAsItsLimitSays) {
    int above = 0;
    for (const Horizon& h : survey_horizons()) {
        if (silt_and_very_fine_sand(h) <= 70) continue;
        ++above;
        EXPECT_GT(difference(h), 0.05) << h.key << " " << h.name;
        const auto remarks = nomograph_remarks(h.soil_for_equation);
        EXPECT_TRUE(std::any_of(remarks.begin(), remarks.end(), [](const auto& r) {
            return r.code == "silt-above-70";
        })) << h.key;
    }
    EXPECT_EQ(above, 4);
}

TEST(SurveyErodibility, SingleGrainSandFitsStructureCodeOneBest) {
    // The one thing read out of these rows rather than out of the handbook, so it is held where all can see it.
    const auto mean_miss = [](int code) {
        double sum = 0;
        int count = 0;
        for (const Horizon& h : survey_horizons(code))
            if (h.structure_type == "Single grain") sum += std::abs(difference(h)), ++count;
        EXPECT_EQ(count, 10);
        return sum / count;
    };
    const double one = mean_miss(1), two = mean_miss(2), four = mean_miss(4);
    std::printf("  single grain, mean miss: code 1 %.3f, code 2 %.3f, code 4 %.3f\n", one, two, four);
    EXPECT_LT(one, two);
    EXPECT_LT(two, four);
}

TEST(SurveyErodibility, LeavingOutVeryFineSandWouldMissMostHorizons) {
    // The check has teeth: the commonest slip with this equation must fail it.
    int within = 0;
    const auto horizons = survey_horizons();
    for (Horizon h : horizons) {
        h.soil_for_equation.very_fine_sand_pct = 0;
        within += std::abs(difference(h)) <= 0.05;
    }
    std::printf("  very fine sand left out: %d of %zu within 0.05\n", within, horizons.size());
    EXPECT_LT(within, 0.5 * static_cast<double>(horizons.size()));
}

TEST(SurveyErodibility, WholeSoilKOfTheSurveyFollowsFromItsStones) {
    int stony = 0, stony_within = 0, stony_same = 0;
    for (const Horizon& h : survey_horizons()) {
        const double volume = fragments_by_volume_pct(h), Kw = whole_soil_erodibility(h.survey_Kf, volume);
        EXPECT_LE(classes_apart(Kw, h.survey_Kw), 1) << h.key << " " << h.name;
        if (volume < 15) {
            EXPECT_EQ(h.survey_Kw, h.survey_Kf) << h.key << " " << h.name;
            continue;
        }
        ++stony;
        stony_within += std::abs(Kw - h.survey_Kw) <= 0.05;
        stony_same += classes_apart(Kw, h.survey_Kw) == 0;
        if (classes_apart(Kw, h.survey_Kw) > 0)
            std::printf("  %s %-5s %4.1f %% of stones by volume: Kf %.2f, Kw %.3f, survey %.2f\n", h.key.c_str(),
                        h.name.c_str(), volume, h.survey_Kf, Kw, h.survey_Kw);
    }
    std::printf("  15 %% of stones and more: %d horizons, %d within 0.05, %d in the same class\n", stony, stony_within,
                stony_same);
    EXPECT_GE(stony, 15);
    EXPECT_GE(stony_within, 0.9 * stony);
}

TEST(SurveyTexture, TheTrianglesClassIsTheSurveys) {
    // The survey's abbreviation without its words for stones ("GRV-") and for the size of the sand ("F", "VF").
    const std::map<std::string, std::string> names{{"S", "sand"},
                                                   {"LS", "loamy sand"},
                                                   {"SL", "sandy loam"},
                                                   {"L", "loam"},
                                                   {"SIL", "silt loam"},
                                                   {"SICL", "silty clay loam"},
                                                   {"SCL", "sandy clay loam"},
                                                   {"CL", "clay loam"},
                                                   {"C", "clay"},
                                                   {"SI", "silt"}};
    int compared = 0, same = 0;
    for (const Horizon& h : survey_horizons()) {
        if (h.texture.starts_with("SR-")) continue;  // layers of several textures
        std::string word = h.texture.substr(h.texture.find('-') == std::string::npos ? 0 : h.texture.find('-') + 1);
        if (word.starts_with("VF")) word.erase(0, 2);
        if (word == "FSL" || word == "FS") word.erase(0, 1);
        if (word == "LFS" || word == "LVFS") word = "LS";
        const auto name = texture_class(h.sand_pct, h.soil_for_equation.silt_pct, h.soil_for_equation.clay_pct);
        ++compared;
        same += name == names.at(word);
        if (name != names.at(word))
            std::printf("  %s sand %.1f silt %.1f clay %.1f: %s, survey %s\n", h.key.c_str(), h.sand_pct,
                        h.soil_for_equation.silt_pct, h.soil_for_equation.clay_pct, std::string(name).c_str(),
                        h.texture.c_str());
    }
    std::printf("  texture class: %d of %d as the survey has it\n", same, compared);
    EXPECT_GE(compared, 50);
    EXPECT_GE(same, 0.95 * compared);
}

ErodibilityInputs inputs_of(const Horizon& h) {
    ErodibilityInputs soil;
    soil.sand_pct = h.sand_pct;
    soil.silt_pct = h.soil_for_equation.silt_pct;
    soil.clay_pct = h.soil_for_equation.clay_pct;
    soil.very_fine_sand_pct = h.soil_for_equation.very_fine_sand_pct;
    soil.organic_matter_pct = h.soil_for_equation.organic_matter_pct;
    soil.structure_code = h.soil_for_equation.structure_code;
    soil.permeability_code = h.soil_for_equation.permeability_code;
    return soil;
}

TEST(SurveyErodibility, TheOtherMethodsAreShownBesideTheSurvey) {
    struct Tally {
        int values = 0, within = 0;
        double sum = 0, sum_of_squares = 0;
    };
    std::map<std::string, Tally> tallies;
    for (const Horizon& h : survey_horizons())
        for (const MethodResult& one : erodibility_by_all_methods(inputs_of(h))) {
            Tally& tally = tallies[one.method];
            if (!one.us) continue;
            const double off = *one.us - h.survey_Kf;
            ++tally.values;
            tally.within += std::abs(off) <= 0.05;
            tally.sum += off;
            tally.sum_of_squares += off * off;
        }
    for (const auto& [method, tally] : tallies)
        if (tally.values > 0)
            std::printf("  %-24s %2d values, %2d within 0.05, mean %+.3f, root mean square %.3f\n", method.c_str(),
                        tally.values, tally.within, tally.sum / tally.values,
                        std::sqrt(tally.sum_of_squares / tally.values));
    // 65 less the four silty ones and four clean sands for which the equation falls below 0 (the survey says 0.02).
    EXPECT_EQ(tallies.at("nomograph").values, 57);
    EXPECT_EQ(tallies.at("nomograph").within, 57);
    for (const char* rougher : {"diameter-world", "texture-carbon", "table-extension"})
        EXPECT_GT(tallies.at(rougher).sum_of_squares / tallies.at(rougher).values,
                  tallies.at("nomograph").sum_of_squares / tallies.at("nomograph").values)
            << rougher;
}

TEST(SurveyErodibility, WithoutVeryFineSandTheBoundsHoldTheSurveysK) {
    int bounded = 0, held = 0, central = 0, within = 0;
    double width = 0;
    for (const Horizon& h : survey_horizons()) {
        ErodibilityInputs soil = inputs_of(h);
        soil.very_fine_sand_pct.reset();
        const auto results = erodibility_by_all_methods(soil);
        const MethodResult& K = results.at(1);
        ASSERT_EQ(K.method, "nomograph");
        if (!K.bounds_us || silt_and_very_fine_sand(h) > 70) continue;
        ++bounded;
        held += h.survey_Kf >= K.bounds_us->low - 0.05 && h.survey_Kf <= K.bounds_us->high + 0.05;
        width += K.bounds_us->high - K.bounds_us->low;
        if (!K.us) continue;
        ++central;
        within += std::abs(*K.us - h.survey_Kf) <= 0.05;
    }
    std::printf(
        "  very fine sand not given: %d of %d bounds hold the survey's K (0.05 allowed), mean width %.2f; with the "
        "typical share %d of %d within 0.05\n",
        held, bounded, width / bounded, within, central);
    EXPECT_EQ(held, bounded);
    EXPECT_GT(within, 21);  // better than leaving it out
}

}  // namespace
}  // namespace soilhold::factors
