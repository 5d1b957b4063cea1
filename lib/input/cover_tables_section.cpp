#include "input/cover_tables_section.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "factors/cropstage.h"
#include "factors/mulch.h"
#include "input/figure.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

using factors::CoverOfTable;
using units::Kind;

std::vector<std::string_view> views(const std::vector<std::string>& words) { return {words.begin(), words.end()}; }

void needs(const Section& section, std::string_view key, std::string_view what) {
    if (!section.has(key)) section.reader().mistake(section.at(), "missing", what);
}

/// `fall height` goes with a canopy and with nothing else.
std::optional<double> fall_height(const Section& section, double canopy_pct) {
    const auto height = figure(section, "fall height", Kind::length);
    if (section.has("canopy") && canopy_pct > 0 && !section.has("fall height"))
        section.reader().mistake(section.find("canopy")->at, "missing",
                                 "A canopy needs 'fall height' beside it: how far drops fall from it, like 1.5 ft");
    if (height && !section.has("canopy"))
        section.reader().mistake(height->at, "missing",
                                 "'fall height' goes with a 'canopy': what share of the ground lies under it");
    return height ? std::optional(height->stated.value) : std::nullopt;
}

std::optional<CoverOfTable> read_pasture(const Section& pasture, source::Origin origin) {
    const Reader& reader = pasture.reader();
    factors::PastureCover result;
    result.origin = std::move(origin);
    static constexpr auto grounds = std::to_array<std::string_view>({"grass", "weeds"});
    const auto ground = pasture.word("ground", grounds);
    needs(pasture, "ground",
          "The table of pasture tells 'ground: grass' (sod, duff or litter at the ground) from 'ground: weeds' (broad "
          "leaves with few roots near the surface)");
    const auto covered = percent(pasture, "ground cover");
    needs(pasture, "ground cover",
          "The table of pasture needs 'ground cover', the share of the ground that is covered");
    const auto canopy = percent(pasture, "canopy");
    result.canopy_pct = canopy.value_or(0);
    const auto height = fall_height(pasture, result.canopy_pct);
    result.fall_height_m = height.value_or(0);
    static constexpr auto prints = std::to_array<std::string_view>({"1978", "earlier copy"});
    if (const auto print = pasture.word("print", prints)) result.print_of_1978 = *print == prints[0];
    if (const auto years = figure(pasture, "undisturbed", Kind::duration)) {
        result.years_undisturbed = years->stated.value / (365.25 * 86400.0);
        if (*result.years_undisturbed < 0)
            reader.mistake(years->at, "range", "'undisturbed' is a time that has passed, 0 years or more");
    }
    if (!ground || !covered || (pasture.has("canopy") && !canopy) || (result.canopy_pct > 0 && !height))
        return std::nullopt;
    result.ground = *ground == "grass" ? factors::GroundCover::grass : factors::GroundCover::weeds;
    result.ground_cover_pct = *covered;
    return result;
}

std::optional<CoverOfTable> read_woodland(const Section& woodland, source::Origin origin) {
    const Reader& reader = woodland.reader();
    factors::WoodlandCover result;
    result.origin = std::move(origin);
    const auto canopy = percent(woodland, "canopy"), duff = percent(woodland, "duff");
    needs(woodland, "canopy", "The table of woodland needs 'canopy', the share of the ground under trees");
    needs(woodland, "duff", "The table of woodland needs 'duff', the share of its ground under duff, like 80 %");
    if (const auto use = woodland.text("use"); use && lower_case(*use) != "undisturbed") {
        reader.mistake(woodland.find("use")->at, "woodland-use",
                       fmt::format("The table of woodland holds for 'use: undisturbed' only, and '{}' woodland loses "
                                   "more. Where grazing, fire or felling opened the ground, describe what covers it "
                                   "now under 'pasture'",
                                   *use));
        return std::nullopt;
    }
    static constexpr auto prints = std::to_array<std::string_view>({"1978", "reprint"});
    if (const auto print = woodland.word("print", prints)) result.reprint = *print == prints[1];
    if (!woodland.has("use"))
        reader.note(woodland.at(), "woodland-undisturbed",
                    "The table of woodland holds where the ground is neither grazed nor burnt nor newly felled; say "
                    "'use: undisturbed' if that is so");
    if (!canopy || !duff) return std::nullopt;
    result.canopy_pct = *canopy;
    result.duff_pct = *duff;
    return result;
}

