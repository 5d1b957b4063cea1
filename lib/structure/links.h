/// Three published links from the distance of W to its expectation, each to a multiplier of the loss.
///
/// A  nomograph codes:    m_A = 1 + (0.0325 + 0.5 x 0.025) d / K, d = clip((W_ref - W)/26, -1, 1)
/// B  unstable fraction:  m_B = 1 + 0.00311 (W_ref - W) / K, within 0.3..3; left out below K 0.15 US
/// C  interrill detachment:  m_C = 1 - a + a (100 - W)/max(15, 100 - W_ref), a = 0.5; W within 0..98
/// K in US units, as all three were fitted; W and W_ref in %. m_A is held within 0.3..3 too, which acts below K 0.064
/// only. Pooled: the plain mean of the ln m_j.
/// @source A: Wischmeier, Johnson & Cross 1971; B: slope alone of El-Swaify & Dangler 1976; C: proportionality of
///         Yan et al. 2008 (all from memory); how a code, a share and W belong together: our assumption
#pragma once

#include <optional>
#include <vector>

#include "structure/parameters.h"

namespace soilhold::structure {

struct Links {
    double nomograph = 1.0;
    std::optional<double> unstable_fraction;
    double interrill = 1.0;
    /// ln of each link in use, in this order.
    std::vector<double> logs() const;
};

/// @param W, W_ref        %, 0..100
/// @param erodibility_us  K, US units, > 0
/// @throws std::invalid_argument unless K > 0 and W, W_ref are finite
Links links(double W, double W_ref, double erodibility_us, const Parameters& with = parameters());

/// Mean of the logs: ln m before shrinkage.
double pooled_log(const Links& links);

/// Standard deviation (n - 1) of values; 0 for fewer than two.
double spread_of(const std::vector<double>& values);

}  // namespace soilhold::structure
