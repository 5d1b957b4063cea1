#include "rotation/calendar_plan.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "factors/cover_subfactors.h"

namespace soilhold::rotation {

namespace {

double time_of(const Day& day) { return 365.0 * (day.year - 1) + (day.day - 1); }

double or_given(const std::optional<spread::Stated>& given, double usual) { return given ? given->value : usual; }

/// Makes a plan piece by piece.
struct Planner {
    const Rotation& rotation;
    const Climate& climate;
    const Adjustments& by;
    Plan plan{};
    std::vector<double> bases{};

    std::size_t residue_index(std::string_view name) {
        const Residue* wanted = &residue_of(name);
        const auto found = std::find(plan.residues.begin(), plan.residues.end(), wanted);
        if (found != plan.residues.end()) return static_cast<std::size_t>(found - plan.residues.begin());
        plan.residues.push_back(wanted);
        return plan.residues.size() - 1;
    }

    std::size_t warmth_index(double base_C) {
        const auto found = std::find(bases.begin(), bases.end(), base_C);
        if (found != bases.end()) return static_cast<std::size_t>(found - bases.begin());
        bases.push_back(base_C);
        plan.warmth.emplace_back(climate.temperature_C, base_C, by.growth);
        return bases.size() - 1;
    }

    double wrapped(double time) const { return time >= plan.length ? time - plan.length : time; }

    void happens(double time, Kind kind, std::size_t index, std::string words) {
        plan.events.push_back({wrapped(time), kind, index, std::move(words)});
    }

    /// First edge of a half-month after `from`, before `to`, from which on it is colder than `limit_C`.
    double first_cold(double from, double to, double limit_C) const {
        for (double year = 365.0 * std::floor(from / 365.0); year < to; year += 365.0)
            for (std::size_t i = 0; i < half_months; ++i) {
                const double edge = year + first_day(i) - 1;
                if (edge > from && edge < to && climate.temperature_C[i] < limit_C) return edge;
            }
        return to;
    }

    void rests_of(Stand& stand) {
        const double limit = stand.crop->rests_below_C;
        for (int year = stand.always ? -1 : 0; year <= plan.years * 2; ++year)
            for (std::size_t i = 0; i < half_months; ++i) {
                const bool turns = climate.temperature_C[i] < limit &&
                                   climate.temperature_C[(i + half_months - 1) % half_months] >= limit;
                const double edge = 365.0 * year + first_day(i) - 1;
                if (turns && (stand.always || (edge > stand.start && edge < stand.end))) stand.cuts.push_back(edge);
            }
    }

