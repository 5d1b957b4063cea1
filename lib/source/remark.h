/// Something a careful colleague would say about a value: warnings are values in a result, never prints.
#pragma once

#include <string>
#include <vector>

namespace soilhold::source {

enum class Weight {
    note,     ///< worth knowing
    caution,  ///< read it before you use the number
};

struct Remark {
    Weight weight = Weight::note;
    std::string code;  ///< stable, listed in docs/messages.md: "om-capped"
    std::string text;  ///< a plain sentence
    bool operator==(const Remark&) const = default;
};

using Remarks = std::vector<Remark>;

}  // namespace soilhold::source
