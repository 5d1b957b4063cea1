#include "rotation/cover_calendar.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "factors/cover_subfactors.h"
#include "factors/residue.h"
#include "rotation/roughness.h"
#include "units/unit.h"

namespace soilhold::rotation {

namespace {

constexpr double lb_per_kg = 1.0 / units::kg_ha_per_lb_acre;  // lb/acre per kg/ha
constexpr double lb_in_per_kg = lb_per_kg / 4.0;              // lb/(acre in) of the top 4 inches per kg/ha
constexpr double years_of_memory = 7.0;                       // what rest does is done by then

/// What the ground carries over from day to day; masses by residue, kg/ha.
struct Ground {
    std::vector<double> on, in, dead_roots;
    double rough_mm = 0;  ///< above the unit plot's
    double years_at_rest = years_of_memory;
    double years_since_tillage = 1000.0;
};

/// What a stretch does to it, found once for all rounds.
struct Course {
    std::vector<double> rot_per_day, litter_kg_ha_day;  ///< by residue
    double wear_per_day = 0;                            ///< of roughness, ln
};

class Runner {
  public:
    Runner(const Rotation& rotation, const Climate& climate, const Adjustments& adjustments, const Plan& plan)
        : rotation_(rotation), climate_(climate), adjust_(adjustments), plan_(plan) {
        for (const Stretch& stretch : plan_.stretches) courses_.push_back(course_of(stretch));
        const std::size_t n = plan_.residues.size();
        ground_.on.assign(n, 0.0);
        ground_.in = ground_.dead_roots = ground_.on;
    }

    /// Rounds until the end is the beginning. Residue goes by at least some share a round, save in a desert.
    bool settle() {
        for (int round = 0; round < 500; ++round) {
            const Ground before = ground_;
            for (std::size_t i = 0; i < plan_.stretches.size(); ++i) {
                happen(plan_.stretches[i]);
                pass(plan_.stretches[i], courses_[i], plan_.stretches[i].to - plan_.stretches[i].from);
            }
            if (same(before)) return true;
        }
        return false;
    }

    void measure(Calendar& calendar, double step_days) {
        for (std::size_t i = 0; i < plan_.stretches.size(); ++i) {
            const Stretch& stretch = plan_.stretches[i];
            CalendarRow& row = calendar.rows[stretch.year * half_months + stretch.half_month];
            happen(stretch, &row, &calendar);
            const double length = stretch.to - stretch.from;
            const int steps = std::max(1, static_cast<int>(std::ceil(length / step_days - 1e-9)));
            const double step = length / steps;
            for (int s = 0; s < steps; ++s) {
                pass(stretch, courses_[i], 0.5 * step);
                look(stretch.from + (s + 0.5) * step, step / days_of(stretch), row, calendar);
                pass(stretch, courses_[i], 0.5 * step);
            }
        }
    }

  private:
    static double days_of(const Stretch& stretch) {
        return first_day(stretch.half_month + 1) - first_day(stretch.half_month);
    }

    Course course_of(const Stretch& stretch) const {
        Course course;
        const std::size_t i = stretch.half_month;
        const double shared = adjust_.decay * rot_per_day(1.0, climate_.temperature_C[i], climate_.rain_mm[i]);
        for (const Residue* residue : plan_.residues) course.rot_per_day.push_back(shared * residue->rot_per_day);
        course.litter_kg_ha_day.assign(plan_.residues.size(), 0.0);
        const double middle = 0.5 * (stretch.from + stretch.to);
        for (const Stand& stand : plan_.stands) {
            const double at = middle < stand.start ? middle + plan_.length : middle;
            if (stand.litter_kg_ha_day > 0 && at >= stand.litter_from && at < stand.end)
                course.litter_kg_ha_day[stand.residue] += stand.litter_kg_ha_day;
        }
        const double rain_in = climate_.rain_mm[i] / 25.4;
        const double erosivity_us = climate_.erosivity / units::erosivity_si_per_us * climate_.erosivity_share[i];
        course.wear_per_day = std::log(factors::roughness_left(rain_in, erosivity_us)) / days_of(stretch);
        return course;
    }

    /// Time passes: what lies rots, what stands drops litter, rain wears, the ground settles.
    void pass(const Stretch& stretch, const Course& course, double days) {
        for (std::size_t k = 0; k < ground_.on.size(); ++k) {
            const double rot = course.rot_per_day[k], gone = rot + stretch.grazing_per_day;
            const double kept = std::exp(-rot * days);
            const double kept_on = stretch.grazing_per_day > 0 ? std::exp(-gone * days) : kept;
            const double litter = course.litter_kg_ha_day[k];
            ground_.on[k] *= kept_on;
            if (litter > 0) ground_.on[k] += gone > 0 ? litter / gone * (1.0 - kept_on) : litter * days;
            ground_.in[k] *= kept;
            ground_.dead_roots[k] *= kept;
        }
        ground_.rough_mm *= std::exp(course.wear_per_day * days);
        ground_.years_at_rest = std::min(years_of_memory, ground_.years_at_rest + days / 365.0);
        ground_.years_since_tillage += days / 365.0;
    }