std::optional<CoverOfTable> read_mulch(const Section& mulch, source::Origin origin) {
    const std::vector<std::string> materials = factors::mulch_materials();
    const auto material = mulch.word("material", views(materials));
    needs(mulch, "material", "The table of mulches needs 'material', like straw or hay tied");
    const auto rate = figure(mulch, "rate", Kind::mass_per_area);
    needs(mulch, "rate", "The table of mulches needs 'rate', like 2 ton/ac");
    if (!material || !rate) return std::nullopt;
    return factors::MulchOnSlope{*material, rate->stated.value / 1000 / units::t_ha_per_ton_acre, std::move(origin)};
}

std::optional<CoverOfTable> read_site(const Section& site, source::Origin origin) {
    static constexpr auto lists = std::to_array<std::string_view>({"pollution control agency", "goldman"});
    const auto by = site.word("by", lists);
    needs(site, "by", "Two lists of site covers are at hand: 'by: pollution control agency' or 'by: goldman'");
    needs(site, "cover", "A site needs 'cover', a line of its list");
    if (!by) return std::nullopt;
    const std::vector<std::string> covers = factors::site_covers(*by);
    const auto cover = site.word("cover", views(covers));
    if (!cover) return std::nullopt;
    return factors::SiteCover{*by, *cover, std::move(origin)};
}

/// "p3 96" as the table writes it: P3_96.
std::string stage_of_table(std::string_view written) {
    std::string stage;
    for (const char c : written)
        stage += c == ' ' ? '_' : (c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c);
    return stage;
}

bool read_line(const Section& section, const Figure& line, factors::StageOfYear& stage) {
    const double number = line.stated.value;
    const std::vector<std::string> known = number >= 1 && number <= 1000 && number == std::floor(number)
                                               ? factors::stages_of_line(static_cast<int>(number))
                                               : std::vector<std::string>{};
    if (known.empty()) {
        section.reader().mistake(line.at, "cover-table",
                                 fmt::format("Line {:g} of the table of soil-loss ratios is not at hand; lines 1 to 4 "
                                             "(corn after corn, turn-ploughed in spring) are",
                                             number));
        return false;
    }
    stage.line = static_cast<int>(number);
    stage.stage = stage_of_table(stage.stage);
    const auto names = views(known);
    if (std::find(names.begin(), names.end(), stage.stage) != names.end()) return true;
    section.reader().mistake(section.find("stage")->at, "cover-table",
                             fmt::format("Line {} has no stage '{}' at hand; it has {}", *stage.line,
                                         readable(stage.stage, 40), joined(names)));
    return false;
}

std::optional<factors::StageOfYear> read_stage(const Reader& reader, const Node& item) {
    const Section section(reader, "stage", &item);
    if (!item.is_mapping()) return std::nullopt;
    factors::StageOfYear stage;
    const auto name = section.text("stage");
    stage.stage = readable(name.value_or(""), 40);
    needs(section, "stage", "Each stage has its name: 'stage: SB'");
    const auto share = percent(section, "erosivity share");
    needs(section, "erosivity share",
          "Each stage has its 'erosivity share', what part of the year's erosive rain falls in it, like 14 %");
    stage.erosivity_share = share.value_or(0) / 100;
    const auto ratio = bare_figure(section, "ratio"), line = bare_figure(section, "line");
    if (section.has("ratio") == section.has("line"))
        reader.mistake(section.at(), section.has("ratio") ? "one-of" : "missing",
                       "A stage has its soil-loss ratio as 'ratio', like 0.65, or takes it from a 'line' of the table: "
                       "one of the two");
    if (ratio && (!(ratio->stated.value > 0) || ratio->stated.value > 1)) {
        reader.mistake(ratio->at, "range",
                       fmt::format("A soil-loss ratio of {0:g} can't be right; it is a share of what clean-tilled "
                                   "fallow loses, above 0 and up to 1{1}",
                                   ratio->stated.value,
                                   ratio->stated.value > 1 && ratio->stated.value <= 100
                                       ? fmt::format(". If {0:g} % was meant, write {1:g}", ratio->stated.value,
                                                     ratio->stated.value / 100)
                                       : ""));
        return std::nullopt;
    }
    if (ratio) stage.ratio = ratio->stated.value;
    if (!name || !share || ratio.has_value() == line.has_value()) return std::nullopt;
    if (line && !read_line(section, *line, stage)) return std::nullopt;
    return stage;
}

