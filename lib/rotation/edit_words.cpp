#include "rotation/edit_words.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <optional>
#include <stdexcept>

#include "rotation/crops.h"
#include "rotation/operations.h"

namespace soilhold::rotation {

namespace {

std::string trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t,.");
    if (first == std::string_view::npos) return {};
    return std::string(text.substr(first, text.find_last_not_of(" \t,.") - first + 1));
}

/// The words before and after a joint, if it is there.
std::optional<std::pair<std::string, std::string>> cut_at(const std::string& words, std::string_view joint) {
    const auto at = words.find(joint);
    if (at == std::string::npos) return std::nullopt;
    return std::pair{trimmed(std::string_view(words).substr(0, at)),
                     trimmed(std::string_view(words).substr(at + joint.size()))};
}

/// The first whole number in the words, in figures or as a short word.
std::optional<int> number_in(const std::string& words) {
    constexpr std::array<std::pair<const char*, int>, 7> spelled = {
        {{"one ", 1}, {"a ", 1}, {"two ", 2}, {"three ", 3}, {"four ", 4}, {"five ", 5}, {"six ", 6}}};
    const auto digit = std::find_if(words.begin(), words.end(), [](char c) { return c >= '0' && c <= '9'; });
    if (digit != words.end()) return std::atoi(&*digit);
    for (const auto& [word, value] : spelled)
        if (words.find(word) != std::string::npos) return value;
    return std::nullopt;
}

/// People's short words for a tool.
std::string tool_name(const std::string& word) {
    constexpr std::array<std::pair<const char*, const char*>, 7> also = {{{"plow", "moldboard plow"},
                                                                          {"plough", "moldboard plow"},
                                                                          {"moldboard", "moldboard plow"},
                                                                          {"chisel", "chisel plow"},
                                                                          {"twisted chisel", "twisted chisel plow"},
                                                                          {"disk", "tandem disk"},
                                                                          {"ripper", "subsoiler"}}};
    for (const auto& [said, name] : also)
        if (word == said) return name;
    return operation_of(word).name;
}

std::string cover_name(const std::string& word) {
    if (word == "cover crop" || word == "a cover crop" || word == "cover" || word == "rye" || word == "cereal rye")
        return "cereal rye cover";
    for (const Crop& crop : all_crops())
        if (crop.kind == "cover" && (crop.name == word || crop.name == word + " cover")) return crop.name;
    return crop_of(word).name;
}

Edited cover_by_words(const Rotation& rotation, const std::string& cover, std::string after) {
    int days = 14;
    if (const auto ending = cut_at(after, "ended ")) {
        after = ending->first;
        const auto number = number_in(ending->second);
        if (!number)
            throw std::invalid_argument("how long before planting is the cover crop ended? 'ended 10 days before'");
        days = *number * (ending->second.find("week") != std::string::npos ? 7 : 1);
    }
    if (after == "soybeans" || after == "beans") after = "soybean";
    return cover_crop_after(rotation, crop_of(after).name, cover_name(cover), days);
}

/// "take 50 % of the stalks after corn"; a share in other words ("half") is not guessed at.
Edited take_by_words(const Rotation& rotation, const std::string& words) {
    const auto after = cut_at(words, " after ");
    const std::string& how_much = after ? after->first : words;
    const bool figure = how_much.find('%') != std::string::npos || how_much.find("percent") != std::string::npos;
    const auto share = figure ? number_in(how_much) : std::nullopt;
    if (!share && how_much != "take the stalks")
        throw std::invalid_argument("how much is taken? say 'take 50 % of the stalks'");
    return take_the_stalks(rotation, share.value_or(70) / 100.0, after ? crop_of(after->second).name : std::string());
}

Edited one_edit(const Rotation& rotation, const std::string& words) {
    if (words == "no-till" || words == "no till") return no_till(rotation);
    if (words == "leave the stalks" || words == "leave the residue") return leave_the_stalks(rotation);
    if (words == "tillage in spring" || words == "spring tillage" || words == "till in spring")
        return tillage_in_spring(rotation);
    if (const auto tools = cut_at(words, " instead of "))
        return tool_instead(rotation, tool_name(tools->second), tool_name(tools->first));
    if (words.starts_with("take ") && words.find("stalks") != std::string::npos) return take_by_words(rotation, words);
    if (const auto cover = cut_at(words, " after ")) return cover_by_words(rotation, cover->first, cover->second);
    for (const char* joint : {" years of ", " year of "})
        if (const auto sod = cut_at(words, joint))
            return years_of_sod(rotation, crop_of(sod->second == "sod" ? "grass sod" : sod->second).name,
                                number_in(sod->first + " ").value_or(0));
    throw std::invalid_argument(
        "'" + words +
        "' is no change that is known; known are 'no-till', 'chisel instead of plow', 'cover crop "
        "after corn, ended two weeks before planting', 'leave the stalks', 'take 50 % of the "
        "stalks', 'tillage in spring', '3 years of alfalfa'");
}

}  // namespace

Edited edit_by_words(const Rotation& rotation, std::string_view words) {
    Edited edited{rotation, {}, false};
    std::string rest(words);
    while (true) {
        const auto at = rest.find(" + ");
        const Edited next = one_edit(edited.rotation, trimmed(rest.substr(0, at)));
        edited.rotation = next.rotation;
        edited.sentence += (edited.sentence.empty() ? "" : " ") + next.sentence;
        edited.changed = edited.changed || next.changed;
        if (at == std::string::npos) return edited;
        rest = rest.substr(at + 3);
    }
}

}  // namespace soilhold::rotation