    void happen(const Stretch& stretch, CalendarRow* row = nullptr, Calendar* calendar = nullptr) {
        for (std::size_t e = stretch.first_event; e < stretch.first_event + stretch.events; ++e) {
            const Event& event = plan_.events[e];
            if (row && !event.words.empty()) row->happenings.push_back(event.words);
            if (event.kind == Kind::probe) {
                if (calendar) calendar->probed_cover_pct = 100.0 * residue_cover();
            } else {
                change(event, stretch.from);
            }
        }
    }

    void change(const Event& event, double time) {
        switch (event.kind) {
            case Kind::end: {
                const Stand& stand = plan_.stands[event.index];
                ground_.on[stand.residue] += stand.residue_at_end_kg_ha;
                ground_.dead_roots[stand.residue] += roots_at_end(stand);
                break;
            }
            case Kind::leaves:
                ground_.on[plan_.stands[event.index].residue] += plan_.stands[event.index].leaves_kg_ha;
                break;
            case Kind::added: {
                const ResidueAdded& added = rotation_.added[event.index];
                const Residue* wanted = &residue_of(added.residue);
                for (std::size_t k = 0; k < plan_.residues.size(); ++k)
                    if (plan_.residues[k] == wanted) ground_.on[k] += added.mass.value;
                break;
            }
            case Kind::removed:
                for (double& mass : ground_.on) mass *= 1.0 - rotation_.removed[event.index].share.value;
                break;
            case Kind::operation:
                operate(plan_.operations[event.index], time);
                break;
            case Kind::planted:
            case Kind::probe:
                break;
        }
    }

    double roots_at_end(const Stand& stand) const {
        const double since = plan_.warmth[stand.warmth].until(stand.end) - stand.warmth_at_start;
        return stand.roots_kg_ha * grown_share(*stand.crop, since);
    }

    void operate(const PlannedOperation& tool, double time) {
        for (std::size_t k = 0; k < ground_.on.size(); ++k) {
            // What lay in the top 4 inches goes down with what is turned under.
            ground_.in[k] *= tool.kept_shallow;
            ground_.dead_roots[k] *= tool.kept_shallow;
            const double x = plan_.residues[k]->area_per_mass_acre_lb * ground_.on[k] * lb_per_kg;
            const double kept = ground_.on[k] * mass_share_left(x, tool.left[k]);
            ground_.in[k] += tool.kept_shallow * (ground_.on[k] - kept);
            ground_.on[k] = kept * (1.0 - tool.removes);
        }
        if (tool.disturbed <= 0) return;
        double biomass = living_roots(time);
        for (std::size_t k = 0; k < ground_.in.size(); ++k) biomass += ground_.in[k] + ground_.dead_roots[k];
        const double made = factors::roughness_after_operation_mm(tool.roughness_mm, biomass * lb_in_per_kg);
        const double base = factors::unit_plot_roughness_mm;
        ground_.rough_mm = roughness_after_mm(made, base + ground_.rough_mm, tool.disturbed) - base;
        ground_.years_at_rest = years_at_rest_after(ground_.years_at_rest, tool.disturbed);
        if (is_tillage(tool.disturbed)) ground_.years_since_tillage = 0;
    }

    double living_roots(double time) const {
        double roots = 0;
        for (const Stand& stand : plan_.stands) roots += standing_at(plan_, stand, time).roots_kg_ha;
        return roots;
    }

    double residue_cover() const {
        double x = 0;
        for (std::size_t k = 0; k < ground_.on.size(); ++k)
            x += plan_.residues[k]->area_per_mass_acre_lb * ground_.on[k] * lb_per_kg;
        return -std::expm1(-x);
    }

