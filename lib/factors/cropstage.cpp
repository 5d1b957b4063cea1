#include "factors/cropstage.h"

#include <cmath>
#include <stdexcept>
#include <string>

#include "source/reference_table.h"
#include "source/row_origin.h"

namespace soilhold::factors {

namespace {

const source::Row& ratio_row(int line, std::string_view cropstage) {
    for (const source::Row& row : source::table("soil-loss-ratios").rows)
        if (static_cast<int>(row.number("line")) == line && row.text("cropstage") == cropstage) return row;
    throw std::invalid_argument("no soil-loss ratio at hand for line " + std::to_string(line) + ", stage " +
                                std::string(cropstage));
}

}  // namespace

double soil_loss_ratio(int line, std::string_view cropstage) {
    return ratio_row(line, cropstage).number("ratio_pct") / 100.0;
}

std::vector<std::string> stages_of_line(int line) {
    std::vector<std::string> stages;
    for (const source::Row& row : source::table("soil-loss-ratios").rows)
        if (static_cast<int>(row.number("line")) == line) stages.push_back(row.text("cropstage"));
    return stages;
}

source::Origin soil_loss_ratio_origin(int line, std::string_view cropstage) {
    return source::row_origin("cropstages-537", ratio_row(line, cropstage));
}

double cover_factor_of_stages(std::span<const Stage> stages) {
    double C = 0, shares = 0;
    for (const Stage& stage : stages) {
        if (!(stage.soil_loss_ratio >= 0 && stage.erosivity_share >= 0))
            throw std::invalid_argument("soil-loss ratios and shares of erosivity must not be negative");
        C += stage.soil_loss_ratio * stage.erosivity_share;
        shares += stage.erosivity_share;
    }
    if (std::abs(shares - 1.0) > 0.005) throw std::invalid_argument("the shares of the year's erosivity must sum to 1");
    return C;
}

}  // namespace soilhold::factors
