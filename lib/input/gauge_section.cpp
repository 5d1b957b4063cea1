#include "input/gauge_section.h"

#include <fmt/format.h>

#include <array>
#include <filesystem>
#include <stdexcept>

#include "factors/gauge_erosivity.h"
#include "input/rain_record.h"

namespace soilhold::input {

namespace {

/// The words of the command line's options as keys of this section: "--dry-left-out" is `dry left out`.
std::string with_keys(const std::string& text) {
    std::string result;
    bool any = false;
    for (std::size_t at = 0; at < text.size();) {
        const bool option = text.compare(at, 2, "--") == 0 && at + 2 < text.size() && text[at + 2] >= 'a' &&
                            text[at + 2] <= 'z' && (at == 0 || text[at - 1] == ' ' || text[at - 1] == '(');
        if (!option) {
            result += text[at++];
            continue;
        }
        any = true;
        std::string key;
        for (at += 2; at < text.size() && ((text[at] >= 'a' && text[at] <= 'z') || text[at] == '-'); ++at)
            key += text[at] == '-' ? ' ' : text[at];
        result += "'" + key + "'";
    }
    return any ? result + ". These are keys of 'gauge', beside 'file'" : result;
}

factors::RainEnergy energy_of(const Section& gauge) {
    constexpr auto words = std::to_array<std::string_view>({"brown and foster", "handbook 537"});
    return gauge.word("energy", words) == "handbook 537" ? factors::RainEnergy::handbook_537
                                                         : factors::RainEnergy::brown_foster;
}

RainOptions options_of(const Section& gauge) {
    RainOptions options;
    options.time = gauge.text("time").value_or("");
    options.depth = gauge.text("depth").value_or("");
    options.unit = gauge.text("unit").value_or("");
    options.kind = lower_case(gauge.text("kind").value_or(""));
    options.interval = gauge.text("interval").value_or("");
    options.tip = gauge.text("tip").value_or("");
    options.zone = gauge.text("zone").value_or("");
    options.stamp = lower_case(gauge.text("stamp").value_or(""));
    options.dry_left_out = gauge.yes_no("dry left out").value_or(false);
    return options;
}

/// The mistakes of a record: those of a line stand at that line, those of the whole at the key that names it.
void tell(const Reader& reader, Position at, const std::string& name, const InputError& error) {
    std::string whole;
    std::string code;
    for (const Diagnostic& found : error.diagnostics) {
        if (found.place.line > 0) {
            Diagnostic in_line = found;
            in_line.text = with_keys(in_line.text);
            reader.document.adopt({in_line});
            continue;
        }
        if (code.empty()) code = found.code;
        whole += (whole.empty() ? "" : ". ") + found.text;
    }
    if (!whole.empty()) reader.mistake(at, code, fmt::format("'{}': {}", name, with_keys(whole)));
}

std::string key_of(const std::string& name, const RainOptions& options, factors::RainEnergy energy) {
    std::string key = name;
    for (const std::string* one : {&options.time, &options.depth, &options.unit, &options.kind, &options.interval,
                                   &options.tip, &options.zone, &options.stamp})
        key += '\n' + *one;
    return key + (options.dry_left_out ? "\ndry" : "\n") + (energy == factors::RainEnergy::brown_foster ? "B" : "H");
}

/// R of a record, or nothing when mistakes were told.
std::optional<factors::GaugeErosivity> read_record(const Reader& reader, const Node& file, const std::string& name,
                                                   const std::string& path, const RainOptions& options,
                                                   factors::RainEnergy energy) {
    std::filesystem::path target(name);
    if (target.is_relative() && path != "-") target = std::filesystem::path(path).parent_path() / target;
    std::error_code unknown;
    const auto status = std::filesystem::status(target, unknown);
    if (std::filesystem::exists(status) && !std::filesystem::is_regular_file(status) &&
        !std::filesystem::is_directory(status)) {
        reader.mistake(file.at, "no-file", fmt::format("'{}' is no file that can be read as a gauge record", name));
        return std::nullopt;
    }
    try {
        const RainRecord read = read_rain_record(target.string(), options);
        factors::GaugeErosivity gauge = factors::gauge_erosivity(read.record, energy, {});
        // What was noticed on reading comes before what the sums make of it.
        gauge.remarks.insert(gauge.remarks.begin(), read.remarks.begin(), read.remarks.end());
        for (source::Remark& remark : gauge.remarks) remark.text = with_keys(remark.text);
        return gauge;
    } catch (const InputError& error) {
        tell(reader, file.at, name, error);
    } catch (const std::invalid_argument& too_little) {
        reader.mistake(
            file.at, "record-too-short",
            fmt::format("'{}' gives no R yet: {}. Give 'erosivity' from a map or sheet, or the rain's totals", name,
                        too_little.what()));
    }
    return std::nullopt;
}

}  // namespace

void read_gauge(const Section& rain, FilesBeside& files, loss::Field& field) {
    const Node* node = rain.find("gauge");
    if (node == nullptr) return;
    const Reader& reader = rain.reader();
    const std::size_t before = reader.document.mistakes().size();
    const Node* file = node;
    RainOptions options;
    factors::RainEnergy energy = factors::RainEnergy::brown_foster;
    if (node->is_mapping()) {
        const Section gauge(reader, "gauge", node);
        options = options_of(gauge);
        energy = energy_of(gauge);
        file = gauge.find("file");
        if (file == nullptr && !gauge.has("file"))
            reader.mistake(node->at, "missing", "'gauge' names no record: give 'file', the record as CSV");
    }
    const auto name = file != nullptr ? scalar_text(reader, *file, "gauge") : std::nullopt;
    // A record is not read with options that were mistaken.
    if (!name || reader.document.mistakes().size() > before) return;
    const std::string key = key_of(*name, options, energy);
    auto known = files.gauges.find(key);
    if (known == files.gauges.end())
        known = files.gauges.emplace(key, read_record(reader, *file, *name, files.path, options, energy)).first;
    if (!known->second) return;
    field.rain.gauge = known->second;
    source::Origin& origin = field.rain.gauge->record;
    origin = rain.origin(*node, "gauge");
    const std::string record = std::filesystem::path(*name).filename().string();
    origin.from = origin.from == reader.default_from ? record : fmt::format("{} ({})", origin.from, record);
}

}  // namespace soilhold::input
