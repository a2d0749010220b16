// Portable Network Graphics, third edition (W3C Recommendation, 2025): 5 "Datastream structure", 11.2.1 "IHDR".
#include <array>

#include <fmt/format.h>

#include "pictures/bytes.hpp"
#include "pictures/formats.hpp"

namespace coeval {
namespace {

// Annex D: the sum that each chunk ends with.
constexpr std::array<std::uint32_t, 256> make_crc_table() {
  std::array<std::uint32_t, 256> table{};
  for (std::uint32_t number = 0; number < table.size(); ++number) {
    std::uint32_t sum = number;
    for (int bit = 0; bit < 8; ++bit) sum = (sum & 1U) != 0 ? 0xEDB88320U ^ (sum >> 1) : sum >> 1;
    table[number] = sum;
  }
  return table;
}

std::uint32_t crc(std::string_view bytes) {
  static constexpr std::array<std::uint32_t, 256> table = make_crc_table();
  std::uint32_t sum = 0xFFFFFFFFU;
  for (const char byte : bytes) sum = table[(sum ^ static_cast<unsigned char>(byte)) & 0xFFU] ^ (sum >> 8);
  return sum ^ 0xFFFFFFFFU;
}

// 11.2.1, table 11.1.
bool allowed_depth(std::uint32_t colour, std::uint32_t depth) {
  const bool whole_bytes = depth == 8 || depth == 16;
  const bool up_to_eight = depth == 1 || depth == 2 || depth == 4 || depth == 8;
  if (colour == 0) return up_to_eight || depth == 16;
  if (colour == 3) return up_to_eight;
  return (colour == 2 || colour == 4 || colour == 6) && whole_bytes;
}

} // namespace

Inspection inspect_png(std::string_view bytes) {
  const Bytes file{bytes};
  constexpr std::size_t signature = 8;
  constexpr std::size_t around = 12; // length, type and sum of a chunk
  PictureFacts facts{.format = PictureFacts::Format::png};
  bool pixels = false;
  for (std::size_t at = signature;;) {
    const auto length = file.big(at, 4);
    const std::string_view type = file.part(at + 4, 4);
    if (!length || type.size() < 4 || file.size() - at < around || *length > file.size() - at - around)
      return broken(fmt::format("the file is cut off at byte {}", file.size()));
    if (crc(file.part(at + 4, *length + std::size_t{4})) != file.big(at + 8 + *length, 4))
      return broken(fmt::format("the part that begins at byte {} is damaged", at));
    if (at == signature) {
      const auto depth = file.byte(at + 16);
      const auto colour = file.byte(at + 17);
      if (type != "IHDR" || *length != 13 || !allowed_depth(*colour, *depth))
        return broken("it does not begin with a header that PNG allows");
      facts.width = *file.big(at + 8, 4);
      facts.height = *file.big(at + 12, 4);
    }
    if (type == "IDAT") pixels = true;
    if (type == "eXIf") facts.located = read_exif(file.part(at + 8, *length)).located;
    if (type == "IEND") break;
    at += around + *length;
  }
  if (!pixels) return broken("it holds no pixels");
  return facts;
}

} // namespace coeval
