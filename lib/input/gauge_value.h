/// One value of a gauge record: a depth, or the mark of a logger that has none. A mark is never read as 0.
///
/// Missing: blank, -, --, ---, NA, N/A, NaN, null, none, M, MM, ND, Eqp, Ice, Bkw, Dis, Mnt, Ssn, ***, and the numbers
/// that stand for it in public records: -9, -99, -999, -9999, -99999 with or without further nines after a point,
/// -6999, -7999, 999.99, 9999 and more nines. T is a trace: too little to measure, 0.
#pragma once

#include <string_view>

namespace soilhold::input {

enum class ValueIs { depth, trace, missing, no_number };

struct GaugeValue {
    ValueIs is = ValueIs::no_number;
    double value = 0.0;  ///< as written, in the file's unit; may be below 0
};

GaugeValue read_gauge_value(std::string_view text);

}  // namespace soilhold::input
