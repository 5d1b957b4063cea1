#include "loss/consequences.h"

#include "factors/delivery.h"
#include "factors/nutrients.h"
#include "factors/slope_profile.h"
#include "factors/tolerance.h"
#include "loss/field.h"
#include "loss/inputs.h"
#include "units/unit.h"

namespace soilhold::loss {

namespace {

using source::in_working;
using source::origin_of;

void add_duration(Consequences& to, double loss, const spread::Interval& all, double bulk_density) {
    const double mass_of_cm = 100 * bulk_density;  // t/ha in 1 cm
    to.years_per_cm = {mass_of_cm / all.central, mass_of_cm / all.high, mass_of_cm / all.low};
    to.steps.push_back({"years", "how long a centimetre of soil lasts", "100 BD / A",
                        "100 x " + in_working(bulk_density) + " / " + in_working(loss), to.years_per_cm.central,
                        "yr/cm", origin_of("depth-of-loss")});
}

void add_index(Consequences& to, const Field& field, const FieldInputs& inputs) {
    if (!field.tolerance) return;
    const double R = inputs.R.central, K = inputs.K.central, T = field.tolerance->value;
    const double LS = factors::profile_slope_factor(inputs.whole_length_m, inputs.now.gradient.central, inputs.shape,
                                                    inputs.method, inputs.rill_ratio);
    to.erodibility_index = factors::land_erodibility_index(R, K, LS, T);
    to.steps.push_back({"index", "grade of the land as it lies, whatever is done on it", "R K LS / T",
                        in_working(R) + " x " + in_working(K) + " x " + in_working(LS) + " / " + in_working(T),
                        *to.erodibility_index, "1", origin_of("highly-erodible")});
}

/// Contents are printed per US short ton of 2000 lb: 1 lb/ton is 0.5 kg/t.
void add_contents(Consequences& to, const Field& field, double loss) {
    const source::Origin origin = origin_of("soil-value");
    const auto add = [&](const char* symbol, const char* words, double lb_per_ton) {
        const double kg_ha = loss * lb_per_ton / 2;
        to.steps.push_back({symbol, words, "A x pounds in a ton / 2",
                            in_working(loss) + " x " + in_working(lb_per_ton) + " / 2", kg_ha, "kg/(ha yr)", origin});
        return kg_ha;
    };
    to.nitrogen_kg_ha = add("nitrogen", "nitrogen that goes with the soil", factors::nitrogen_lb_per_ton);
    to.phosphorus_kg_ha = add("phosphorus", "phosphorus that goes with the soil", factors::phosphorus_lb_per_ton);
    if (field.soil.organic_matter_pct)
        to.organic_matter_kg_ha = add("organic matter", "organic matter that goes with the soil",
                                      factors::organic_matter_lb_per_ton(*field.soil.organic_matter_pct));
}

void add_delivery(Consequences& to, const Field& field, const spread::Interval& leaving) {
    if (!field.drainage_area_km2) return;
    const double area = field.drainage_area_km2->value;
    to.steps.push_back(
        {"drained", "by the point downstream, as given", "", "", area, "km2", field.drainage_area_km2->origin});
    const auto add = [&](const char* key, double ratio, const std::string& equation, const std::string& working) {
        const source::Origin origin = origin_of(key);
        to.delivered.push_back({origin, ratio, {leaving.central * ratio, leaving.low * ratio, leaving.high * ratio}});
        to.steps.push_back(
            {"delivery", "share that gets there, fitted to basins", equation, working, ratio, "1", origin});
        to.steps.push_back({"delivered", "by that relation", "leaving x delivery",
                            in_working(leaving.central) + " x " + in_working(ratio), leaving.central * ratio,
                            "t/(ha yr)", origin_of("loss-arithmetic")});
    };
    const auto power = [&](const std::string& a, const std::string& b) {
        return "min(1, " + a + " x " + in_working(area) + "^" + b + ")";
    };
    add("delivery-area-vanoni", factors::delivery_ratio_vanoni(area), "min(1, 0.4724 drained^-0.125)",
        power("0.4724", "(-0.125)"));
    add("delivery-area-boyce", factors::delivery_ratio_boyce(area), "min(1, 0.41 drained^-0.3)",
        power("0.41", "(-0.3)"));
    add("delivery-area-scs", factors::delivery_ratio_scs(area), "min(1, 0.5656 drained^-0.11)",
        power("0.5656", "(-0.11)"));
}

}  // namespace

Consequences consequences_of(const Field& field, const FieldInputs& inputs, const spread::Interval& loss,
                             const spread::Interval& leaving, double bulk_density) {
    Consequences result;
    add_duration(result, loss.central, loss, bulk_density);
    add_index(result, field, inputs);
    add_contents(result, field, loss.central);
    add_delivery(result, field, leaving);
    return result;
}

}  // namespace soilhold::loss
