#include "factors/nomograph_codes.h"

#include <stdexcept>
#include <string>

#include "source/reference_table.h"

namespace soilhold::factors {

namespace {

int code_of(std::string_view table, std::string_view column, std::string_view words) {
    std::string known;
    for (const source::Row& row : source::table(table).rows) {
        if (row.text(column) == words) return static_cast<int>(row.number("code"));
        known += (known.empty() ? "" : ", ") + row.text(column);
    }
    throw std::invalid_argument("no " + std::string(column) + " '" + std::string(words) + "'; there are " + known);
}

std::vector<std::string_view> words_of(std::string_view table, std::string_view column) {
    std::vector<std::string_view> words;
    for (const source::Row& row : source::table(table).rows) words.push_back(row.text(column));
    return words;
}

}  // namespace

int structure_code(std::string_view structure) {
    std::string plain(structure);
    std::erase(plain, ',');
    return code_of("structure-codes", "structure", plain);
}

int permeability_code_of_word(std::string_view permeability) {
    return code_of("permeability-words", "permeability", permeability);
}

std::vector<std::string_view> structure_words() { return words_of("structure-codes", "structure"); }
std::vector<std::string_view> permeability_words() { return words_of("permeability-words", "permeability"); }

int permeability_code(double conductivity_um_s) {
    if (!(conductivity_um_s >= 0)) throw std::invalid_argument("saturated conductivity must not be negative");
    for (const source::Row& row : source::table("permeability-codes").rows)
        if (row.empty("below_um_s") || conductivity_um_s < row.number("below_um_s"))
            return static_cast<int>(row.number("code"));
    throw std::logic_error("permeability-codes.csv has no open class");
}

int permeability_code_of_texture(std::string_view texture) {
    return code_of("texture-permeability", "texture", texture);
}

}  // namespace soilhold::factors
