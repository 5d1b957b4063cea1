/// Strips of grass that catch soil on its way down: what share of the slope's loss still leaves the field.
///
/// They are no support practice with a P of the loss itself: soil moves on the slope above them as before. The share
/// comes from one trial in one flood year, with grass on a tenth of the slope; elsewhere it differs several-fold.
/// @source data/reference/buffer-strips.csv (read in a report)
#pragma once

#include <optional>
#include <string_view>

#include "spread/uncertain.h"

namespace soilhold::factors {

enum class BufferPlace { along_the_contour, foot_of_the_slope };

struct BufferStrips {
    BufferPlace place = BufferPlace::along_the_contour;
    double slope_share = 0.1;  ///< of the slope under grass, 0..1
};

/// Share of the loss that leaves the field [1]; none where the strips' share of the slope was not tried (5 to 15 %
/// count as the tenth that was).
std::optional<spread::Uncertain> share_past_buffers(const BufferStrips& strips);

std::string_view words_for(BufferPlace place);

}  // namespace soilhold::factors
