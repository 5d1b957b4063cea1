#include "input/changes_section.h"

#include <fmt/format.h>

#include <set>

#include "input/cover_section.h"
#include "input/cover_tables_section.h"
#include "input/figure.h"
#include "input/practice_section.h"
#include "input/rotation_change.h"
#include "input/slope_section.h"
namespace soilhold::input {

namespace {

constexpr std::size_t most_changes = 50;

void judge_length(const Section& section, const loss::Field& field, const spread::Stated& length) {
    if (field.slope.length_m.value > 0 && length.value > field.slope.length_m.value * 1.0001)
        section.reader().mistake(section.find("length")->at, "range",
                                 fmt::format("This change lengthens the slope to {:.4g} m from {:.4g} m; terraces and "
                                             "barriers shorten it",
                                             length.value, field.slope.length_m.value));
}

/// Terraces gone, the slope is longer than the mulch of the field may have been judged for.
bool lays_mulch_bare(const loss::Change& change, const loss::Field& field) {
    if (!change.practice || !field.cover.table) return false;
    const spread::Stated& length_m = field.slope.length_m;
    return std::holds_alternative<factors::MulchOnSlope>(*field.cover.table) &&
           factors::length_left(*change.practice, change.length_m.value_or(length_m)).value >
               factors::length_left(field.practice, length_m).value;
}

}  // namespace

void read_changes(const Reader& reader, const Node& changes, loss::Field& field) {
    if (!changes.is_list() || changes.items.size() > most_changes) {
        reader.mistake(
            changes.at, "not-a-list",
            fmt::format("'changes' is a list, each item beginning with '- change:', at most {}", most_changes));
        return;
    }
    std::set<std::string> names;
    for (const Node& item : changes.items) {
        const Section section(reader, "change", &item);
        if (!item.is_mapping()) continue;
        loss::Change change;
        change.name = section.text("change").value_or("");
        if (change.name.empty()) {
            if (entry_of(&item, "change") == nullptr)
                reader.mistake(item.at, "missing", "This change has no name: begin it with '- change: ...'");
        } else if (!names.insert(change.name).second) {
            reader.mistake(section.find("change")->at, "same-name",
                           fmt::format("Two changes of this field are called '{}'", readable(change.name, 80)));
        }
        change.note = section.text("note").value_or("");
        if (const Node* cover = section.find("cover")) {
            change.cover = read_cover(Section(reader, "cover", cover), nullptr);
            for (const std::string_view key : {"rotation", "residue reading"})
                if (const Entry* entry = entry_of(cover, key))
                    reader.mistake(entry->at, "rotation-change",
                                   "In a change a rotation stands beside 'change', not in its 'cover': 'rotation: "
                                   "no-till'");
        }
        change.rotation = read_rotation_of_change(section, field);
        if (section.has("rotation") && section.has("cover"))
            reader.mistake(section.at(), "one-of",
                           "C after this change is given by 'cover' and again by 'rotation'; keep one of them");
        if (const Node* practice = section.find("practice")) change.practice = read_practice(reader, *practice);
        change.length_m = read_length(section, "length");
        if (change.length_m) judge_length(section, field, *change.length_m);
        if (change.length_m && change.practice && change.practice->terraces)
            reader.mistake(section.find("length")->at, "double-count",
                           "The interval of 'terraces' is the slope's new length; leave 'length' out");
        const Node* cover_node = change.cover                     ? section.find("cover")
                                 : lays_mulch_bare(change, field) ? &item
                                                                  : nullptr;
        if (cover_node != nullptr)
            judge_cover(reader, *cover_node, change.cover.value_or(field.cover), field,
                        change.length_m.value_or(field.slope.length_m), change.practice.value_or(field.practice));
        if (!section.has("cover") && !section.has("rotation") && !section.has("practice") && !section.has("length"))
            reader.mistake(item.at, "missing",
                           "This change changes nothing: give 'cover', 'rotation', 'practice' or 'length'");
        field.changes.push_back(std::move(change));
    }
}

}  // namespace soilhold::input
