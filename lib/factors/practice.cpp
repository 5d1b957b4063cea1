#include "factors/practice.h"

#include <fmt/format.h>

#include "factors/contouring.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

spread::Uncertain none(const PracticeDescription& practice) {
    return spread::exactly(1.0, practice.origin.from.empty()
                                    ? source::Origin{"no support practice", "", source::Standing::computed}
                                    : practice.origin);
}

spread::Uncertain withdrawn(const PracticeDescription& practice, source::Remark remark) {
    spread::Uncertain result = none(practice);
    result.remarks.push_back(std::move(remark));
    return result;
}

spread::Uncertain of_contouring(const PracticeDescription& practice, double gradient, double length_m) {
    const auto row = contouring(gradient);
    if (!row)
        return withdrawn(
            practice,
            {source::Weight::caution, "contour-slope",
             fmt::format("The table of contouring reaches from about 1 to 25 %; at {:.1f} % no credit is given.",
                         100 * gradient)});
    const double limit_m = row->length_limit_m * (practice.heavy_residue ? heavy_residue_length_factor : 1.0);
    if (length_m > limit_m * (1 + 1e-9))
        return withdrawn(
            practice,
            {source::Weight::caution, "contour-length",
             fmt::format("Contour rows on {:.1f} % hold up to about {:.0f} ft ({:.0f} m) of slope; here are {:.0f} ft "
                         "({:.0f} m), where they break over. No credit is given (P = 1). A terrace or strip that "
                         "cuts the slope would bring it back.",
                         100 * gradient, limit_m / units::metre_per_foot, limit_m, length_m / units::metre_per_foot,
                         length_m)});
    spread::Stated stated;
    stated.value = row->P;
    stated.origin = source::origin_of("contouring");
    if (practice.row_grade) {
        stated.value = off_grade_contour(row->P, *practice.row_grade, gradient);
        stated.origin.from += ", off grade";
    }
    if (stated.value >= 1.0) return none(practice);
    return spread::with_spread(stated, "practice");
}

}  // namespace

spread::Uncertain support_practice(const PracticeDescription& practice, double gradient, double length_m) {
    if (practice.factor) {
        if (practice.factor->value == 1.0 && !practice.factor->range)
            return spread::exactly(1.0, practice.factor->origin);
        return spread::with_spread(*practice.factor, "practice");
    }
    return practice.contouring ? of_contouring(practice, gradient, length_m) : none(practice);
}

}  // namespace soilhold::factors
