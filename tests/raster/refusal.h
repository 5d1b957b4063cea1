/// The refusal of a call, to look at what it says.
#pragma once

#include <gtest/gtest.h>

#include "raster/raster_error.h"

namespace soilhold::raster {

/// What a call was refused with; a failure of the test where it was not.
template <class Call>
RasterError refusal(const Call& call) {
    try {
        call();
    } catch (const RasterError& error) {
        return error;
    }
    ADD_FAILURE() << "was taken";
    return {"", "", ""};
}

}  // namespace soilhold::raster
