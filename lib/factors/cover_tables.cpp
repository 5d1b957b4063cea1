#include "factors/cover_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "factors/cropstage.h"
#include "factors/mulch.h"
#include "factors/pasture_cover.h"
#include "factors/woodland.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

using source::in_working;

source::Step given(std::string symbol, std::string words, double value, std::string unit, const source::Origin& from) {
    return {std::move(symbol), std::move(words), "", "", value, std::move(unit), from};
}

spread::Uncertain of_table(double C, source::Origin origin, std::string_view kind, source::Steps steps,
                           std::optional<spread::Range> range = {}) {
    return spread::with_spread({C, range, std::move(origin)}, kind, std::move(steps));
}

// --- woodland

spread::Uncertain of_woodland(const WoodlandCover& cover) {
    source::Steps steps = {given("canopy", "share of the ground under trees", cover.canopy_pct, "%", cover.origin),
                           given("duff", "share of the ground under duff", cover.duff_pct, "%", cover.origin)};
    if (cover.reprint) {
        const auto C = undisturbed_forest_cover_factor(cover.canopy_pct, cover.duff_pct);
        if (!C)
            throw std::invalid_argument(
                fmt::format("the reprint of the table of woodland ends at 20 % canopy and 40 % litter; here are {:g} % "
                            "and {:g} %",
                            cover.canopy_pct, cover.duff_pct));
        const source::Origin origin = source::origin_of("woodland-reprint");
        steps.push_back(given("C", "the richest row that this ground reaches", *C, "1", origin));
        return of_table(*C, origin, "cover-woodland", std::move(steps));
    }
    const auto band = woodland_cover_factor(cover.canopy_pct, cover.duff_pct);
    if (!band)
        throw std::invalid_argument(
            fmt::format("the table of woodland has no band that holds a canopy of {:g} % over {:g} % duff; its bands "
                        "are: {}",
                        cover.canopy_pct, cover.duff_pct, woodland_bands()));
    const double C = std::sqrt(band->low * band->high);
    steps.push_back(given("C least", "the row for " + band->band + ", its lower end", band->low, "1", band->origin));
    steps.push_back(given("C most", "its upper end", band->high, "1", band->origin));
    steps.push_back({"C", "the middle of that range by ratio (ours)", "sqrt(C least x C most)",
                     "sqrt(" + in_working(band->low) + " x " + in_working(band->high) + ")", C, "1", band->origin});
    return of_table(C, band->origin, "cover-woodland", std::move(steps), spread::Range{band->low, band->high});
}

// --- mulch

std::string tons(double rate) { return fmt::format("{:g} US {} an acre", rate, rate == 1 ? "ton" : "tons"); }

/// The table's rate that a written one means: rates are rounded when they are converted.
double rate_of_table(const MulchOnSlope& cover) {
    const std::vector<double> rates = mulch_rates(cover.material);
    std::string known;
    for (const double rate : rates) {
        if (std::abs(cover.tons_per_acre - rate) <= 0.01 * rate) return rate;
        known += fmt::format("{}{:g}", known.empty() ? "" : ", ", rate);
    }
    if (rates.empty()) throw std::invalid_argument("the table of mulches has no '" + cover.material + "'");
    throw std::invalid_argument(
        fmt::format("the table has {} at {} US tons an acre, and not at {:.3g}; between rates it says nothing",
                    cover.material, known, cover.tons_per_acre));
}

