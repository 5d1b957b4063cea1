#include "report/watershed_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "report/cautions.h"
#include "report/columns.h"
#include "report/watershed_practices.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using watershed::Criterion;
using watershed::FieldResult;
using watershed::WatershedResult;

constexpr std::size_t most_listed = 12;
constexpr double told_alone = 0.1;  // a smaller gap of a field is only counted

std::string tons(double t, units::System system) {
    return units::figures(system == units::System::us ? t / units::tonne_per_short_ton : t, 2);
}
std::string loss(double t_ha, units::System system) {
    return units::figures(units::in_unit(units::Kind::soil_loss, t_ha, system), 2);
}
const char* loss_unit_of(units::System system) { return system == units::System::us ? "t/ac" : "t/ha"; }

std::string short_name(const std::string& path) { return path.substr(path.rfind('/') + 1); }

std::string percent(double share) {
    const double value = 100 * share;
    return value > 0 && value < 1 ? "<1 %" : value > 99 && value < 100 ? ">99 %" : fmt::format("{:.0f} %", value);
}

const std::optional<watershed::Rank>& rank_of(const FieldResult& field, Criterion by) {
    return field.ranks[static_cast<std::size_t>(by)];
}

std::string table_of_fields(const WatershedResult& result, units::System system) {
    const bool offered = !result.offered.empty();
    const bool delivered = result.rank_by == Criterion::delivered;
    std::vector<std::vector<std::string>> rows(1);
    rows[0] = {"field", "tons", loss_unit_of(system), "x T"};
    if (offered) rows[0].emplace_back("avoid");
    if (delivered) rows[0].emplace_back("reach");
    rows[0].insert(rows[0].end(), {"place", "80 %", fmt::format("in top {}", result.visits), "tie"});
    for (const FieldResult* field : in_order(result)) {
        const auto& rank = rank_of(*field, result.rank_by);
        if (rows.size() > result.visits || !rank) break;
        std::vector<std::string> row{field->name, tons(field->on_grid.total_t, system),
                                     loss(field->on_grid.mean, system),
                                     field->times_T ? units::figures(*field->times_T, 2) : "-"};
        if (offered) row.push_back(field->avoidable_t ? tons(*field->avoidable_t, system) : "-");
        if (delivered) row.push_back(tons(field->delivered_avoidable_t.value_or(0), system));
        row.push_back(fmt::format("{}", rank->place));
        row.push_back(fmt::format("{}-{}", rank->likely_first, rank->likely_last));
        row.push_back(percent(rank->chance_in_top));
        row.push_back(fmt::format("{}", rank->tie_group));
        rows.push_back(std::move(row));
    }
    return table(rows);
}

/// "NW" for "north-west"; "mid" for "middle".
std::string compass(const std::string& where) {
    if (where == "middle") return "mid";
    const auto upper = [&](std::size_t at) { return static_cast<char>(where[at] - 'a' + 'A'); };
    std::string letters(1, upper(0));
    if (const std::size_t dash = where.find('-'); dash != std::string::npos) letters += upper(dash + 1);
    return letters;
}

/// Where in each field to look: its worst tenth, and how much of the field lies above T.
std::string table_of_worst(const WatershedResult& result, units::System system) {
    std::vector<std::vector<std::string>> rows(1);
    rows[0] = {"field", loss_unit_of(system), "of tons", "lies", "x", "y", "> T", "> 2 T"};
    for (const FieldResult* field : in_order(result)) {
        if (rows.size() > result.visits || !rank_of(*field, result.rank_by)) break;
        const auto& grid = field->on_grid;
        rows.push_back({field->name, loss(grid.worst_tenth_mean, system), percent(grid.worst_tenth_share),
                        compass(field->worst_where), fmt::format("{:.0f}", field->worst_at.x),
                        fmt::format("{:.0f}", field->worst_at.y), field->tolerance ? percent(grid.share_above_T) : "-",
                        field->tolerance ? percent(grid.share_above_2T) : "-"});
    }
    return table(rows);
}

/// Places by every criterion, with the chance to be among the first.
std::string table_of_places(const WatershedResult& result) {
    static constexpr std::array headings{"loss an area", "tons", "times T", "avoidable", "delivered"};
    std::vector<std::vector<std::string>> rows(1, {"field"});
    std::vector<std::size_t> shown;
    for (std::size_t i = 0; i < headings.size(); ++i)
        if (std::ranges::any_of(result.fields.fields,
                                [&](const FieldResult& field) { return field.ranks[i].has_value(); })) {
            shown.push_back(i);
            rows[0].emplace_back(headings[i]);
        }
    for (const FieldResult* field : in_order(result)) {
        if (rows.size() > result.visits || !rank_of(*field, result.rank_by)) break;
        rows.push_back({field->name});
        for (const std::size_t i : shown) {
            const auto& rank = field->ranks[i];
            rows.back().push_back(rank ? fmt::format("{} ({})", rank->place, percent(rank->chance_in_top)) : "-");
        }
    }
    return table(rows);
}

