/// The cautions of the trade: one list, shown wherever tons are shown, not to be switched off.
#pragma once

#include <string>
#include <vector>

namespace soilhold::report {

const std::vector<std::string>& cautions();

}  // namespace soilhold::report
