#include "factors/buffer_strips.h"

#include <string>

#include "source/reference_table.h"

namespace soilhold::factors {

using source::in_working;

std::string_view words_for(BufferPlace place) {
    return place == BufferPlace::along_the_contour ? "along the contour" : "foot of the slope";
}

std::optional<spread::Uncertain> share_past_buffers(const BufferStrips& strips) {
    const source::Row& row = source::row_where(source::table("buffer-strips"), "place", words_for(strips.place));
    const double pct = 100 * strips.slope_share;
    if (pct < row.number("share_from_pct") - 1e-9 || pct > row.number("share_to_pct") + 1e-9) return std::nullopt;
    const double less_pct = row.number("less_sediment_pct");
    spread::Stated share;
    share.value = 1 - less_pct / 100;
    share.origin = source::origin_of("buffer-strips");
    return spread::with_spread(
        share, "buffer-passing",
        {{"passes", "share of the loss that leaves past strips of grass, " + std::string(words_for(strips.place)),
          "1 - less / 100", "1 - " + in_working(less_pct) + " / 100", share.value, "1", share.origin}});
}

}  // namespace soilhold::factors