std::optional<CoverOfTable> read_stages(const Reader& reader, const Node& node, source::Origin origin) {
    constexpr std::size_t most_stages = 60;
    if (!node.is_list() || node.items.empty() || node.items.size() > most_stages) {
        reader.mistake(node.at, "not-a-list",
                       fmt::format("'stages' is a list, each item like {{stage: SB, ratio: 0.65, erosivity share: "
                                   "14 %}}, 1 to {}",
                                   most_stages));
        return std::nullopt;
    }
    factors::StagedCover result;
    result.origin = std::move(origin);
    double together = 0;
    for (const Node& item : node.items)
        if (auto stage = read_stage(reader, item)) {
            together += stage->erosivity_share;
            result.stages.push_back(*std::move(stage));
        }
    if (result.stages.size() < node.items.size()) return std::nullopt;
    if (std::abs(together - 1) > 0.005) {
        reader.mistake(node.at, "stages-sum",
                       fmt::format("The erosivity shares of the stages come to {:.4g} %; a whole year, or a whole "
                                   "rotation, has 100 %",
                                   100 * together));
        return std::nullopt;
    }
    return result;
}

/// Stones on the ground that K of the whole soil counts already.
void judge_stones(const Reader& reader, Position at, const factors::CoverDescription& cover, const loss::Field& field) {
    if (!field.erodibility_includes_rock) return;
    const auto* pasture = cover.table ? std::get_if<factors::PastureCover>(&*cover.table) : nullptr;
    const bool covered = pasture != nullptr ? pasture->ground_cover_pct > 0
                                            : cover.parts && cover.parts->surface_cover_fraction.value_or(0) > 0;
    if (covered)
        reader.caution(at, "stones-twice",
                       "K is that of the whole soil (Kw), which credits its stones. Leave stones out of the cover on "
                       "the ground, or they count twice");
}

std::string_view way_of(const CoverOfTable& table) {
    static constexpr auto keys = std::to_array<std::string_view>({"pasture", "woodland", "mulch", "site", "stages"});
    return keys[table.index()];
}

}  // namespace

std::optional<CoverOfTable> read_cover_table(const Section& cover) {
    const Reader& reader = cover.reader();
    if (const Node* node = cover.find("pasture"))
        return read_pasture(Section(reader, "pasture", node), cover.origin(*node, "pasture"));
    if (const Node* node = cover.find("woodland"))
        return read_woodland(Section(reader, "woodland", node), cover.origin(*node, "woodland"));
    if (const Node* node = cover.find("mulch"))
        return read_mulch(Section(reader, "mulch", node), cover.origin(*node, "mulch"));
    if (const Node* node = cover.find("site"))
        return read_site(Section(reader, "site", node), cover.origin(*node, "site"));
    if (const Node* node = cover.find("stages")) return read_stages(reader, *node, cover.origin(*node, "stages"));
    return std::nullopt;
}

void judge_cover(const Reader& reader, const Node& node, const factors::CoverDescription& cover,
                 const loss::Field& field, const spread::Stated& length_m,
                 const factors::PracticeDescription& practice) {
    const Entry* way = nullptr;
    for (const std::string_view key : ways_to_cover)
        if (way == nullptr) way = entry_of(&node, key);
    const Position at = way != nullptr ? way->value.at : node.at;
    judge_stones(reader, at, cover, field);
    if (!cover.table) return;
    // What the slope lacks is said there; a slope of 0 % that was meant has no row.
    const bool slope_known =
        length_m.value > 0 && (field.slope.gradient.value > 0 || reader.document.mistakes().empty());
    if (way_of(*cover.table) == "mulch" && !slope_known) return;
    try {
        cover_of_table(*cover.table, factors::GroundSlope{field.slope.gradient.value,
                                                          factors::length_left(practice, length_m).value});
    } catch (const std::invalid_argument& error) {
        std::string text = error.what();
        if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
        if (text.find("undercuts") != std::string::npos)
            text +=
                ". A higher rate, or a change with a shorter 'length' (terraces, barriers), may hold; bare ground has "
                "C = 1";
        reader.mistake(at, "cover-table", text);
    }
}

}  // namespace soilhold::input
