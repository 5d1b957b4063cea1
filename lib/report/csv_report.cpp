#include "report/csv_report.h"

#include <fmt/format.h>

#include "report/csv_cell.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using spread::Interval;
using units::Kind;

struct Rows {
    units::System system;
    std::string text = "record,field,other,quantity,central,low,high,unit,source,standing\n";

    void add(const std::string& record, const std::string& field, const std::string& other, const std::string& quantity,
             const Interval& value, const std::string& unit, const std::string& from, std::string_view standing) {
        text += fmt::format("{},{},{},{},{:.6g},{:.6g},{:.6g},{},{},{}\n", record, csv_cell(field), csv_cell(other),
                            quantity, value.central, value.low, value.high, csv_cell(unit), csv_cell(from),
                            csv_cell(std::string(standing)));
    }
    void add_quantity(const std::string& record, const std::string& field, const std::string& other,
                      const std::string& quantity, Kind kind, const Interval& si, const source::Origin& origin) {
        const auto convert = [&](double value) { return units::in_unit(kind, value, system); };
        add(record, field, other, quantity, {convert(si.central), convert(si.low), convert(si.high)},
            std::string(units::printed_unit(kind, system).symbol), origin.from, source::words_for(origin.standing));
    }
};

const source::Origin computed{"A = R K m LS C P", "loss-equation", source::Standing::computed};

Interval times(const Interval& value, double factor) {
    return {value.central * factor, value.low * factor, value.high * factor};
}

void add_factor(Rows& rows, const std::string& record, const std::string& field, const std::string& other,
                const loss::FactorValue& factor) {
    if (factor.symbol == "R")
        rows.add_quantity(record, field, other, "R", Kind::erosivity, factor.value, factor.origin);
    else if (factor.symbol == "K")
        rows.add_quantity(record, field, other, "K", Kind::erodibility, factor.value, factor.origin);
    else
        rows.add(record, field, other, factor.symbol, factor.value, "1", factor.origin.from,
                 source::words_for(factor.origin.standing));
}

}  // namespace

std::string csv_report(const change::Comparison& comparison, units::System system) {
    Rows rows{system};
    for (const loss::FieldEstimate& estimate : comparison.fields) {
        const std::string& name = estimate.field.name;
        for (const loss::FactorValue& factor : estimate.factors) add_factor(rows, "field", name, "", factor);
        rows.add_quantity("field", name, "", "loss", Kind::soil_loss, estimate.loss, computed);
        rows.add_quantity("field", name, "", "loss_without_tests", Kind::soil_loss, estimate.loss_without_tests,
                          computed);
        if (estimate.tolerance)
            rows.add_quantity("field", name, "", "tolerance", Kind::soil_loss,
                              {*estimate.tolerance, *estimate.tolerance, *estimate.tolerance},
                              estimate.field.tolerance->origin);
        const loss::Consequences& follows = estimate.consequences;
        rows.add("field", name, "", system == units::System::us ? "years_per_inch" : "years_per_cm",
                 times(follows.years_per_cm, system == units::System::us ? 2.54 : 1.0), "yr", "depth of a loss",
                 source::words_for(source::Standing::computed));
        if (follows.erodibility_index)
            rows.add("field", name, "", "erodibility_index",
                     Interval{*follows.erodibility_index, *follows.erodibility_index, *follows.erodibility_index}, "1",
                     source::origin_of("highly-erodible").from, source::words_for(source::Standing::computed));
        if (estimate.leaving)
            rows.add_quantity("field", name, "", "leaving", Kind::soil_loss, estimate.leaving->loss,
                              estimate.leaving->share.origin);
        for (std::size_t i = 0; i < estimate.slope_parts.size(); ++i)
            rows.add_quantity("slope part", name, std::to_string(i + 1), "loss", Kind::soil_loss,
                              estimate.slope_parts[i].loss, computed);
        for (const loss::Delivered& one : follows.delivered)
            rows.add_quantity("field", name, one.relation.from, "delivered", Kind::soil_loss, one.loss, one.relation);
        for (const loss::ChangeResult& change : estimate.changes) {
            add_factor(rows, "change", name, change.name, change.LS);
            add_factor(rows, "change", name, change.name, change.C);
            add_factor(rows, "change", name, change.name, change.P);
            rows.add_quantity("change", name, change.name, "loss", Kind::soil_loss, change.loss, computed);
            rows.add_quantity("change", name, change.name, "saved", Kind::soil_loss, change.saved, computed);
            if (change.leaving)
                rows.add_quantity("change", name, change.name, "leaving", Kind::soil_loss, change.leaving->loss,
                                  change.leaving->share.origin);
        }
    }
    for (const change::Pair& pair : comparison.pairs) {
        const std::string& from = comparison.fields[pair.from].field.name;
        const std::string& to = comparison.fields[pair.to].field.name;
        if (pair.ratio)
            rows.add("pair", from, to, "ratio", *pair.ratio, "1", computed.from, source::words_for(computed.standing));
        if (pair.saved) rows.add_quantity("pair", from, to, "saved", Kind::soil_loss, *pair.saved, computed);
    }
    return rows.text;
}

}  // namespace soilhold::report
