#include "pages.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <array>
#include <cstdlib>
#include <ctime>

#include "report/page.h"

namespace soilhold::cli {

namespace {

using report::PageSettings;

/// Today, or the day of SOURCE_DATE_EPOCH (reproducible-builds.org), as 2026-04-18.
std::string today() {
    std::time_t now = std::time(nullptr);
    if (const char* epoch = std::getenv("SOURCE_DATE_EPOCH")) now = std::strtoll(epoch, nullptr, 10);
    return fmt::format("{:%Y-%m-%d}", std::getenv("SOURCE_DATE_EPOCH") ? fmt::gmtime(now) : fmt::localtime(now));
}

template <class Subject>
std::string bytes_of(const std::string& ending, const change::Comparison& comparison, const Subject& subject,
                     const PageSettings& settings) {
    if (ending == ".pdf") return report::page_pdf(comparison, subject, settings);
    if (ending == ".html") return report::page_html(comparison, subject, settings);
    if (ending == ".svg") return report::page_svg(comparison, subject, settings);
    return report::page_png(comparison, subject, settings);
}

}  // namespace

std::string file_part(const std::string& name) {
    std::string part;
    for (const char c : name) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80) != 0;
        if (c >= 'A' && c <= 'Z')
            part += static_cast<char>(c - 'A' + 'a');
        else if (letter)
            part += c;
        else if (!part.empty() && part.back() != '-')
            part += '-';
    }
    while (!part.empty() && part.back() == '-') part.pop_back();
    return part.empty() ? "field" : part;
}

Target target_of(const std::string& out) {
    for (const char* ending : {".pdf", ".html", ".svg", ".png"})
        if (out.size() > std::string(ending).size() && out.ends_with(ending))
            return {out.substr(0, out.size() - std::string(ending).size()), {ending}};
    return {out, {".pdf", ".html"}};
}

PageSettings page_settings(const Options& options) {
    PageSettings settings;
    settings.system = options.units;
    const bool letter = options.paper.empty() ? options.units == units::System::us : options.paper == "letter";
    settings.paper = letter ? report::Paper::letter : report::Paper::A4;
    settings.date = today();
    settings.program_version = SOILHOLD_VERSION;
    return settings;
}

std::vector<report::Output> pages(const change::Comparison& comparison, const Options& options) {
    const PageSettings settings = page_settings(options);
    const Target target = target_of(options.out);
    std::vector<report::Output> outputs;
    const auto add = [&](const std::string& part, const auto& subject) {
        for (const std::string& ending : target.endings)
            outputs.push_back({target.stem + part + ending, bytes_of(ending, comparison, subject, settings)});
    };
    try {
        for (const change::Pair& pair : comparison.pairs)
            add(comparison.pairs.size() == 1 ? ""
                                             : fmt::format("-{}-{}", file_part(comparison.fields[pair.from].field.name),
                                                           file_part(comparison.fields[pair.to].field.name)),
                pair);
        if (comparison.pairs.empty())
            for (std::size_t i = 0; i < comparison.fields.size(); ++i)
                add(comparison.fields.size() == 1 ? "" : "-" + file_part(comparison.fields[i].field.name), i);
    } catch (const std::runtime_error& error) {
        throw report::OutputError(fmt::format("the page can't be drawn: {}", error.what()));
    } catch (const std::length_error& error) {
        throw report::OutputError(fmt::format("the page can't be drawn: {}", error.what()));
    }
    return outputs;
}

}  // namespace soilhold::cli
