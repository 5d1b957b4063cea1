/// The keys that the reader knows, docs/field-files.md, the schema and docs/messages.md say the same.
#include "input/known_keys.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "program.h"

namespace soilhold::input {
namespace {

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::string in_root(const std::string& path) { return std::string(SOILHOLD_ROOT) + "/" + path; }

TEST(KnownKeys, EachStandsInTheGuideAndInTheSchema) {
    const std::string guide = text_of(in_root("docs/field-files.md"));
    const std::string schema = text_of(in_root("docs/field-file.schema.json"));
    for (const KnownKey& known : known_keys()) {
        const std::string key(known.key);
        EXPECT_TRUE(guide.find("`" + key + "`") != std::string::npos || guide.find(key + ": ") != std::string::npos)
            << key << " of " << known.section << " is not in docs/field-files.md";
        EXPECT_NE(schema.find("\"" + key + "\": {"), std::string::npos)
            << key << " of " << known.section << " is not in the schema";
    }
}

TEST(KnownKeys, TheNearestKeyIsOffered) {
    EXPECT_EQ(nearest_key("soil", "tolerence"), "tolerance");
    EXPECT_EQ(nearest_key("soil", "Organic_Matter"), "organic matter");
    EXPECT_EQ(nearest_key("slope", "lenght"), "length");
    EXPECT_EQ(nearest_key("soil", "weather"), "");
}

TEST(Messages, EveryCodeStandsInTheDocs) {
    const std::string page = text_of(in_root("docs/messages.md"));
    const std::string of_tests = text_of(in_root("docs/soak-tests.md"));
    std::set<std::string> codes;
    const std::regex written(R"re(\[([a-z0-9]+(?:-[a-z0-9]+)*)\]\n)re");
    for (const auto& entry : std::filesystem::directory_iterator(in_root("tests/abuse/golden"))) {
        if (entry.path().extension() != ".txt") continue;
        const std::string text = text_of(entry.path());
        for (auto match = std::sregex_iterator(text.begin(), text.end(), written); match != std::sregex_iterator();
             ++match)
            codes.insert((*match)[1]);
    }
    // And from the sources: reader.mistake(place, "code", ...) and its kin.
    const std::regex said(
        R"re((?:mistake|note|caution|Stop\{|refuse|WrongByte\{)\(?[^;"]*?,\s*"([a-z0-9]+(?:-[a-z0-9]+)*)",)re");
    for (const auto& entry : std::filesystem::directory_iterator(in_root("lib/input"))) {
        const std::string text = text_of(entry.path());
        for (auto match = std::sregex_iterator(text.begin(), text.end(), said); match != std::sregex_iterator();
             ++match)
            codes.insert((*match)[1]);
    }
    // Of gauge records: mistakes.add(line, offset, text, "code", ...) and say("code", ...).
    const std::regex of_rain(R"re((?:mistakes\.add\([^;"]*?,\s*(?:"",\s*)?|\bsay\()"([a-z0-9]+(?:-[a-z0-9]+)*)",)re");
    std::size_t rain_codes = 0;
    for (const auto& entry : std::filesystem::directory_iterator(in_root("lib/input"))) {
        const std::string text = text_of(entry.path());
        for (auto match = std::sregex_iterator(text.begin(), text.end(), of_rain); match != std::sregex_iterator();
             ++match, ++rain_codes)
            codes.insert((*match)[1]);
    }
    EXPECT_GE(rain_codes, 20U) << "the pattern no longer finds the codes of gauge records";
    // Of maps: RasterError(path, "code", ...), refuse("code", ...), {Weight::note, "code", ...}, caution("code", ...).
    const std::regex of_maps(
        R"re((?:RasterError\(|refuse\(|Weight::\w+,|caution\()[^;"]*?"([a-z0-9]+(?:-[a-z0-9]+)*)",)re");
    std::size_t map_codes = 0;
    std::vector<std::string> sources{in_root("lib/watershed/slope_map.cpp")};
    for (const auto& entry : std::filesystem::directory_iterator(in_root("lib/raster")))
        sources.push_back(entry.path());
    for (const std::string& path : sources) {
        const std::string text = text_of(path);
        for (auto match = std::sregex_iterator(text.begin(), text.end(), of_maps); match != std::sregex_iterator();
             ++match, ++map_codes)
            codes.insert((*match)[1]);
    }
    EXPECT_GE(map_codes, 50U) << "the pattern no longer finds the codes of maps";
    EXPECT_GE(codes.size(), 70U) << "the patterns no longer find the codes";
    for (const std::string& code : codes)
        EXPECT_TRUE(page.find("`" + code + "`") != std::string::npos || of_tests.find(code) != std::string::npos)
            << code << " is not in docs/messages.md";
}

TEST(Schema, TakesTheDemoFilesAndRefusesABareNumber) {
    // yaml and jsonschema of Python are an independent road; without them there is nothing to hold the schema to.
    if (std::system("python3 -c 'import yaml, jsonschema' 2>/dev/null") != 0)
        GTEST_SKIP() << "python3 lacks yaml or jsonschema";
    const std::string script = R"(
import sys, glob, json, yaml, jsonschema
root = sys.argv[1]
schema = json.load(open(root + '/docs/field-file.schema.json'))
class Loader(yaml.SafeLoader): pass
Loader.yaml_implicit_resolvers = {k: [r for r in v if 'timestamp' not in r[0]] for k, v in yaml.SafeLoader.yaml_implicit_resolvers.items()}
check = jsonschema.Draft7Validator(schema)
files = glob.glob(root + '/data/demo/*.yaml') + glob.glob(root + '/tests/field/measured/*.yaml')
assert len(files) >= 10
for f in files: check.validate(yaml.load(open(f), Loader))
bad = yaml.load(open(root + '/tests/abuse/golden/03-length-without-unit.yaml'), Loader)
assert not check.is_valid(bad)
)";
    const program::Folder folder;
    const std::filesystem::path path = folder.path + "/schema_check.py";
    std::ofstream(path) << script;
    EXPECT_EQ(std::system(("python3 '" + path.string() + "' '" SOILHOLD_ROOT "'").c_str()), 0);
}

}  // namespace
}  // namespace soilhold::input
