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
    std::string code;     ///< stable, listed in docs/messages.md: "om-capped"
    std::string text;     ///< a plain sentence
    std::string place{};  ///< "bench.yaml:12:9" where it was read, or empty
    /// The same thing said, wherever it was read: said once, it need not be said again.
    bool operator==(const Remark& other) const {
        return weight == other.weight && code == other.code && text == other.text;
    }
};

using Remarks = std::vector<Remark>;

}  // namespace soilhold::source
