#include "input/rotation_change.h"

#include <fmt/format.h>

#include "input/rotation_section.h"
#include "input/rotation_words.h"

namespace soilhold::input {

std::optional<rotation::Edited> read_rotation_of_change(const Section& change, const loss::Field& field) {
    const Node* node = change.find("rotation");
    if (node == nullptr) return std::nullopt;
    const Reader& reader = change.reader();
    const source::Origin outer = change.origin(*node, "rotation");
    if (node->is_mapping()) {
        auto other = read_rotation(reader, *node, outer);
        if (!other) return std::nullopt;
        std::string sentence = fmt::format("Another rotation: {}.", other->name);
        return rotation::Edited{*std::move(other), std::move(sentence), true};
    }
    const rotation::Rotation* base = field.rotation ? &field.rotation->rotation : nullptr;
    if (!node->is_list()) return read_edit(reader, *node, outer, base);
    if (node->items.empty() || node->items.size() > 10) {
        reader.mistake(node->at, "rotation-change", "'rotation' of a change is words, or a list of 1 to 10 of them");
        return std::nullopt;
    }
    std::optional<rotation::Edited> all;
    for (const Node& item : node->items) {
        auto next = read_edit(reader, item, outer, all ? &all->rotation : base);
        if (!next) return std::nullopt;
        if (all) {
            next->sentence = all->sentence + " " + next->sentence;
            next->changed = next->changed || all->changed;
        }
        all = std::move(next);
    }
    return all;
}

}  // namespace soilhold::input
