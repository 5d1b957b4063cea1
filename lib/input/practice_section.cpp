#include "input/practice_section.h"

#include <fmt/format.h>

#include <array>

#include "input/figure.h"
namespace soilhold::input {

namespace {

struct NamedPractice {
    std::string_view word;
    std::string_view code;
    std::string_view says;
};

constexpr std::string_view catches =
    "catches soil below the slope and is credited at the field's edge or the creek; it does not lower A, the loss on "
    "the slope above it. Leave it out of 'practice' and say so in words";
constexpr std::string_view gully =
    "keeps a channel from cutting, which this estimate of sheet and rill loss leaves out; it does not lower A";
constexpr std::string_view catch_below =
    "does not lower A, the loss on the slope; what it catches is shown apart: write "
    "{buffer strips: {place: along the contour, share: 10 %}}";
constexpr std::string_view cut_by_terraces =
    "cut the slope to their interval: write {terraces: {interval: 100 ft, outlet: sod channel}}, with 'contouring: "
    "yes' "
    "beside it where rows follow them";
constexpr std::string_view hold_contouring =
    "holds contouring in its own factor: write {strips: {meadow: two years}}, or 'one year' or 'none' of the "
    "rotation's "
    "four";
constexpr std::string_view is_cover =
    "is part of C, the cover: give the C that holds it under 'cover', and it counts once";

/// Practices that people name and that are no support practice with a P here.
constexpr auto others = std::to_array<NamedPractice>({
    {"filter strip", "practice-elsewhere", catches},
    {"filter strips", "practice-elsewhere", catches},
    {"riparian buffer", "practice-elsewhere", catches},
    {"sediment basin", "practice-elsewhere", catches},
    {"buffer strip", "practice-elsewhere", catch_below},
    {"buffer strips", "practice-elsewhere", catch_below},
    {"buffer", "practice-elsewhere", catch_below},
    {"waterway", "practice-elsewhere", gully},
    {"grassed waterway", "practice-elsewhere", gully},
    {"cover crop", "double-count", is_cover},
    {"no-till", "double-count", is_cover},
    {"mulch", "double-count", is_cover},
    {"residue", "double-count", is_cover},
    {"terraces", "practice-elsewhere", cut_by_terraces},
    {"terrace", "practice-elsewhere", cut_by_terraces},
    {"strip cropping", "practice-elsewhere", hold_contouring},
    {"strips", "practice-elsewhere", hold_contouring},
});

std::optional<factors::PracticeDescription> read_word(const Reader& reader, const Node& node) {
    const auto text = scalar_text(reader, node, "practice");
    if (!text) return std::nullopt;
    const std::string word = lower_case(*text);
    factors::PracticeDescription practice;
    practice.origin = {reader.default_from, "", source::Standing::users_figure};
    if (word == "none") return practice;
    if (word == "contouring" || word == "contour") {
        practice.contouring = true;
        return practice;
    }
    for (const NamedPractice& other : others)
        if (other.word == word) {
            reader.mistake(node.at, std::string(other.code), fmt::format("'{}' {}", *text, other.says));
            return std::nullopt;
        }
    reader.mistake(node.at, "unknown-word",
                   fmt::format("'{}' is no practice known here; write 'none', 'contouring', or a section with 'factor' "
                               "(P) or 'contouring'",
                               *text));
    return std::nullopt;
}

void read_list(const Reader& reader, const Node& node) {
    reader.mistake(
        node.at, "double-count",
        "Several practices stand in one list. Their factors must not be multiplied blindly: strip cropping "
        "holds contouring, terraces shorten the slope. Give them as one section with the keys 'contouring', 'strips', "
        "'terraces' or 'buffer strips', or one P for all of them as 'factor', with its source");
}

void read_strips(const Section& practice, factors::PracticeDescription& to) {
    const Node* node = practice.find("strips");
    if (node == nullptr) return;
    const Reader& reader = practice.reader();
    const Section section(reader, "strips", node);
    if (!node->is_mapping()) return;
    static constexpr auto meadows = std::to_array<std::string_view>({"two years", "one year", "none"});
    factors::StripCropping cropping;
    if (const auto word = section.word("meadow", meadows))
        cropping.rotation = *word == meadows[0]   ? factors::StripRotation::meadow_two_years
                            : *word == meadows[1] ? factors::StripRotation::meadow_one_year
                                                  : factors::StripRotation::no_meadow;
    else if (!section.has("meadow"))
        reader.mistake(node->at, "missing",
                       "P of strips goes by how much of the rotation of four years is meadow: 'meadow: two years', "
                       "'one year' or 'none'");
    if (const auto width = figure(section, "width", units::Kind::length)) {
        cropping.width_m = width->stated.value;
        if (!(width->stated.value > 0) || width->stated.value > 300)
            reader.mistake(width->at, "range", "The width of a strip lies above 0 and up to 300 m");
    }
    to.strips = cropping;
}

void read_terraces(const Section& practice, factors::PracticeDescription& to) {
    const Node* node = practice.find("terraces");
    if (node == nullptr) return;
    const Reader& reader = practice.reader();
    const Section section(reader, "terraces", node);
    if (!node->is_mapping()) return;
    factors::Terraces terraces;
    if (const auto interval = figure(section, "interval", units::Kind::length, SpreadUse::used)) {
        terraces.interval_m = interval->stated;
        if (interval->stated.value < 5 || interval->stated.value > 300)
            reader.mistake(interval->at, "range",
                           fmt::format("Terraces {:.3g} m apart can't be right; they lie 5 to 300 m (16 to 1000 ft) "
                                       "apart, along the ground's level",
                                       interval->stated.value));
    } else if (!section.has("interval")) {
        reader.mistake(node->at, "missing",
                       "Terraces need their 'interval', the horizontal distance between two, like 100 ft");
    }
    static constexpr auto outlets = std::to_array<std::string_view>({"sod channel", "underground"});
    if (const auto word = section.word("outlet", outlets))
        terraces.outlet =
            *word == outlets[0] ? factors::TerraceOutlet::sod_channel : factors::TerraceOutlet::underground;
    else if (!section.has("outlet"))
        reader.mistake(node->at, "missing",
                       "How terraces let water go decides what leaves the field: 'outlet: sod channel' or 'outlet: "
                       "underground'");
    static constexpr auto credits = std::to_array<std::string_view>({"handbook 537", "handbook 703"});
    if (const auto word = section.word("credit", credits))
        terraces.method =
            *word == credits[0] ? factors::TerraceMethod::handbook_537 : factors::TerraceMethod::handbook_703;
    const bool newer = terraces.method == factors::TerraceMethod::handbook_703;
    if (const auto grade = figure(section, "grade", units::Kind::steepness)) {
        terraces.grade = grade->stated.value;
        if (grade->stated.value < 0 || grade->stated.value > 0.03)
            reader.mistake(grade->at, "range",
                           fmt::format("Terraces that fall {:g} % along their length would wash out; their grade lies "
                                       "from 0 to 3 %",
                                       100 * grade->stated.value));
        else if (!newer)
            reader.note(grade->at, "terrace-grade-unused", "'grade' is used with 'credit: handbook 703' only");
    } else if (newer && terraces.outlet == factors::TerraceOutlet::sod_channel) {
        reader.mistake(node->at, "missing",
                       "Handbook 703 credits terraces with a sod channel by their 'grade', like 0.3 %");
        terraces.grade = 0.0;
    }
    to.terraces = terraces;
}

void read_buffers(const Section& practice, factors::PracticeDescription& to) {
    const Node* node = practice.find("buffer strips");
    if (node == nullptr) return;
    const Reader& reader = practice.reader();
    const Section section(reader, "buffer strips", node);
    if (!node->is_mapping()) return;
    factors::BufferStrips strips;
    static constexpr auto places = std::to_array<std::string_view>({"along the contour", "foot of the slope"});
    if (const auto word = section.word("place", places))
        strips.place =
            *word == places[0] ? factors::BufferPlace::along_the_contour : factors::BufferPlace::foot_of_the_slope;
    else if (!section.has("place"))
        reader.mistake(node->at, "missing",
                       "Say where the strips lie: 'place: along the contour' or 'place: foot of the slope'");
    if (const auto share = percent(section, "share")) {
        strips.slope_share = *share / 100;
        if (!factors::share_past_buffers(strips))
            reader.mistake(section.find("share")->at, "range",
                           fmt::format("Strips on {:g} % of the slope were not tried; the trial had them on a tenth "
                                       "(5 to 15 % count as that)",
                                       *share));
    } else if (!section.has("share")) {
        reader.mistake(node->at, "missing", "Say how much of the slope the strips take: 'share: 10 %'");
    }
    to.buffers = strips;
}

/// Combinations that would count one effect twice.
void refuse_double_counts(const Section& section, const factors::PracticeDescription& practice) {
    const Reader& reader = section.reader();
    const auto refuse = [&](std::string_view key, std::string_view text) {
        reader.mistake(section.find(key)->at, "double-count", text);
    };
    if (practice.factor && practice.contouring)
        refuse(
            "contouring",
            "P is given as 'factor' and 'contouring: yes' stands beside it, which would count the contour twice. A P "
            "of strips or terraces from a table holds contouring; keep one of the two");
    if (practice.factor && practice.strips)
        refuse("strips", "P is given as 'factor' and 'strips' stand beside it, which have a P of their own; keep one");
    if (practice.strips && practice.contouring)
        refuse("contouring", "The P of strips holds contouring already; leave 'contouring' out");
    if (practice.factor && practice.terraces && practice.terraces->method == factors::TerraceMethod::handbook_703)
        refuse("terraces",
               "P is given as 'factor', and 'credit: handbook 703' would put another P for the terraces on top; keep "
               "one, or take 'credit: handbook 537', which only cuts the slope's length");
    if (practice.terraces && practice.buffers)
        refuse("buffer strips",
               "Terraces and strips of grass catch the same soil on its way out; the published shares are each for one "
               "alone. Keep one of the two");
    if (practice.strips && practice.buffers)
        refuse("buffer strips", "The P of strips holds what their meadow catches; leave 'buffer strips' out");
}

}  // namespace

std::optional<factors::PracticeDescription> read_practice(const Reader& reader, const Node& node) {
    if (node.is_scalar()) return read_word(reader, node);
    if (node.is_list()) {
        read_list(reader, node);
        return std::nullopt;
    }
    const Section section(reader, "practice", &node);
    factors::PracticeDescription practice;
    practice.origin = section.origin(node, "contouring");
    practice.contouring = section.yes_no("contouring").value_or(false);
    practice.heavy_residue = section.yes_no("heavy residue").value_or(false);
    if (const auto P = bare_figure(section, "factor", SpreadUse::used)) {
        if (!(P->stated.value > 0) || P->stated.value > 1) {
            reader.mistake(
                P->at, "practice-range",
                fmt::format(
                    "P is {:g}, and lies above 0 and up to 1, which is no practice at all{}", P->stated.value,
                    P->stated.value > 1 && P->stated.value <= 100
                        ? fmt::format(". If {:g} % was meant, write {:g}", P->stated.value, P->stated.value / 100)
                        : ""));
            return std::nullopt;
        }
        practice.factor = P->stated;
    }
    read_strips(section, practice);
    read_terraces(section, practice);
    read_buffers(section, practice);
    refuse_double_counts(section, practice);
    if (const auto grade = figure(section, "row grade", units::Kind::steepness)) {
        practice.row_grade = grade->stated.value;
        if (grade->stated.value < 0 || grade->stated.value > 1)
            reader.mistake(grade->at, "range",
                           fmt::format("A row grade of {:g} % can't be right", 100 * grade->stated.value));
        else if (!practice.contouring)
            reader.note(grade->at, "row-grade-unused", "'row grade' is used with 'contouring: yes' only");
    }
    return practice;
}

}  // namespace soilhold::input
