/// Rotations and changes of them in a few words, as a field file writes them: rotation/short_forms.h and
/// rotation/edit_words.h with the place of what they don't understand.
#pragma once

#include <optional>
#include <string>

#include "input/section.h"
#include "rotation/edits.h"
#include "rotation/rotation.h"

namespace soilhold::input {

/// `corn-soybean, fall chisel`; a mistake is noted where it isn't understood. `outer` is who tells it.
std::optional<rotation::Rotation> read_rotation_words(const Reader& reader, const Node& node,
                                                      const source::Origin& outer);

/// One change of a rotation, `no-till`; another rotation altogether is taken as that.
/// @param base  what is changed, or nullptr where there is none
std::optional<rotation::Edited> read_edit(const Reader& reader, const Node& node, const source::Origin& outer,
                                          const rotation::Rotation* base);

/// A message of rotation/ with a capital letter.
std::string as_sentence(std::string text);

}  // namespace soilhold::input
