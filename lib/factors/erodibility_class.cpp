#include "factors/erodibility_class.h"

#include <cmath>
#include <stdexcept>

#include "source/reference_table.h"

namespace soilhold::factors {

double erodibility_class_us(double erodibility_us) {
    if (!(erodibility_us >= 0 && erodibility_us <= 1)) throw std::invalid_argument("K in US units lies from 0 to 1");
    double nearest = -1;
    for (const source::Row& row : source::table("erodibility-classes").rows) {
        const double one = row.number("class_us");
        if (nearest < 0 || std::abs(one - erodibility_us) <= std::abs(nearest - erodibility_us) + 1e-12) nearest = one;
    }
    return nearest;
}

}  // namespace soilhold::factors