/// " (x, y of WGS 84 / UTM zone 17N)"
std::string map_words(const WatershedResult& result) {
    return result.placement.crs.empty() ? " (x, y of the map)"
                                        : fmt::format(" (x, y of {})", raster::crs_name(result.placement));
}

std::string about_delivery(const WatershedResult& result) {
    if (result.rank_by != Criterion::delivered) return "";
    std::string others;
    for (const watershed::Delivery relation : watershed::deliveries) {
        if (relation == result.delivery) continue;
        others +=
            (others.empty() ? "" : ", ") + std::string(watershed::delivery_names[static_cast<std::size_t>(relation)]);
    }
    return wrapped(fmt::format(
        "What reaches a channel is worked out by '{}'; --json has it by {} too. Each field's share is taken "
        "to lie between half and twice that, 19 times in 20 (our assumption).",
        watershed::delivery_names[static_cast<std::size_t>(result.delivery)], others));
}

std::string about_ties(const WatershedResult& result) {
    std::map<std::size_t, std::size_t> groups;
    for (const FieldResult& field : result.fields.fields)
        if (const auto& rank = rank_of(field, result.rank_by)) ++groups[rank->tie_group];
    std::string text =
        "Fields with one number under 'tie' can't be told apart; '80 %' holds a field's place in the middle 80 % of "
        "the draws.";
    if (const auto first = groups.find(1); first != groups.end() && first->second > 1)
        text += fmt::format(" {} fields are tied with the first.", first->second - 1);
    return wrapped(text);
}

std::string about_practices(const WatershedResult& result) {
    if (result.offered.empty()) return "";
    std::map<std::string, std::size_t> best;
    std::size_t shown = 0;
    for (const FieldResult* field : in_order(result)) {
        if (shown++ == result.visits) break;
        ++best[field->best_practice];
    }
    std::string text = "Most is avoided among them by ";
    bool any = false;
    for (const auto& [name, count] : best) {
        if (name.empty()) continue;
        text += fmt::format("{}{} (on {})", any ? ", " : "", name, count);
        any = true;
    }
    if (!any) return wrapped("No practice on offer lowers the loss of any of them.");
    text += ".";
    if (best.contains("")) text += fmt::format(" None on offer lowers the loss of {}.", best.at(""));
    return wrapped(text);
}

/// Items of a list, the first of them, and how many more there are.
std::string listed(const std::string& title, const std::vector<std::string>& items) {
    if (items.empty()) return "";
    std::string text = "\n" + title + "\n";
    for (std::size_t i = 0; i < std::min(items.size(), most_listed); ++i) text += wrapped(items[i], "  - ", "    ");
    if (items.size() > most_listed) text += fmt::format("  and {} more.\n", items.size() - most_listed);
    return text;
}

std::string gaps(const WatershedResult& result) {
    std::vector<std::string> items;
    for (const raster::LeftOut& out : result.fields.left_out)
        items.push_back(fmt::format("'{}' is not ranked. {}", out.name, out.why));
    const auto unranked = std::ranges::count_if(
        result.fields.fields, [&](const FieldResult& field) { return !rank_of(field, result.rank_by); });
    if (unranked > 0)
        items.push_back(fmt::format(
            "{} {} no place by {}: {}.", unranked, unranked == 1 ? "field has" : "fields have",
            watershed::words_of(result.rank_by),
            result.rank_by == Criterion::times_T ? "no T is known there" : "their water meets no channel on the map"));
    std::vector<const FieldResult*> with_gaps;
    for (const FieldResult& field : result.fields.fields)
        if (field.on_grid.gap_share > 0.005) with_gaps.push_back(&field);
    std::ranges::stable_sort(with_gaps, [](const FieldResult* a, const FieldResult* b) {
        return a->on_grid.gap_share > b->on_grid.gap_share;
    });
    std::size_t small = 0;
    for (const FieldResult* field : with_gaps) {
        if (field->on_grid.gap_share < told_alone) {
            ++small;
            continue;
        }
        items.push_back(fmt::format("'{}' has no loss on {} of its ground ({}); the rest stands for it.", field->name,
                                    percent(field->on_grid.gap_share), watershed::lacks_of(*field)));
    }
    if (small > 0)
        items.push_back(fmt::format("{} {} a gap on less than {} of the ground; --json says how much and of what.",
                                    small, small == 1 ? "field has" : "fields have", percent(told_alone)));
    std::string text = listed("Gaps", items);
    if (!with_gaps.empty())
        text +=
            wrapped("Channels have no slope factor, so a field that a channel crosses has a gap there.", "  ", "  ");
    return text;
}

