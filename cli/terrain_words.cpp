#include "terrain_words.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "raster/placement.h"
#include "report/cautions.h"
#include "report/pits_json.h"
#include "units/printing.h"

namespace soilhold::cli {

namespace {

using watershed::Routing;
using watershed::Spread;

std::string routing_words(Routing routing) {
    if (routing == Routing::d_infinity) return "to the one or two neighbours that the line of fall lies between";
    if (routing == Routing::multiple) return "to all lower neighbours, more where it falls more steeply";
    return "to the neighbour down the steepest way";
}

std::string routing_source(Routing routing) {
    if (routing == Routing::d_infinity) return "Tarboton 1997 (from memory), within the longest slope";
    if (routing == Routing::multiple) return "Freeman 1991, exponent 1.1 (from memory), within the longest slope";
    return "O'Callaghan & Mark 1984 (from memory)";
}

/// 12 345 678
std::string count(std::int64_t number) {
    std::string digits = std::to_string(number), text;
    for (std::size_t i = 0; i < digits.size(); ++i) {
        if (i > 0 && (digits.size() - i) % 3 == 0) text += ' ';
        text += digits[i];
    }
    return text;
}

std::string both(units::Kind kind, double si, int figures = 3) {
    return fmt::format("{} ({})", units::print(kind, si, units::System::metric, figures),
                       units::print(kind, si, units::System::us, figures));
}

std::string width(double metres) { return fmt::format("{} m", units::figures(metres, 3)); }

std::string volume(double m3) {
    return (m3 < 1000 ? units::figures(m3, 3) : count(static_cast<std::int64_t>(m3))) + " m3";
}

std::string in_lines(const std::string& text, const std::string& first, const std::string& rest) {
    std::string out = first;
    std::size_t column = first.size();
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        if (column + end - at > 80 && column > rest.size()) {
            out += "\n" + rest;
            column = rest.size();
        } else if (at > 0) {
            out += ' ';
            ++column;
        }
        out += text.substr(at, end - at);
        column += end - at;
        at = end + 1;
    }
    return out + "\n";
}

std::string row(const std::string& name, const std::string& text) {
    return in_lines(text, fmt::format("  {:<16}", name), std::string(18, ' '));
}

std::string spread_row(const std::string& name, const Spread& spread, double factor) {
    const auto figure = [&](double value) { return units::figures(value * factor, 2); };
    return fmt::format("  {:<16}{:>8}{:>8}{:>8}{:>8}\n", name, figure(spread.tenth), figure(spread.middle),
                       figure(spread.nine_tenth), figure(spread.mean));
}

std::string loss_words(double t_ha) { return both(units::Kind::soil_loss, t_ha, 2); }

std::string sentence(const TerrainSaid& said) {
    const Spread& loss = said.result.loss;
    if (said.options.factors && loss.cells == 0) return fmt::format("No cell of {} has a loss.", said.arguments.file);
    if (said.options.factors)
        return fmt::format(
            "On half of the ground of {} the yearly loss is above {}; on a tenth it is above {}. The mean "
            "is {}.",
            said.arguments.file, loss_words(loss.middle), loss_words(loss.nine_tenth), loss_words(loss.mean));
    const Spread& slope_factor = said.result.slope_factor;
    if (slope_factor.cells == 0) return fmt::format("No cell of {} has a slope factor LS.", said.arguments.file);
    return fmt::format("On half of the ground of {} the slope factor LS is above {}; on a tenth it is above {}.",
                       said.arguments.file, units::figures(slope_factor.middle, 2),
                       units::figures(slope_factor.nine_tenth, 2));
}

/// Of LS alone, or where tons are shown those of the trade.
std::vector<std::string> standing_cautions(const TerrainSaid& said) {
    if (said.options.factors) return report::cautions();
    return {"LS alone is no soil loss: rain, soil, cover and practice are not in it.",
            "It stands for sheet and rill erosion on slopes; channels and gullies are left out."};
}

nlohmann::json spread_json(const Spread& spread) {
    if (spread.cells == 0) return {{"cells", 0}};
    return {{"cells", spread.cells},
            {"p10", spread.tenth},
            {"p50", spread.middle},
            {"p90", spread.nine_tenth},
            {"mean", spread.mean}};
}

}  // namespace

