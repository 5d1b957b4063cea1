#include "watershed/loss_factors.h"

#include <fmt/format.h>

#include "raster/raster_error.h"
#include "units/unit.h"

namespace soilhold::watershed {

namespace {

constexpr std::array<double, 4> most{30000, units::erodibility_si_per_us, 1.2, 1};

}  // namespace

void check_factor_range(const std::string& path, const char* symbol, double most_there,
                        const raster::ValuesSeen& seen) {
    // A float's rounding is no mistake.
    const double least = seen.least, largest = seen.most, allowed = most_there * (1 + 1e-6);
    if (!(least < 0) && !(largest > allowed)) return;
    throw raster::RasterError(path, "factor-range",
                              fmt::format("it holds {:g}, and {} lies between 0 and {:.4g}. Does it hold classes, "
                                          "percent or another unit?",
                                          least < 0 ? least : largest, symbol, most_there));
}

FactorStrips::FactorStrips(const FactorsGiven& given, const raster::Placement& placement, const std::string& folder)
    : given_(given) {
    for (std::size_t i = 0; i < given.size(); ++i)
        if (!given[i].path.empty())
            layers_[i].emplace(given[i].path, placement, i == 0 ? raster::Between::bilinear : raster::Between::average,
                               raster::OntoOptions{}, given[i].unit, folder);
}

StripFactors FactorStrips::strips() {
    StripFactors factors;
    for (std::size_t i = 0; i < factors.size(); ++i) {
        factors[i].value = static_cast<float>(given_[i].value);
        if (layers_[i])
            factors[i].read = [this, i](std::int64_t row, terrain::Grid<float>& to) {
                check_factor_range(given_[i].path, factor_symbols[i], most[i], layers_[i]->read(row, to));
            };
    }
    return factors;
}

source::Remarks FactorStrips::lacks() const {
    source::Remarks all;
    for (const auto& layer : layers_) {
        if (!layer) continue;
        const source::Remarks one = layer->lacks();
        all.insert(all.end(), one.begin(), one.end());
    }
    return all;
}

}  // namespace soilhold::watershed
