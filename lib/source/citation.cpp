#include "source/citation.h"

#include <stdexcept>

#include "source/reference_table.h"

namespace soilhold::source {

std::string_view words_for(Standing standing) {
    switch (standing) {
        case Standing::read_in_source:
            return "read in the source";
        case Standing::from_memory:
            return "from memory, check the source";
        case Standing::our_assumption:
            return "our assumption";
        case Standing::users_figure:
            return "your figure";
        case Standing::computed:
            return "computed";
        case Standing::common_practice:
            return "common practice, no source";
    }
    return "unknown";
}

Standing standing_from(std::string_view word) {
    if (word == "read") return Standing::read_in_source;
    if (word == "memory") return Standing::from_memory;
    if (word == "assumption") return Standing::our_assumption;
    if (word == "computed") return Standing::computed;
    if (word == "practice") return Standing::common_practice;
    throw std::runtime_error("no standing is called '" + std::string(word) + "'");
}

const std::vector<Citation>& all_citations() {
    static const std::vector<Citation> records = [] {
        std::vector<Citation> list;
        for (const Row& row : table("citations").rows)
            list.push_back({row.text("key"), row.text("short"), row.text("source"), standing_from(row.text("standing")),
                            row.text("note")});
        return list;
    }();
    return records;
}

const Citation& citation(std::string_view key) {
    for (const Citation& record : all_citations())
        if (record.key == key) return record;
    throw std::out_of_range("no citation '" + std::string(key) + "' in data/reference/citations.csv");
}

Origin origin_of(std::string_view citation_key) {
    const Citation& record = citation(citation_key);
    return {record.short_form, record.key, record.standing};
}

}  // namespace soilhold::source
