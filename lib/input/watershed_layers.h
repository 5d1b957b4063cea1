/// The sections of a watershed file that name maps: elevation, rain, soils, fields, cover, practice, offered.
#pragma once

#include "input/section.h"
#include "input/watershed_file.h"

namespace soilhold::input {

/// A file that a key names, beside the watershed file. A mistake where it isn't there.
std::optional<MapFile> map_file(const Section& section, std::string_view key, const std::string& beside);

/// The files of a list, or the one of a single value.
std::vector<MapFile> map_files(const Section& section, std::string_view key, const std::string& beside);

void read_elevation(const Section& section, WatershedFile& file);
void read_watershed_rain(const Section& section, WatershedFile& file);
void read_soils(const Section& section, WatershedFile& file);
void read_field_map(const Section& section, WatershedFile& file);
void read_cover_map(const Section& section, WatershedFile& file);
void read_practice_map(const Section& section, WatershedFile& file);
/// Files, and among them the words 'field edges'.
void read_barriers(const Section& top, WatershedFile& file);
void read_offered(const Reader& reader, const Node& list, WatershedFile& file);

}  // namespace soilhold::input
