#include "factors/quantities.h"

// Loss and what follows from it: the product, tolerance, depth, delivery, value.
#include <stdexcept>

#include "factors/delivery.h"
#include "factors/nutrients.h"
#include "factors/soil_depth.h"
#include "factors/tolerance.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

constexpr double mm_per_inch = 25.4;

double or_one(const Inputs& in, std::string_view key) { return in.has(key) ? in.not_negative(key) : 1.0; }

/// A depth written by its two ends; 999 stands for "and deeper".
ClassLimits depth_of(const Inputs& in, std::string_view from, std::string_view to) {
    const ClassLimits depth{in.not_negative(from), in.not_negative(to)};
    if (depth.to < depth.from) throw std::invalid_argument("'" + std::string(to) + "' must not be above the upper end");
    return depth;
}

Quantity tolerance_on(std::string name, std::string layer) {
    return {std::move(name), "ton/(acre yr)", {"depth_from_cm", "to_cm"}, [layer](const Inputs& in) {
                return by_table(tolerance_by_depth_us(layer, depth_of(in, "depth_from_cm", "to_cm")),
                                "tolerance-by-depth");
            }};
}

Quantity delivery_by_area(std::string name, double (*ratio)(double), std::string citation) {
    return {std::move(name), "-", {"area_km2"}, [ratio, citation](const Inputs& in) {
                return by_equation(
                    ratio(in.number("area_km2")), citation,
                    {{source::Weight::caution, "delivery-basin",
                      "Fitted to whole basins, not to one field; basins of one size differ several-fold."}});
            }};
}

}  // namespace

std::vector<Quantity> loss_quantities() {
    const std::string us = "ton/(acre yr)";
    return {
        {"A_product",
         us,
         {"R", "K", "LS", "C?", "P?", "CP?"},
         [](const Inputs& in) {
             if (in.has("CP") && (in.has("C") || in.has("P")))
                 throw std::invalid_argument("give C and P, or their product CP, not both");
             const double A = in.not_negative("R") * in.not_negative("K") * in.not_negative("LS") * or_one(in, "C") *
                              or_one(in, "P") * or_one(in, "CP");
             return by_equation(A, "loss-equation");
         }},
        {"sediment_per_day",
         "ton/day",
         {"A", "delivery_ratio", "area_acre"},
         [](const Inputs& in) {
             const double ratio = in.not_negative("delivery_ratio");
             if (ratio > 1) throw std::invalid_argument("'delivery_ratio' lies from 0 to 1");
             return by_equation(in.not_negative("A") * ratio * in.not_negative("area_acre") / 365.0, "loss-arithmetic");
         }},
        {"P_contour_solved",
         "-",
         {"A", "R_si", "K_si", "LS", "C", "P_strip?", "P_terrace?"},
         [](const Inputs& in) {
             const double without = in.positive("R_si") * in.positive("K_si") * in.positive("LS") * in.positive("C") *
                                    (in.has("P_strip") ? in.positive("P_strip") : 1.0) *
                                    (in.has("P_terrace") ? in.positive("P_terrace") : 1.0);
             return by_equation(in.not_negative("A") / without, "loss-arithmetic");
         }},
        {"T_by_depth",
         us,
         {"limiting_layer_from_cm", "to_cm", "group"},
         [](const Inputs& in) {
             return by_table(
                 tolerance_by_depth_us("group " + in.words("group"), depth_of(in, "limiting_layer_from_cm", "to_cm")),
                 "tolerance-by-depth");
         }},
        tolerance_on("T_lithic_bedrock", "lithic"),
        tolerance_on("T_paralithic_or_densic_bedrock", "paralithic or densic"),
        {"T_metric",
         "t/(ha yr)",
         {"T_us"},
         [](const Inputs& in) {
             return by_equation(in.not_negative("T_us") * units::t_ha_per_ton_acre, "unit-conversions");
         }},
        reported_quantity("HEL_threshold_index", "-", "definition"),
        {"HEL_index",
         "-",
         {"R", "K", "LS", "T"},
         [](const Inputs& in) {
             return by_equation(land_erodibility_index(in.number("R"), in.number("K"), in.number("LS"), in.number("T")),
                                "highly-erodible");
         }},
        reported_quantity("landfill_cover_limit", us, "use"),
        {"depth_of_loss",
         "in",
         {"A_ton_per_acre", "bulk_density_g_cm3"},
         [](const Inputs& in) {
             const double loss = in.number("A_ton_per_acre") * units::t_ha_per_ton_acre;
             return by_equation(depth_of_loss_mm(loss, in.number("bulk_density_g_cm3")) / mm_per_inch, "depth-of-loss");
         }},
        {"depth_of_loss_mm",
         "mm",
         {"A_t_per_ha", "bulk_density_g_cm3"},
         [](const Inputs& in) {
             return by_equation(depth_of_loss_mm(in.number("A_t_per_ha"), in.number("bulk_density_g_cm3")),
                                "depth-of-loss");
         }},
        {"furrow_slice_mass",
         "lb/acre",
         {"depth_in", "bulk_density_g_cm3?"},
         [](const Inputs& in) {
             const double density =
                 in.has("bulk_density_g_cm3") ? in.number("bulk_density_g_cm3") : furrow_slice_bulk_density;
             const double t_ha = mass_of_layer(in.number("depth_in") * mm_per_inch, density);
             return by_equation(1000.0 * t_ha / units::kg_ha_per_lb_acre, "depth-of-loss");
         }},
        {"value_NP_per_ton",
         "USD/ton",
         {"N_lb", "P_lb", "N_price", "P_price"},
         [](const Inputs& in) {
             return by_equation(nitrogen_phosphorus_value(in.number("N_lb"), in.number("P_lb"), in.number("N_price"),
                                                          in.number("P_price")),
                                "soil-value");
         }},
        reported_quantity("value_NP_per_ton_2", "USD/ton", "basis"),
        {"OM_lb_per_ton",
         "lb/ton",
         {"om_pct"},
         [](const Inputs& in) { return by_equation(organic_matter_lb_per_ton(in.number("om_pct")), "soil-value"); }},
        {"value_OM_per_ton",
         "USD/ton",
         {"om_pct", "price_per_lb"},
         [](const Inputs& in) {
             return by_equation(organic_matter_value(in.number("om_pct"), in.number("price_per_lb")), "soil-value");
         }},
        {"value_OM_per_acre",
         "USD/acre",
         {"om_pct", "price_per_lb", "A_ton_per_acre"},
         [](const Inputs& in) {
             return by_equation(organic_matter_value(in.number("om_pct"), in.number("price_per_lb")) *
                                    in.not_negative("A_ton_per_acre"),
                                "soil-value");
         }},
        reported_quantity("value_topsoil_inch", "USD/acre-in", "basis"),
        {"SDR_distance",
         "-",
         {"distance"},
         [](const Inputs& in) {
             return by_equation(delivery_ratio_by_distance(in.number("distance")), "delivery-distance");
         }},
        delivery_by_area("SDR_vanoni", delivery_ratio_vanoni, "delivery-area-vanoni"),
        delivery_by_area("SDR_boyce", delivery_ratio_boyce, "delivery-area-boyce"),
        delivery_by_area("SDR_scs", delivery_ratio_scs, "delivery-area-scs"),
        reported_quantity("SDR_textbook", "-", "place"),
    };
}

}  // namespace soilhold::factors