std::string terrain_text(const TerrainSaid& said) {
    const watershed::SlopeMapResult& result = said.result;
    const terrain::FillReport& filled = result.pits.filled;
    std::string text = in_lines(sentence(said), "", "") + "\n";
    text += row("cells",
                fmt::format("{} ({} x {}), {} with a height", count(result.shape.cells()), count(result.shape.columns),
                            count(result.shape.rows), count(result.cells_with_height)));
    text += row("cell width", both(units::Kind::length, result.shape.cell_m));
    text += row("map", raster::crs_name(result.placement));
    if (const auto& cut = result.pits.cut) {
        const std::string asked = watershed::limits_in_words(*said.options.pits.cuts);
        text += row("pits cut open",
                    cut->cuts == 0 ? fmt::format("none ({})", asked)
                                   : fmt::format("{} ({}); the longest {}, the deepest {}; {} cells lowered, {} "
                                                 "in all",
                                                 count(cut->cuts), asked, width(cut->longest_m), width(cut->deepest_m),
                                                 count(cut->cells_lowered), volume(cut->volume_m3)));
    }
    text += row("pits filled",
                filled.cells_raised == 0
                    ? "none"
                    : fmt::format("{}; the deepest {}; {} cells raised, {} in all", count(filled.pits),
                                  width(filled.deepest_m), count(filled.cells_raised), volume(filled.volume_m3)));
    text += row("water goes", routing_words(said.options.routing));
    text += row("longest slope", both(units::Kind::length, said.options.rules.longest_slope_m));
    text += row("channels", fmt::format("from {} drained; {} cells, without LS",
                                        both(units::Kind::area, said.options.rules.channel_from_m2 / 1e4),
                                        count(result.channel_cells)));
    if (!said.options.barriers.empty()) text += row("barriers", fmt::format("{} cells", count(result.barrier_cells)));
    text += row("rills", said.arguments.rills);
    if (said.options.factors) text += row("A = R K LS C P", factor_words(*said.options.factors));
    text += fmt::format("\n  {:<16}{:>8}{:>8}{:>8}{:>8}\n", "share below", "10 %", "50 %", "90 %", "mean");
    text += spread_row("slope, %", result.gradient, 100);
    if (result.slope_factor.cells > 0) text += spread_row("LS", result.slope_factor, 1);
    if (result.loss.cells > 0) text += spread_row("loss, t/(ha yr)", result.loss, 1);
    text += "\nWritten:\n";
    for (const std::string& file : said.files) text += "  " + file + "\n";
    const auto remarks = [&](source::Weight weight, const char* heading) {
        bool headed = false;
        for (const source::Remark& remark : result.remarks) {
            if (remark.weight != weight) continue;
            if (!headed) text += heading;
            headed = true;
            text += in_lines(fmt::format("{} [{}]", remark.text, remark.code), "- ", "  ");
        }
        return headed;
    };
    remarks(source::Weight::note, "\nWhat was done to the file:\n");
    if (!remarks(source::Weight::caution, "\nCautions:\n")) text += "\nCautions:\n";
    for (const std::string& caution : standing_cautions(said)) text += in_lines(caution, "- ", "  ");
    return text;
}

