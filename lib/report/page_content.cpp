#include "report/page_content.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/cautions.h"
#include "report/page_words.h"
#include "report/words.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using Fields = std::vector<const loss::FieldEstimate*>;
using loss::ChangeResult;
using loss::FieldEstimate;
using units::Kind;

std::string how_bars_read(bool with_mark, bool with_changes) {
    std::string text = "The true average lies in the bar 8 times in 10. The tick is the middle.";
    if (with_mark) text += " T is a planning mark, not a safe line.";
    if (with_changes) text += " Solid bars show the field as it is farmed now, striped bars after a change.";
    return text;
}

bool any_mark(const Fields& fields) {
    return std::any_of(fields.begin(), fields.end(),
                       [](const FieldEstimate* one) { return one->tolerance.has_value(); });
}

/// A change that leaves more of the loss than this is no help worth a bar.
constexpr double clearly_less = 0.95;

/// The estimate under names and notes short enough for the page.
FieldEstimate with_short_words(FieldEstimate estimate, const PageLimits& limits) {
    estimate.field.name = shortened_within(estimate.field.name, limits.name_letters);
    for (ChangeResult& change : estimate.changes) {
        change.name = shortened(change.name, limits.name_letters);
        change.note = shortened(change.note, limits.note_letters);
    }
    return estimate;
}

LossRow row_of(std::string label, const spread::Interval& loss, const std::optional<double>& mark, bool change,
               units::System system) {
    const auto convert = [&](double si) { return units::in_unit(Kind::soil_loss, si, system); };
    LossRow row;
    row.label = std::move(label);
    row.low = convert(loss.low);
    row.central = convert(loss.central);
    row.high = convert(loss.high);
    row.middle =
        row.central < 1.0 ? "below 1 " + loss_unit(system) : units::figures(row.central, 2) + " " + loss_unit(system);
    row.range = range_in_words(loss, system);
    if (mark) row.mark = convert(*mark);
    row.change = change;
    return row;
}

/// The changes that keep most soil, over all fields: (field, change), best first.
std::vector<std::pair<const FieldEstimate*, const ChangeResult*>> best_changes(const Fields& fields) {
    std::vector<std::pair<const FieldEstimate*, const ChangeResult*>> list;
    for (const FieldEstimate* field : fields)
        for (const ChangeResult& change : field->changes)
            if (change.ratio.central < clearly_less) list.emplace_back(field, &change);
    std::stable_sort(list.begin(), list.end(),
                     [](const auto& a, const auto& b) { return a.second->saved.central > b.second->saved.central; });
    return list;
}

PagePart loss_part(const Fields& fields, const PageFacts& facts, const PageLimits& limits) {
    PagePart part;
    part.heading = "Soil lost in an average year, and what a change would do";
    part.bars.unit = loss_unit(facts.system);
    auto best = best_changes(fields);
    std::size_t all = 0;
    for (const FieldEstimate* field : fields) all += field->changes.size();
    best.resize(std::min(best.size(), limits.changes));
    if (best.empty()) part.heading = "Soil lost in an average year";
    std::string alt = "Bars on one scale from zero.";
    for (const FieldEstimate* field : fields) {
        part.bars.rows.push_back(
            row_of(field->field.name + ", as now", field->loss, field->tolerance, false, facts.system));
        for (const auto& [owner, change] : best)
            if (owner == field)
                part.bars.rows.push_back(row_of(change->name, change->loss, field->tolerance, true, facts.system));
    }
    for (const LossRow& row : part.bars.rows)
        alt += fmt::format(" {}: {}, likely {}.", row.label, row.middle, row.range);
    part.bars_alt = alt;
    part.remarks.push_back(how_bars_read(any_mark(fields), !best.empty()));
    if (all > best.size())
        part.remarks.push_back(fmt::format("We worked out {} more change{} that keep{} less soil. Ask us for {}.",
                                           all - best.size(), all - best.size() == 1 ? "" : "s",
                                           all - best.size() == 1 ? "s" : "", all - best.size() == 1 ? "it" : "them"));
    std::string depth;
    for (const FieldEstimate* field : fields) {
        const std::string one = depth_sentence(*field, facts.system);
        if (!one.empty()) depth += (depth.empty() ? "" : " ") + one;
    }
    if (!depth.empty()) part.after.push_back(depth);
    for (const FieldEstimate* field : fields)
        for (const std::string& more :
             {slope_part_sentence(*field, facts.system), leaving_sentences(*field, facts.system)})
            if (!more.empty()) part.after.push_back(more);
    return part;
}