    /// The ratio at one moment, added to its half-month with the weight of its days.
    void look(double time, double weight, CalendarRow& row, Calendar& calendar) const {
        double open = 1, bare = 1, canopies = 0, falls = 0, roots = 0;
        for (const Stand& stand : plan_.stands) {
            const Standing shown = standing_at(plan_, stand, time);
            if (!shown.stands) continue;
            open *= 1.0 - shown.canopy;
            bare *= 1.0 - shown.living_cover;
            canopies += shown.canopy;
            falls += shown.canopy * shown.fall_height_m;
            roots += shown.roots_kg_ha;
            row.height_m = std::max(row.height_m, shown.height_m);
        }
        double on = 0, in = 0;
        for (std::size_t k = 0; k < ground_.on.size(); ++k) {
            on += ground_.on[k];
            in += ground_.in[k];
            roots += ground_.dead_roots[k];
        }
        const double residue = residue_cover(), cover = 1.0 - bare * (1.0 - residue);
        const double fall = canopies > 0 ? falls / canopies : 0.0;
        const double rough = factors::unit_plot_roughness_mm + ground_.rough_mm;
        const double b = rotation_.residue_effectiveness_b * adjust_.residue_effectiveness;
        const double Cf = std::pow(factors::consolidation_subfactor(ground_.years_at_rest), adjust_.consolidation);
        const double PLU = factors::prior_land_use_subfactor(Cf, roots * lb_in_per_kg, in * lb_in_per_kg);
        const double CC = factors::canopy_subfactor(std::clamp(1.0 - open, 0.0, 1.0), fall);
        const double SC = factors::surface_cover_subfactor(std::clamp(cover, 0.0, 1.0), b, rough);
        const double SR = factors::surface_roughness_subfactor(rough);
        const double SLR = PLU * CC * SC * SR;
        row.canopy += weight * (1.0 - open);
        row.fall_height_m += weight * fall;
        row.cover_pct += weight * 100.0 * cover;
        row.residue_cover_pct += weight * 100.0 * residue;
        row.residue_on_kg_ha += weight * on;
        row.residue_in_kg_ha += weight * in;
        row.roots_kg_ha += weight * roots;
        row.roughness_mm += weight * rough;
        row.Cf += weight * Cf;
        row.PLU += weight * PLU;
        row.CC += weight * CC;
        row.SC += weight * SC;
        row.SR += weight * SR;
        row.SLR += weight * SLR;
        if (calendar.years_since_tillage)
            *calendar.years_since_tillage += weight * row.erosivity_share * ground_.years_since_tillage;
    }

    bool same(const Ground& before) const {
        const auto close = [](double a, double b) { return std::abs(a - b) <= 1e-6 + 1e-7 * std::abs(a); };
        bool all = close(before.rough_mm, ground_.rough_mm) && close(before.years_at_rest, ground_.years_at_rest);
        for (std::size_t k = 0; k < ground_.on.size(); ++k)
            all = all && close(before.on[k], ground_.on[k]) && close(before.in[k], ground_.in[k]) &&
                  close(before.dead_roots[k], ground_.dead_roots[k]);
        return all;
    }

    const Rotation& rotation_;
    const Climate& climate_;
    const Adjustments& adjust_;
    const Plan& plan_;
    std::vector<Course> courses_;
    Ground ground_;
};

}  // namespace

Calendar cover_calendar(const Rotation& rotation, const Climate& climate, const Adjustments& adjustments,
                        const std::optional<Day>& probe, double step_days) {
    if (!(step_days > 0)) throw std::invalid_argument("a step of time must be above 0 days");
    double shares = 0;
    for (const double share : climate.erosivity_share) shares += share;
    if (std::abs(shares - 1.0) > 0.005) throw std::invalid_argument("the shares of the year's erosivity must sum to 1");
    const Plan plan = plan_of(rotation, climate, adjustments, probe);
    Calendar calendar;
    calendar.years = rotation.years;
    calendar.cold_deaths = plan.cold_deaths;
    if (std::any_of(plan.operations.begin(), plan.operations.end(),
                    [](const PlannedOperation& tool) { return is_tillage(tool.disturbed); }))
        calendar.years_since_tillage = 0.0;
    for (int year = 1; year <= rotation.years; ++year)
        for (std::size_t i = 0; i < half_months; ++i) {
            CalendarRow row;
            row.year = year;
            row.half_month = i;
            row.begins = {year, first_day(i)};
            row.erosivity_share = climate.erosivity_share[i] / rotation.years;
            calendar.rows.push_back(std::move(row));
        }
    Runner runner(rotation, climate, adjustments, plan);
    calendar.steady = runner.settle();
    runner.measure(calendar, step_days);
    calendar.C_of_year.assign(static_cast<std::size_t>(rotation.years), 0.0);
    double Cf = 0;
    for (CalendarRow& row : calendar.rows) {
        row.contribution = row.SLR * row.erosivity_share;
        calendar.C += row.contribution;
        calendar.C_of_year[static_cast<std::size_t>(row.year - 1)] += row.contribution * rotation.years;
        calendar.PLU += row.PLU * row.erosivity_share;
        calendar.CC += row.CC * row.erosivity_share;
        calendar.SC += row.SC * row.erosivity_share;
        calendar.SR += row.SR * row.erosivity_share;
        calendar.cover_pct += row.cover_pct * row.erosivity_share;
        Cf += row.Cf * row.erosivity_share;
    }
    calendar.mean_consolidation = std::clamp(Cf, 0.45, 1.0);
    calendar.years_at_rest = years_of_consolidation(calendar.mean_consolidation);
    calendar.credited_share = (1.0 - calendar.mean_consolidation) / (1.0 - 0.45);
    return calendar;
}

}  // namespace soilhold::rotation
