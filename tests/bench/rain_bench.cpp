// A gauge record of a million rows: reading it, working R out, and a plain pass that only counts its lines; to be read
// as ratios within one run.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include "factors/gauge_record.h"
#include "input/file_text.h"
#include "input/rain_record.h"

namespace {

using namespace soilhold;

/// About nineteen years of five-minute rows with six hours of rain every sixth day.
const std::string& million_rows() {
    static const std::string path = [] {
        const std::string name = (std::filesystem::temp_directory_path() / "soilhold-million-rows.csv").string();
        std::string text = "datetime,rain_mm,flag\n";
        const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
        int rows = 0;
        for (int year = 2001; rows < 1'000'000; ++year)
            for (int month = 0; month < 12; ++month)
                for (int day = 1; day <= days[month] + (month == 1 && year % 4 == 0 ? 1 : 0); ++day)
                    for (int i = 0; i < 288 && rows < 1'000'000; ++i, ++rows) {
                        char line[64];
                        const bool wet = day % 6 == 0 && i < 72;
                        std::snprintf(line, sizeof line, "%04d-%02d-%02d %02d:%02d,%s,A\n", year, month + 1, day,
                                      i / 12, i % 12 * 5,
                                      !wet         ? "0.00"
                                      : i % 5 == 0 ? "1.52"
                                                   : "0.25");
                        text += line;
                    }
        std::ofstream(name, std::ios::binary) << text;
        return name;
    }();
    return path;
}

void CountTheLinesOfAMillionRows(benchmark::State& state) {
    const std::string path = million_rows();
    for (auto _ : state) {
        const std::string text = input::bytes_of_file(path, 1'000'000'000, "a gauge record");
        benchmark::DoNotOptimize(std::count(text.begin(), text.end(), '\n'));
    }
}
BENCHMARK(CountTheLinesOfAMillionRows)->Unit(benchmark::kMillisecond);

void ReadAMillionRows(benchmark::State& state) {
    const std::string path = million_rows();
    for (auto _ : state) benchmark::DoNotOptimize(input::read_rain_record(path));
}
BENCHMARK(ReadAMillionRows)->Unit(benchmark::kMillisecond);

void ErosivityOfAMillionRows(benchmark::State& state) {
    const input::RainRecord read = input::read_rain_record(million_rows());
    for (auto _ : state) benchmark::DoNotOptimize(factors::erosivity_of_record(read.record));
}
BENCHMARK(ErosivityOfAMillionRows)->Unit(benchmark::kMillisecond);

}  // namespace