void add_clods(PagePart& part, const Fields& fields) {
    for (const FieldEstimate* field : fields) {
        if (!field->tests.slake) continue;
        const soiltest::SlakeSummary& slake = *field->tests.slake;
        part.clods.push_back(
            {field->field.name, fmt::format("{} of {} held", held_in_words(slake), slake.clods), slake.by_class});
        part.clods_alt += fmt::format("{}{}:", part.clods_alt.empty() ? "" : " ", field->field.name);
        for (int c = 6; c >= 0; --c)
            if (slake.by_class[static_cast<std::size_t>(c)] > 0)
                part.clods_alt += fmt::format(" {} clods of class {},", slake.by_class[static_cast<std::size_t>(c)], c);
        part.clods_alt.back() = '.';
    }
}

/// "16 of 18 clods of Lower Reach held in water; 3 of 18 of Wether Fold did."
std::string counts_sentence(const FieldEstimate& from, const FieldEstimate& to) {
    const soiltest::SlakeSummary &a = *from.tests.slake, &b = *to.tests.slake;
    const bool b_first = b.held * a.clods > a.held * b.clods;
    const auto& [first, first_name] = b_first ? std::pair(b, to.field.name) : std::pair(a, from.field.name);
    const auto& [second, second_name] = b_first ? std::pair(a, from.field.name) : std::pair(b, to.field.name);
    return fmt::format("{} of {} clods of {} held in water; {} of {} of {} did.", held_in_words(first), first.clods,
                       first_name, held_in_words(second), second.clods, second_name);
}

PagePart tests_part(const Fields& fields, const change::Pair* pair, const PageFacts& facts) {
    PagePart part;
    part.heading = "What the soak tests showed";
    add_clods(part, fields);
    if (pair && pair->tests) {
        part.before.push_back(counts_sentence(*fields[0], *fields[1]));
        if (!pair->agreement.empty()) part.after.push_back(pair->agreement);
    } else {
        for (const FieldEstimate* field : fields) {
            const std::string text = tests_sentence(*field);
            if (!text.empty()) part.before.push_back(text);
        }
    }
    const std::string without = without_tests_sentence(fields, facts.system);
    if (!without.empty()) part.remarks.push_back(without);
    if (part.before.empty() && part.clods.empty()) {
        part.before.emplace_back("No soak test was made here. Put dry clods in water and look which ones hold.");
    }
    return part;
}

PagePart unknowns_part(const Fields& fields, const change::Pair* pair) {
    PagePart part;
    part.heading = "What we don\xe2\x80\x99t know";
    part.list = unknowns(fields, pair);
    part.half = true;
    return part;
}

PagePart next_step_part(const std::string& sentence) {
    PagePart part;
    part.heading = "One next step";
    part.before.push_back(sentence);
    part.half = true;
    return part;
}

/// The sources, cut at a word where room is short: the whole list is in the program's text and table.
std::string sources_within(const Fields& fields, std::size_t most) {
    const std::string whole = sources_line(fields);
    if (whole.size() <= most) return whole;
    return whole.substr(0, whole.rfind(' ', most)) + " \xe2\x80\xa6 (the whole list: soilhold --explain)";
}

void show_one_field(PageContent& content, const FieldEstimate& field, const PageFacts& facts,
                    const PageLimits& limits) {
    content.headline = field_sentence(field, facts.system);
    content.parts.push_back(loss_part({&field}, facts, limits));
    content.parts.push_back(tests_part({&field}, nullptr, facts));
    content.parts.push_back(next_step_part(next_step_sentence(field, facts.system)));
    content.parts.push_back(unknowns_part({&field}, nullptr));
}

void show_fair_pair(PageContent& content, const FieldEstimate& from, const FieldEstimate& to, const change::Pair& pair,
                    const PageFacts& facts, const PageLimits& limits) {
    content.headline = ratio_sentence(*pair.ratio, from.field.name, to.field.name);
    content.parts.push_back(loss_part({&from, &to}, facts, limits));
    content.parts.push_back(tests_part({&from, &to}, &pair, facts));
    const FieldEstimate& loses_more = from.loss.central >= to.loss.central ? from : to;
    content.parts.push_back(next_step_part(next_step_sentence(loses_more, facts.system)));
    content.parts.push_back(unknowns_part({&from, &to}, &pair));
}

