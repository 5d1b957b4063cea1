// libFuzzer target for the reader of field files; not part of the build. With clang, from the top of the tree:
//   clang++ -std=c++20 -g -O1 -fsanitize=fuzzer,address,undefined -Ilib tests/abuse/field_file_fuzz.cpp
//     lib/{input,structure,rotation,factors,soiltest,spread,source,units}/*.cpp <build>/reference_data.cpp -lyaml-cpp -lfmt -o
//     fuzz
//   ./fuzz -max_len=4000 <folder with the demo files>
#include "input/field_file.h"

#include <cstddef>
#include <cstdint>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        soilhold::input::read_fields({reinterpret_cast<const char*>(data), size}, "fuzz.yaml");
    } catch (const soilhold::input::InputError& error) {
        for (const auto& found : error.diagnostics) soilhold::input::render(found);
    }
    return 0;
}
