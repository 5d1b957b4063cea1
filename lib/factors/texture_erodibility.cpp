#include "factors/texture_erodibility.h"

#include <optional>
#include <stdexcept>
#include <string>

#include "source/reference_table.h"

namespace soilhold::factors {

double texture_erodibility_stewart_us(std::string_view texture, double organic_matter_pct) {
    std::optional<double> from, K_from;
    for (const source::Row& row : source::table("texture-erodibility").rows) {
        if (row.text("by") != "stewart" || row.text("texture") != texture) continue;
        const double to = row.number("organic_matter"), K_to = row.number("K_us");
        if (organic_matter_pct == to) return K_to;
        if (from && organic_matter_pct > *from && organic_matter_pct < to)
            return *K_from + (K_to - *K_from) * (organic_matter_pct - *from) / (to - *from);
        from = to;
        K_from = K_to;
    }
    if (from) throw std::invalid_argument("this table of K reaches from 0.5 to 4 % organic matter");
    throw std::invalid_argument("this table of K has no texture '" + std::string(texture) + "'");
}

double texture_erodibility_ontario_us(std::string_view texture, std::string_view organic_matter) {
    for (const source::Row& row : source::table("texture-erodibility").rows)
        if (row.text("by") == "ontario" && row.text("texture") == texture &&
            row.text("organic_matter") == organic_matter)
            return row.number("K_us");
    throw std::invalid_argument("this table of K has no cell for '" + std::string(texture) + "' with organic matter '" +
                                std::string(organic_matter) + "' (average, below 2 pct, above 2 pct)");
}

}  // namespace soilhold::factors