spread::Uncertain of_mulch(const MulchOnSlope& cover, const std::optional<GroundSlope>& slope) {
    if (!slope) throw std::invalid_argument("mulch needs the slope that it lies on");
    const double rate = rate_of_table(cover), slope_pct = 100 * slope->gradient;
    const ClassLimits slopes = mulch_slopes(cover.material, rate);
    MulchCover row;
    try {
        row = construction_mulch(cover.material, rate, {slope_pct, slope_pct});
    } catch (const std::invalid_argument&) {
        throw std::invalid_argument(
            fmt::format("the table holds {} at {} for slopes of {:g} to {:g} %; this one has {:.3g} %", cover.material,
                        tons(rate), slopes.from, slopes.to, slope_pct));
    }
    const double limit_m = row.length_limit_m.value();
    if (slope->length_m > limit_m * (1 + 1e-9))
        throw std::invalid_argument(
            fmt::format("{} at {} on {:.3g} % holds up to {:.0f} ft ({:.0f} m) of slope; here are "
                        "{:.0f} ft ({:.0f} m), where water undercuts it and the table has no C",
                        cover.material, tons(rate), slope_pct, limit_m / units::metre_per_foot, limit_m,
                        slope->length_m / units::metre_per_foot, slope->length_m));
    const std::string words = fmt::format("the row of {} for {} %", cover.material, row.slope_class);
    source::Steps steps = {
        given("rate", cover.material + " in US tons an acre", rate, "t/ac", cover.origin),
        given("limit",
              fmt::format("longest slope on which it holds; this one has {} ft, {} m",
                          in_working(slope->length_m / units::metre_per_foot), in_working(slope->length_m)),
              limit_m, "m", row.origin),
        given("C", words, row.C, "1", row.origin)};
    return of_table(row.C, row.origin, "cover-mulch", std::move(steps));
}

// --- covers of building sites

spread::Uncertain of_site(const SiteCover& cover) {
    const double C = site_cover_factor(cover.by, cover.cover);
    const source::Origin origin = site_cover_origin(cover.by, cover.cover);
    spread::Uncertain result =
        of_table(C, origin, "cover-site", {given("C", "row '" + cover.cover + "'", C, "1", origin)});
    result.remarks.push_back(
        {source::Weight::note, "site-cover-limits",
         "The list of site covers gives no length or steepness up to which its C holds; on long or "
         "steep slopes water runs under a mulch and takes it along."});
    return result;
}

// --- cropstages

spread::Uncertain of_stages(const StagedCover& cover) {
    source::Steps steps;
    std::vector<Stage> stages;
    std::string working;
    std::optional<source::Origin> from_table;
    for (const StageOfYear& stage : cover.stages) {
        if (stage.ratio.has_value() == stage.line.has_value())
            throw std::invalid_argument("a stage has a ratio, or a line of the table to take it from");
        const double ratio = stage.ratio ? *stage.ratio : soil_loss_ratio(*stage.line, stage.stage);
        source::Origin origin = cover.origin;
        if (stage.line) from_table = origin = soil_loss_ratio_origin(*stage.line, stage.stage);
        steps.push_back(given("ratio",
                              fmt::format("soil-loss ratio of stage {}{}", stage.stage,
                                          stage.line ? fmt::format(", line {}", *stage.line) : ", as given"),
                              ratio, "1", origin));
        steps.push_back(given("share", fmt::format("of the year's erosive rain in stage {}", stage.stage),
                              stage.erosivity_share, "1", cover.origin));
        working += fmt::format("{}{} x {}", working.empty() ? "" : " + ", in_working(ratio),
                               in_working(stage.erosivity_share));
        stages.push_back({ratio, stage.erosivity_share});
    }
    const double C = cover_factor_of_stages(stages);
    if (!(C > 0)) throw std::invalid_argument("C of the stages comes to 0; no ground loses nothing all year");
    // The sum rests on its weakest figures; a ratio of the handbook is named though the shares are the user's.
    source::Origin origin = from_table.value_or(cover.origin);
    steps.push_back({"C", "each ratio by its share, together", "sum ratio x share", working, C, "1", origin});
    return of_table(C, std::move(origin), "cover-stages", std::move(steps));
}

}  // namespace

bool holds_prior_land_use(const CoverOfTable& cover) {
    if (const auto* site = std::get_if<SiteCover>(&cover)) return site->cover == "native vegetation undisturbed";
    return !std::holds_alternative<MulchOnSlope>(cover);
}

spread::Uncertain cover_of_table(const CoverOfTable& cover, const std::optional<GroundSlope>& slope) {
    if (const auto* pasture = std::get_if<PastureCover>(&cover)) return cover_of_pasture(*pasture);
    if (const auto* woodland = std::get_if<WoodlandCover>(&cover)) return of_woodland(*woodland);
    if (const auto* mulch = std::get_if<MulchOnSlope>(&cover)) return of_mulch(*mulch, slope);
    if (const auto* site = std::get_if<SiteCover>(&cover)) return of_site(*site);
    return of_stages(std::get<StagedCover>(cover));
}

}  // namespace soilhold::factors