std::string repairs(const WatershedResult& result) {
    std::vector<std::string> items;
    std::set<std::string> said;
    const auto add = [&](const source::Remarks& remarks, bool notes) {
        for (const source::Remark& remark : remarks)
            if ((notes || remark.weight == source::Weight::caution) && said.insert(remark.text).second)
                items.push_back(notes && !remark.place.empty() ? short_name(remark.place) + ": " + remark.text
                                                               : remark.text);
    };
    for (const FieldResult& field : result.fields.fields) add(field.remarks, false);
    std::string text = listed("Outlines that were repaired, overlap or reach beyond the map", items);
    items.clear();
    add(result.remarks, true);
    return text + listed("The maps", items);
}

std::string sources(const WatershedResult& result) {
    std::string text = "\nSources\n";
    for (const watershed::MapSource& one : result.sources) {
        const std::string of_file = one.file.empty() ? "" : " in " + one.file;
        text += wrapped(
            fmt::format("{}{}: {} ({})", one.what, of_file, one.origin.from, source::words_for(one.origin.standing)),
            "  - ", "    ");
    }
    return text;
}

}  // namespace

std::string watershed_sentence(const WatershedResult& result) {
    std::vector<double> values;
    const bool of_loss = result.rank_by == Criterion::loss || result.rank_by == Criterion::times_T;
    const Criterion by = of_loss ? Criterion::tons : result.rank_by;
    for (const FieldResult& field : result.fields.fields)
        if (const auto value = field.value(by)) values.push_back(*value);
    if (values.size() < 2) return "";
    const auto share = watershed::carried_by_top(values, 0.2);
    const auto count = std::max<long>(1, std::lround(0.2 * static_cast<double>(values.size())));
    return fmt::format("The top fifth of the fields ({} of {}) carry {:.0f} % of the {}.", count, values.size(),
                       100 * share, watershed::words_of(by));
}

std::vector<const FieldResult*> in_order(const WatershedResult& result) {
    std::vector<const FieldResult*> order;
    for (const FieldResult& field : result.fields.fields) order.push_back(&field);
    const auto place = [&](const FieldResult* field) {
        const auto& rank = rank_of(*field, result.rank_by);
        return rank ? rank->place : order.size() + 1;
    };
    std::ranges::stable_sort(order, {}, place);
    return order;
}

std::string watershed_text(const WatershedResult& result, units::System system, const std::vector<std::string>& files) {
    double whole_t = 0, area_ha = 0;
    for (const FieldResult& field : result.fields.fields)
        whole_t += field.on_grid.total_t, area_ha += field.on_grid.area_ha;
    std::string text;
    const std::string first = watershed_sentence(result);
    if (!first.empty()) text += wrapped(first);
    const std::size_t count = result.fields.fields.size();
    text += wrapped(fmt::format("{}: {} {} on {}, {} {} of soil moved in an average year.", result.name, count,
                                count == 1 ? "field" : "fields", units::print(units::Kind::area, area_ha, system, 3),
                                tons(whole_t, system), system == units::System::us ? "tons (of 2,000 lb)" : "tonnes"));
    text += count == 1 ? std::string("\nThe field\n")
                       : fmt::format("\nThe first {} by {}\n", std::min(result.visits, count),
                                     watershed::words_of(result.rank_by));
    text += table_of_fields(result, system);
    if (count > 1) text += about_ties(result);
    text += about_practices(result) + about_delivery(result);
    text +=
        wrapped(fmt::format("\nTheir worst tenths: loss, share of the field's tons, where the middle lies{}; and how "
                            "much of each field lies above T and 2 T",
                            map_words(result)));
    text += table_of_worst(result, system);
    if (count > 1) {
        text += fmt::format("\nTheir places by each way to rank (chance to be among the first {})\n", result.visits);
        text += table_of_places(result);
    }
    text += rotations_text(result) + soil_tests_text(result, system);
    text += gaps(result) + repairs(result) + sources(result);
    text += "\nBefore you use this\n";
    for (const std::string& caution : cautions()) text += wrapped(caution, "  - ", "    ");
    text += wrapped(
        "The chances hold the doubt of C, P, LS and K, of m where soil was tested, and of the share that reaches a "
        "channel; R is shared by all fields and left out.",
        "  - ", "    ");
    if (!files.empty()) text += "\n";
    for (const std::string& file : files) text += fmt::format("wrote {}\n", file);
    return text;
}

}  // namespace soilhold::report
