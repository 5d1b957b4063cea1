#include "report/words.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "units/printing.h"

namespace soilhold::report {

namespace {

using spread::Interval;
using units::Kind;

constexpr std::array<const char*, 13> small_numbers = {"",      "one",   "two",  "three", "four",   "five",  "six",
                                                       "seven", "eight", "nine", "ten",   "eleven", "twelve"};

std::string figure(double si, units::System system) {
    return units::figures(units::in_unit(Kind::soil_loss, si, system), 2);
}

}  // namespace

std::string loss_unit(units::System system) { return system == units::System::us ? "t/ac" : "t/ha"; }

std::string times_in_words(double times) {
    if (times < 1.15) return "about the same";
    if (times < 1.35) return "about a quarter more";
    if (times < 1.75) return "about one and a half times";
    if (times < 2.25) return "about twice";
    if (times < 2.75) return "about two and a half times";
    if (times < 12.5)
        return fmt::format("about {} times", small_numbers.at(static_cast<std::size_t>(std::lround(times))));
    return fmt::format("about {} times", units::figures(times, 2));
}

std::string ratio_sentence(const Interval& ratio, const std::string& from, const std::string& to) {
    // The field that loses more is named first, so that a reader never meets "0.25 times as fast".
    const bool from_loses_more = ratio.central <= 1.0;
    const Interval times = from_loses_more ? Interval{1 / ratio.central, 1 / ratio.high, 1 / ratio.low} : ratio;
    const std::string& more = from_loses_more ? from : to;
    const std::string& less = from_loses_more ? to : from;
    const std::string likely =
        fmt::format("likely {} to {} times", units::figures(times.low, 2), units::figures(times.high, 2));
    if (times.low < 1.0)
        return fmt::format(
            "{} may lose {} {}, but which loses more is not sure ({}).", more,
            times.central < 1.15 ? "about as much soil as" : times_in_words(times.central) + " the soil of", less,
            likely);
    if (times.central < 1.15) return fmt::format("Soil leaves {} about as fast as {} ({}).", more, less, likely);
    if (times.central < 1.35)
        return fmt::format("Soil leaves {} about a quarter faster than {} ({}).", more, less, likely);
    return fmt::format("Soil leaves {} {} as fast as {} ({}).", more, times_in_words(times.central), less, likely);
}

std::string loss_in_words(double loss, units::System system) {
    if (units::in_unit(Kind::soil_loss, loss, system) < 1.0) return "less than 1 " + loss_unit(system);
    return "about " + figure(loss, system) + " " + loss_unit(system);
}

std::string loss_sentence(const loss::FieldEstimate& estimate, units::System system) {
    std::string text = fmt::format("{} loses {} of soil in an average year (likely {} to {})", estimate.field.name,
                                   loss_in_words(estimate.loss.central, system), figure(estimate.loss.low, system),
                                   figure(estimate.loss.high, system));
    if (estimate.loss_over_tolerance)
        text += fmt::format(", {} times the planners' mark T for its soil",
                            units::figures(*estimate.loss_over_tolerance, 2));
    return text + ".";
}

std::string total_in_words(const Interval& total_t, units::System system) {
    const double unit = system == units::System::us ? units::tonne_per_short_ton : 1.0;
    return fmt::format("about {} {} (likely {} to {})", units::figures(total_t.central / unit, 2),
                       system == units::System::us ? "US tons" : "tonnes", units::figures(total_t.low / unit, 2),
                       units::figures(total_t.high / unit, 2));
}

}  // namespace soilhold::report