std::string terrain_json(const TerrainSaid& said) {
    const watershed::SlopeMapResult& result = said.result;
    nlohmann::json json{
        {"format", 1},
        {"program", "soilhold " SOILHOLD_VERSION},
        {"command", "terrain"},
        {"file", said.arguments.file},
        {"written", said.files},
        {"columns", result.shape.columns},
        {"rows", result.shape.rows},
        {"cells_with_height", result.cells_with_height},
        {"cell_m", result.shape.cell_m},
        {"crs", raster::crs_name(result.placement)},
        {"filled", report::filled_json(result.pits.filled)},
        {"routing", said.arguments.routing},
        {"rills", said.arguments.rills},
        {"longest_slope_m", said.options.rules.longest_slope_m},
        {"channel_from_m2", said.options.rules.channel_from_m2},
        {"channel_cells", result.channel_cells},
        {"barrier_cells", result.barrier_cells},
        {"gradient", spread_json(result.gradient)},
        {"slope_factor", spread_json(result.slope_factor)},
        {"method", terrain_lineage(said.arguments, said.options, "ls")["SOILHOLD_METHOD"]},
    };
    json["pits"] = said.arguments.pits;
    if (const auto& cut = result.pits.cut) json["cut_open"] = report::cut_json(*said.options.pits.cuts, *cut);
    if (said.options.factors) {
        json["loss"] = spread_json(result.loss);  // t/(ha yr)
        json["factors"] = factor_words(*said.options.factors);
    }
    json["remarks"] = nlohmann::json::array();
    for (const source::Remark& remark : result.remarks)
        json["remarks"].push_back({{"weight", remark.weight == source::Weight::caution ? "caution" : "note"},
                                   {"code", remark.code},
                                   {"text", remark.text},
                                   {"file", remark.place}});
    json["cautions"] = nlohmann::json::array();
    for (const std::string& caution : standing_cautions(said)) json["cautions"].push_back(caution);
    return json.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

std::map<std::string, std::string> terrain_lineage(const TerrainArguments& arguments,
                                                   const watershed::SlopeMapOptions& options,
                                                   const std::string& output) {
    std::string asked;
    const auto add = [&](const char* name, const std::string& value) {
        if (!value.empty()) asked += fmt::format("{}{} {}", asked.empty() ? "" : " ", name, value);
    };
    add("--cell", arguments.cell);
    add("--project", arguments.project);
    add("--crs", arguments.crs);
    add("--cell-unit", arguments.cell_unit);
    add("--height-unit", arguments.height_unit);
    add("--nodata", arguments.nodata);
    for (const std::string& file : arguments.barriers) add("--barriers", file);
    add("--longest", fmt::format("{:.6g} m", options.rules.longest_slope_m));
    add("--channel", fmt::format("{:.6g} ha", options.rules.channel_from_m2 / 1e4));
    if (options.pits.cuts) {
        add("--pits", "breach");
        add("--longest-cut", fmt::format("{:.6g} m", options.pits.cuts->longest_m));
        add("--deepest-cut", fmt::format("{:.6g} m", options.pits.cuts->deepest_m));
    }
    add("--rills", arguments.rills);
    add("--routing", arguments.routing);
    add("--rain", arguments.factors.rain);
    add("--soil", arguments.factors.soil);
    add("--cover", arguments.factors.cover);
    add("--practice", arguments.factors.practice);
    const std::string fill =
        std::string(options.pits.cuts ? "depressions cut open at least cost on the ground as surveyed (Lindsay & Dhun "
                                        "2015, Lindsay 2016, from memory; found all at once: ours), what is left "
                                      : "depressions ") +
        "filled to their spill (Barnes and others 2014, from memory)";
    const std::string route =
        fmt::format("water {}: {}", routing_words(options.routing), routing_source(options.routing));
    const char* const slope = "slope of the eight neighbours (Horn 1981, from memory), one-sided at borders (ours)";
    std::string method;
    if (output == "slope") method = slope;
    if (output == "filled") method = fill;
    if (output == "directions")
        method = fmt::format("{}; water to the neighbour down the steepest way (O'Callaghan & Mark 1984, from memory)",
                             fill);
    if (output == "area")
        method = fmt::format(
            "{}; ground summed down the steepest ways, anew at barriers (O'Callaghan & Mark 1984, "
            "from memory)",
            fill);
    if (method.empty())
        method = fmt::format(
            "{}; {}; {}; L of a cell by Desmet & Govers 1996 (form read in a paper that quotes it) "
            "with the contour that its water crosses (ours) and unit length 72.6 ft; exponent and S of Handbook 703 "
            "eq. 4-4, 4-5 (read in a textbook's "
            "reprint); longest slope 400 ft usual, 1000 ft the most (read in a textbook); channel threshold ours",
            fill, route, slope);
    if (output == "loss" && options.factors)
        method = fmt::format("A = R K LS C P, t/(ha yr), sheet and rill loss by rain, a long-term average; {}; LS: {}",
                             factor_words(*options.factors), method);
    return {{"SOILHOLD_PROGRAM", "soilhold " SOILHOLD_VERSION " terrain"},
            {"SOILHOLD_HEIGHTS", arguments.file},
            {"SOILHOLD_OPTIONS", asked},
            {"SOILHOLD_METHOD", method},
            {"TIFFTAG_SOFTWARE", "soilhold " SOILHOLD_VERSION}};
}

}  // namespace soilhold::cli
