#include "structure/steps.h"

#include <cmath>
#include <utility>

#include "structure/parameters.h"

namespace soilhold::structure {

namespace {

using source::in_working;
using source::origin_of;

std::string ratios_in_working(const Assessment& first, const Assessment& second, std::size_t& count) {
    std::string text;
    const auto add = [&](double a, double b) {
        text += (text.empty() ? "ln(" : " + ln(") + in_working(b) + " / " + in_working(a) + ")";
        ++count;
    };
    add(first.m_nomograph, second.m_nomograph);
    if (first.m_unstable_fraction && second.m_unstable_fraction)
        add(*first.m_unstable_fraction, *second.m_unstable_fraction);
    add(first.m_interrill, second.m_interrill);
    return text;
}

}  // namespace

source::Steps ratio_steps(const Assessment& first, const Assessment& second, const StructureRatio& ratio) {
    const Parameters& p = parameters();
    const source::Origin method = origin_of("structure-factor"), numbers = origin_of("structure-parameters");
    const double q = std::log(ratio.pooled);
    source::Steps steps;
    std::size_t count = 0;
    const std::string logs = ratios_in_working(first, second, count);
    steps.push_back({"q", "structure alone: mean over the links of how the second field differs", "mean of ln(m2 / m1)",
                     "(" + logs + ") / " + std::to_string(count), q, "1", method});
    std::string squares = "(" + in_working(first.slope) + " x " + in_working(first.W_own_sd) + ")^2 + (" +
                          in_working(second.slope) + " x " + in_working(second.W_own_sd) + ")^2 + " +
                          in_working(ratio.link_spread) + "^2";
    steps.push_back({"b", "how far the links lie apart in this, at least " + in_working(p.link_sd_least), "", "",
                     ratio.link_spread, "1", numbers});
    std::string equation = "sqrt((e1 s1)^2 + (e2 s2)^2 + b^2";
    if (ratio.unshared_sd > 0) {
        const bool references = first.local_reference || second.local_reference;
        steps.push_back({"r", "doubt of the two expectations, which does not cancel here",
                         references ? "sqrt((e1 sr1)^2 + (e2 sr2)^2)" : in_working(p.offset_sd) + " e2",
                         references
                             ? "sqrt((" + in_working(first.slope) + " x " + in_working(first.reference_sd) + ")^2 + (" +
                                   in_working(second.slope) + " x " + in_working(second.reference_sd) + ")^2)"
                             : in_working(p.offset_sd) + " x " + in_working(std::abs(second.slope)),
                         ratio.unshared_sd, "1", numbers});
        squares += " + " + in_working(ratio.unshared_sd) + "^2";
        equation += " + r^2";
    }
    steps.push_back({"v", "doubt of q; what the fields share has cancelled", equation + ")", "sqrt(" + squares + ")",
                     ratio.log_sd, "1", method});
    const std::string prior = "2 x " + in_working(p.prior_sd) + "^2";
    steps.push_back({"w", "weight of the tests", prior + " / (" + prior + " + v^2)",
                     prior + " / (" + prior + " + " + in_working(ratio.log_sd) + "^2)", ratio.shrinkage, "1", numbers});
    const std::string w = in_working(ratio.shrinkage), product = w + " x " + in_working(q);
    steps.push_back({"m2 / m1", "structure alone, the second over the first", "exp(w q)", "exp(" + product + ")",
                     ratio.ratio, "1", method});
    source::Step middle;
    middle.words = "the middle 90 %";
    const std::string sd = "1.645 x " + in_working(ratio.log_sd) + " x sqrt(" + w + ")";
    middle.working = "exp(" + product + " - " + sd + ")";
    middle.value = ratio.low_90;
    middle.upper_working = "exp(" + product + " + " + sd + ")";
    middle.upper = ratio.high_90;
    middle.unit = "1";
    middle.origin = method;
    steps.push_back(std::move(middle));
    return steps;
}

}  // namespace soilhold::structure