/// Both results stand alone, each on a scale of its own, and nothing sets them side by side.
void show_without_comparison(PageContent& content, const FieldEstimate& from, const FieldEstimate& to,
                             const change::Pair& pair, const PageFacts& facts, const PageLimits& limits) {
    content.headline = fmt::format("No comparison is drawn between {} and {}.", from.field.name, to.field.name);
    PagePart why, redo;
    why.heading = "Why not";
    why.half = redo.half = true;
    redo.heading = "One next step: test again, this way";
    const auto& reasons = pair.fairness.reasons;
    for (const soiltest::Reason& reason : reasons) {
        if (why.list.size() == limits.reasons) break;
        why.list.push_back(reason.text);
        if (!reason.redo.empty() && std::find(redo.list.begin(), redo.list.end(), reason.redo) == redo.list.end())
            redo.list.push_back(reason.redo);
    }
    if (reasons.size() > why.list.size())
        why.list.push_back(
            fmt::format("There are {} more reasons. Ask us for the list.", reasons.size() - why.list.size()));
    if (why.list.empty()) why.list.emplace_back("The two tests were not made alike.");
    if (redo.list.empty()) redo.list.emplace_back("Nothing done again would make these two fields alike.");
    content.parts.push_back(why);
    content.parts.push_back(redo);
    PageLimits few = limits;
    few.changes = 0;
    // One scale for both, so that the eye draws no comparison that the axes make.
    const double reach =
        std::max(reach_of(loss_part({&from}, facts, few).bars), reach_of(loss_part({&to}, facts, few).bars));
    for (const FieldEstimate* field : {&from, &to}) {
        PagePart part = loss_part({field}, facts, few);
        part.heading = field->field.name + " by itself";
        part.before.push_back(field_sentence(*field, facts.system));
        part.after.clear();
        part.remarks.clear();
        for (LossRow& row : part.bars.rows) row.label = "As now";
        part.bars.reach = reach;
        add_clods(part, {field});
        for (ClodRow& row : part.clods) row.name = "Clods";
        const std::string tests = tests_sentence(*field);
        if (!tests.empty()) part.after.push_back(tests);
        content.parts.push_back(part);
    }
    content.parts.back().remarks.push_back(how_bars_read(any_mark({&from, &to}), false));
    content.parts[content.parts.size() - 2].clod_key = content.parts.back().clods.empty();
}

}  // namespace

void add_foot(PageContent& content, const Fields& fields, const PageFacts& facts, const PageLimits& limits) {
    const auto first_of = [&](std::string loss::Field::*line) {
        for (const FieldEstimate* field : fields)
            if (!(field->field.*line).empty()) return field->field.*line;
        return std::string();
    };
    content.farm = shortened(first_of(&loss::Field::farm), 70);
    content.local_office = shortened(first_of(&loss::Field::local_office), 110);
    content.prepared_by = shortened(first_of(&loss::Field::prepared_by), 90);
    content.date = facts.date;
    content.cautions = cautions();
    content.sources = sources_within(fields, limits.source_letters);
    content.maker = facts.program_version.empty() ? "soilhold" : "soilhold " + facts.program_version;
    for (const FieldEstimate* field : fields) content.names.push_back(field->field.name);
}

PageContent content_of(const change::Comparison& comparison, const change::Pair& pair, const PageFacts& facts,
                       const PageLimits& limits) {
    FieldEstimate from = with_short_words(comparison.fields.at(pair.from), limits);
    FieldEstimate to = with_short_words(comparison.fields.at(pair.to), limits);
    if (from.field.name == to.field.name) {  // two names may be alike, or become so when they are shortened
        from.field.name += " (1)";
        to.field.name += " (2)";
    }
    PageContent content;
    add_foot(content, {&from, &to}, facts, limits);
    if (pair.ratio)
        show_fair_pair(content, from, to, pair, facts, limits);
    else
        show_without_comparison(content, from, to, pair, facts, limits);
    return content;
}

PageContent content_of(const change::Comparison& comparison, std::size_t field, const PageFacts& facts,
                       const PageLimits& limits) {
    const FieldEstimate one = with_short_words(comparison.fields.at(field), limits);
    PageContent content;
    add_foot(content, {&one}, facts, limits);
    show_one_field(content, one, facts, limits);
    return content;
}

}  // namespace soilhold::report