    void grow(const CropGrown& grown) {
        const Crop& crop = crop_of(grown.crop);
        Stand stand;
        stand.crop = &crop;
        stand.always = !grown.planted;
        stand.cover_crop = grown.cover_crop || crop.kind == "cover";
        stand.start = stand.always ? 0.0 : time_of(*grown.planted);
        stand.end = stand.always ? plan.length : time_of(*grown.ended);
        if (stand.end <= stand.start) stand.end += plan.length;
        stand.canopy = or_given(grown.canopy, crop.canopy);
        stand.height_m = or_given(grown.height, crop.height_m);
        stand.fall_height_m =
            by.fall_height * crop.fall_height_m * (crop.height_m > 0 ? stand.height_m / crop.height_m : 1);
        stand.roots_kg_ha = by.roots * or_given(grown.roots, crop.roots_kg_ha);
        stand.living_cover = crop.living_cover;
        stand.residue = residue_index(crop.residue);
        stand.warmth = warmth_index(crop.base_C);
        const Warmth& warmth = plan.warmth[stand.warmth];
        stand.warmth_at_start = warmth.until(stand.start);
        const std::size_t index = plan.stands.size();
        const std::string ending = crop.kind == "cover" || crop.kind == "perennial" || grown.cover_crop
                                       ? crop.name + " ended"
                                       : crop.name + " harvested";
        bool killed = false;
        if (crop.winter_killed && !stand.always) {
            const double cold = first_cold(stand.start, stand.end, crop.dies_below_C);
            killed = cold < stand.end;
            stand.end = cold;
            if (killed) plan.cold_deaths.push_back(crop.name);
        }
        const double warmth_at_end = warmth.until(stand.end) - stand.warmth_at_start;
        if (grown.residue)
            stand.residue_at_end_kg_ha = grown.residue->value;
        else if (stand.cover_crop && crop.top_growth_kg_ha > 0)
            stand.residue_at_end_kg_ha = crop.top_growth_kg_ha * top_growth_share(crop, warmth_at_end);
        else if (crop.kind == "perennial")
            stand.residue_at_end_kg_ha = crop.top_growth_kg_ha * grown_share(crop, warmth_at_end);
        else
            stand.residue_at_end_kg_ha = or_given(grown.yield, crop.usual_yield_kg_ha) * crop.residue_per_yield *
                                         (stand.cover_crop || killed ? top_growth_share(crop, warmth_at_end) : 1.0);
        stand.residue_at_end_kg_ha *= by.residue;
        if (crop.warmth_mature > 0 && crop.leaves_dropped > 0 && !stand.cover_crop) {
            const double ripe = warmth.reached(stand.warmth_at_start + crop.warmth_mature);
            if (ripe < stand.end) {
                stand.leaves_kg_ha = crop.leaves_dropped * stand.residue_at_end_kg_ha;
                stand.residue_at_end_kg_ha -= stand.leaves_kg_ha;
                happens(ripe, Kind::leaves, index, crop.name + " drops its leaves");
            }
        }
        if (crop.kind == "perennial") {
            stand.litter_kg_ha_day = by.residue * crop.litter_kg_ha_year / 365.0;
            stand.litter_from =
                stand.always ? 0.0 : std::min(stand.end, warmth.reached(stand.warmth_at_start + crop.warmth_full));
            if (crop.rests) rests_of(stand);
        }
        if (!stand.always) {
            happens(stand.start, Kind::planted, index, crop.name + " planted");
            happens(stand.end, Kind::end, index, killed ? crop.name + " killed by cold" : ending);
        }
        plan.stands.push_back(std::move(stand));
    }

    void operate(const OperationDone& done) {
        const Operation& tool = operation_of(done.operation);
        PlannedOperation planned;
        const double tabled = or_given(done.roughness, tool.roughness_mm);
        planned.disturbed = tabled > 0 ? or_given(done.disturbed, tool.disturbed) : 0.0;
        planned.roughness_mm =
            factors::unit_plot_roughness_mm + by.roughness * (tabled - factors::unit_plot_roughness_mm);
        planned.kept_shallow = tool.kept_shallow;
        planned.removes = tool.removes;
        for (const Residue* residue : plan.residues)
            planned.left.push_back(
                std::pow(or_given(done.left, residue->fragile ? tool.left_fragile : tool.left_nonfragile), by.left));
        const double time = time_of(done.on);
        if (tool.cuts)
            for (Stand& stand : plan.stands)
                for (const double turn : {-plan.length, 0.0, plan.length})
                    if (stand.crop->kind == "perennial" &&
                        (stand.always || (time + turn > stand.start && time + turn < stand.end)))
                        stand.cuts.push_back(time + turn);
        // A harvest is told with its crop.
        happens(time, Kind::operation, plan.operations.size(), tool.name == "harvest" ? "" : tool.name);
        plan.operations.push_back(std::move(planned));
    }

    double grazing_at(double time) const {
        double rate = 0;
        for (const Grazed& one : plan.grazed)
            for (const double turn : {0.0, plan.length})
                if (time + turn >= one.from && time + turn < one.to)
                    rate -= std::log1p(-one.taken) / (one.to - one.from);
        return rate;
    }

