#include "report/veil_png.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>

namespace soilhold::report {

namespace {

std::string big_endian(std::uint32_t value) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>((value >> shift) & 0xFFU);
    return bytes;
}

std::uint32_t crc_of(const std::string& bytes) {
    std::uint32_t crc = 0xFFFFFFFFU;
    for (const char c : bytes) {
        crc ^= static_cast<std::uint8_t>(c);
        for (int bit = 0; bit < 8; ++bit) crc = (crc & 1U) != 0 ? (crc >> 1) ^ 0xEDB88320U : crc >> 1;
    }
    return ~crc;
}

std::uint32_t adler_of(const std::string& bytes) {
    std::uint32_t a = 1, b = 0;
    for (const char c : bytes) {
        a = (a + static_cast<std::uint8_t>(c)) % 65521U;
        b = (b + a) % 65521U;
    }
    return (b << 16) | a;
}

std::string chunk(const std::string& type, const std::string& data) {
    return big_endian(static_cast<std::uint32_t>(data.size())) + type + data + big_endian(crc_of(type + data));
}

/// zlib's frame around blocks that are stored as they are.
std::string stored(const std::string& raw) {
    std::string bytes = "\x78\x01";
    constexpr std::size_t most = 65535;
    for (std::size_t at = 0; at < raw.size(); at += most) {
        const auto length = static_cast<unsigned>(std::min(most, raw.size() - at));
        bytes += at + length == raw.size() ? '\1' : '\0';
        for (const unsigned value : {length, ~length}) {
            bytes += static_cast<char>(value & 0xFFU);
            bytes += static_cast<char>((value >> 8) & 0xFFU);
        }
        bytes.append(raw, at, length);
    }
    return bytes + big_endian(adler_of(raw));
}

}  // namespace

std::string veil_png(const Veil& veil) {
    const auto columns = static_cast<std::size_t>(std::max(veil.columns, 0));
    const auto rows = static_cast<std::size_t>(std::max(veil.rows, 0));
    if (columns * rows == 0 || veil.ink.size() != columns * rows)
        throw std::invalid_argument("A veil has one value of ink a cell.");
    const Light ink = light_of(Colour::ink);
    const auto byte = [](double part) { return static_cast<char>(std::lround(part * 255.0)); };
    std::string palette, opacity, raw;
    for (unsigned i = 0; i < 256; ++i) {
        palette += {byte(ink.red), byte(ink.green), byte(ink.blue)};
        opacity += static_cast<char>(i);
    }
    for (std::size_t r = 0; r < rows; ++r) {
        raw += '\0';  // no filter
        for (std::size_t c = 0; c < columns; ++c) raw += static_cast<char>(veil.ink[r * columns + c]);
    }
    const std::string depth_and_palette("\x08\x03\x00\x00\x00", 5);
    return "\x89PNG\r\n\x1a\n" +
           chunk("IHDR", big_endian(static_cast<std::uint32_t>(columns)) +
                             big_endian(static_cast<std::uint32_t>(rows)) + depth_and_palette) +
           chunk("PLTE", palette) + chunk("tRNS", opacity) + chunk("IDAT", stored(raw)) + chunk("IEND", "");
}

std::string in_base64(const std::string& bytes) {
    constexpr const char* letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        std::uint32_t word = 0;
        const std::size_t count = std::min<std::size_t>(3, bytes.size() - at);
        for (std::size_t i = 0; i < 3; ++i)
            word = (word << 8) | (i < count ? static_cast<std::uint8_t>(bytes[at + i]) : 0U);
        for (std::size_t i = 0; i < 4; ++i) text += i <= count ? letters[(word >> (18 - 6 * i)) & 0x3FU] : '=';
    }
    return text;
}

}  // namespace soilhold::report
