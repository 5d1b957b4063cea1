#include "factors/quantities.h"

// One storm: the handbook's worksheet line by line, and its worked storm as a whole.
#include <cstdio>
#include <stdexcept>

#include "factors/gauge_record.h"
#include "factors/rain_energy.h"
#include "source/reference_table.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

constexpr double mm_per_inch = 25.4;

double clock_minutes(const std::string& clock) {
    int hours = 0, minutes = 0;
    char rest = '\0';
    if (std::sscanf(clock.c_str(), "%d:%d%c", &hours, &minutes, &rest) != 2 || minutes < 0 || minutes > 59)
        throw std::invalid_argument("'" + clock + "' is no clock time such as 4:27");
    return 60.0 * hours + minutes;
}

std::vector<Breakpoint> worked_storm() {
    std::vector<Breakpoint> chart;
    for (const source::Row& row : source::table("worked-storm").rows)
        chart.push_back({clock_minutes(row.text("clock")), row.number("depth_in") * mm_per_inch});
    return chart;
}

Rain rain_of(const std::vector<Breakpoint>& chart) { return record_of_breakpoints(chart).rain; }

/// The readings that bound "increments 2..5" of the worked storm.
std::vector<Breakpoint> part_of_worked_storm(const std::string& written) {
    const std::vector<Breakpoint> chart = worked_storm();
    int from = 0, to = 0;
    char rest = '\0';
    const int last = static_cast<int>(chart.size()) - 1;
    if (std::sscanf(written.c_str(), "increments %d..%d%c", &from, &to, &rest) != 2 || from < 1 || to < from ||
        to > last)
        throw std::invalid_argument("'" + written + "' is not written 'increments 1..8' within the worked storm");
    return {chart.begin() + from - 1, chart.begin() + to + 1};
}

}  // namespace

std::vector<Quantity> storm_quantities() {
    return {
        {"storm_increment_intensity",
         "in/h",
         {"increment?", "minutes", "depth_in"},
         [](const Inputs& in) {
             return by_equation(60.0 * in.not_negative("depth_in") / in.positive("minutes"), "storm-537");
         }},
        {"storm_increment_unit_energy",
         "ft-tonf/(acre in)",
         {"increment?", "i_in_per_h"},
         [](const Inputs& in) {
             return by_equation(unit_energy_537_us(in.not_negative("i_in_per_h")), "unit-energy-537");
         }},
        {"storm_increment_energy",
         "ft-tonf/acre",
         {"increment?", "depth_in", "unit_energy"},
         [](const Inputs& in) {
             return by_equation(in.not_negative("depth_in") * in.not_negative("unit_energy"), "storm-537");
         }},
        {"storm_depth",
         "in",
         {"sum"},
         [](const Inputs& in) {
             return by_equation(storm_of(rain_of(part_of_worked_storm(in.words("sum")))).depth_mm / mm_per_inch,
                                "storm-537");
         }},
        {"storm_energy",
         "ft-tonf/acre",
         {"sum"},
         [](const Inputs& in) {
             const double energy = storm_of(rain_of(part_of_worked_storm(in.words("sum")))).energy_537;
             return by_equation(energy / units::mj_ha_per_ft_tonf_acre, "storm-537");
         }},
        {"max_30min_depth",
         "in",
         {"window?"},
         [](const Inputs& in) {
             std::vector<Breakpoint> chart = worked_storm();
             if (in.has("window")) {
                 const std::string& window = in.words("window");
                 const auto to = window.find(" to ");
                 if (to == std::string::npos) throw std::invalid_argument("'window' is written '4:27 to 4:57'");
                 const double from = clock_minutes(window.substr(0, to)), until = clock_minutes(window.substr(to + 4));
                 std::erase_if(chart,
                               [&](const Breakpoint& point) { return point.minute < from || point.minute > until; });
             }
             return by_equation(largest_depth_mm(rain_of(chart), 30.0) / mm_per_inch, "storm-537");
         }},
        {"I30",
         "in/h",
         {"max_30min_depth_in"},
         [](const Inputs& in) { return by_equation(2.0 * in.not_negative("max_30min_depth_in"), "storm-537"); }},
        {"storm_EI",
         "100 ft-tonf in/(acre h)",
         {"E_hundreds_ft_tonf_per_acre", "I30_in_per_h"},
         [](const Inputs& in) {
             return by_equation(in.not_negative("E_hundreds_ft_tonf_per_acre") * in.not_negative("I30_in_per_h"),
                                "storm-537");
         }},
    };
}

}  // namespace soilhold::factors