    void stretch() {
        std::stable_sort(plan.events.begin(), plan.events.end(), [](const Event& a, const Event& b) {
            return a.at < b.at || (a.at == b.at && a.kind < b.kind);
        });
        std::vector<double> edges;
        for (int year = 0; year < plan.years; ++year)
            for (std::size_t i = 0; i < half_months; ++i) edges.push_back(365.0 * year + first_day(i) - 1);
        for (const Event& event : plan.events) edges.push_back(event.at);
        for (const Grazed& one : plan.grazed)
            for (const double time : {one.from, one.to}) edges.push_back(wrapped(time));
        for (const Stand& stand : plan.stands)
            if (stand.litter_kg_ha_day > 0) edges.push_back(wrapped(stand.litter_from));
        edges.push_back(plan.length);
        std::sort(edges.begin(), edges.end());
        edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
        std::size_t event = 0;
        for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
            Stretch one;
            one.from = edges[i];
            one.to = edges[i + 1];
            one.year = static_cast<std::size_t>(one.from / 365.0);
            one.half_month = half_month_of(static_cast<int>(one.from - 365.0 * static_cast<double>(one.year)) + 1);
            one.first_event = event;
            while (event < plan.events.size() && plan.events[event].at <= one.from) ++event;
            one.events = event - one.first_event;
            one.grazing_per_day = grazing_at(0.5 * (one.from + one.to));
            plan.stretches.push_back(one);
        }
    }
};

}  // namespace

Plan plan_of(const Rotation& rotation, const Climate& climate, const Adjustments& adjustments,
             const std::optional<Day>& probe) {
    if (const auto problems = problems_of(rotation); !problems.empty())
        throw std::invalid_argument(problems.front().text);
    Planner planner{rotation, climate, adjustments};
    planner.plan.years = rotation.years;
    planner.plan.length = 365.0 * rotation.years;
    for (const CropGrown& crop : rotation.crops) planner.grow(crop);
    for (std::size_t i = 0; i < rotation.added.size(); ++i) {
        planner.residue_index(rotation.added[i].residue);
        planner.happens(time_of(rotation.added[i].on), Kind::added, i, rotation.added[i].residue + " added");
    }
    for (std::size_t i = 0; i < rotation.removed.size(); ++i)
        planner.happens(time_of(rotation.removed[i].on), Kind::removed, i, "residue removed");
    for (const OperationDone& done : rotation.operations) planner.operate(done);
    for (Stand& stand : planner.plan.stands) std::sort(stand.cuts.begin(), stand.cuts.end());
    for (const Grazing& grazing : rotation.grazing) {
        const double from = time_of(grazing.from), to = time_of(grazing.to);
        planner.plan.grazed.push_back({from, to > from ? to : to + planner.plan.length, grazing.taken.value});
    }
    if (probe) planner.plan.events.push_back({time_of(*probe) + 0.5, Kind::probe, 0, ""});
    planner.stretch();
    return std::move(planner.plan);
}

Standing standing_at(const Plan& plan, const Stand& stand, double time) {
    Standing shown;
    double at = time;
    if (!stand.always) {
        if (at < stand.start) at += plan.length;
        if (at >= stand.end) return shown;
    }
    shown.stands = true;
    const Warmth& warmth = plan.warmth[stand.warmth];
    const Crop& crop = *stand.crop;
    const double since_start = stand.always ? 1e9 : warmth.until(at) - stand.warmth_at_start;
    const double grown = stand.always ? 1.0 : grown_share(crop, since_start);
    double canopy = stand.always && crop.kind != "perennial" ? 1.0 : canopy_share(crop, since_start);
    double height = grown;
    const auto last = std::upper_bound(stand.cuts.begin(), stand.cuts.end(), at);
    if (last != stand.cuts.begin()) {
        const double again =
            regrown_share(crop, warmth.until(at + plan.length) - warmth.until(*(last - 1) + plan.length));
        canopy = std::min(canopy, again);
        height = std::min(height, again);
    }
    for (const Grazed& one : plan.grazed) {
        if (crop.kind != "perennial" && !stand.cover_crop) continue;
        // Animals take it little by little; when they leave, warmth brings it back.
        double since = std::fmod(time - one.from + 2.0 * plan.length, plan.length);
        const double stay = one.to - one.from;
        const double taken =
            since < stay ? one.taken * since / stay
                         : one.taken * (1.0 - smooth_growth((warmth.until(one.from + since) - warmth.until(one.to)) /
                                                            (0.6 * crop.warmth_full)));
        canopy *= 1.0 - taken;
        height *= 1.0 - taken;
    }
    shown.canopy = stand.canopy * canopy;
    shown.height_m = stand.height_m * height;
    shown.fall_height_m = stand.fall_height_m * height;
    shown.roots_kg_ha = stand.roots_kg_ha * grown;
    shown.living_cover = stand.living_cover * grown;
    return shown;
}

}  // namespace soilhold::rotation
