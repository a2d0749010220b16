// ITU-T T.81 (1992), annex B: B.1.1 "Structure of the compressed data", B.2.2 "Frame header syntax".
#include <fmt/format.h>

#include "pictures/bytes.hpp"
#include "pictures/formats.hpp"

namespace coeval {
namespace {

// Table B.1: markers.
constexpr std::uint32_t start_of_image = 0xD8;
constexpr std::uint32_t end_of_image = 0xD9;
constexpr std::uint32_t start_of_scan = 0xDA;
constexpr std::uint32_t application_1 = 0xE1;

bool stands_alone(std::uint32_t marker) { return marker == 0x01 || (marker >= 0xD0 && marker <= 0xD7); }
bool frame_header(std::uint32_t marker) {
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}
// Baseline, extended and progressive, with Huffman coding: what browsers decode.
bool shown(std::uint32_t marker) { return marker <= 0xC2; }

// The first byte after a scan's data: a byte FF that neither a stuffed 0 nor a restart marker follows (B.1.1.5).
std::size_t after_scan(std::string_view bytes, std::size_t at) {
  while (true) {
    at = bytes.find('\xFF', at);
    if (at == std::string_view::npos || at + 1 >= bytes.size()) return bytes.size();
    const auto next = static_cast<unsigned char>(bytes[at + 1]);
    if (next != 0 && (next < 0xD0 || next > 0xD7)) return at;
    at += 2;
  }
}

} // namespace

Inspection inspect_jpeg(std::string_view bytes) {
  const Bytes file{bytes};
  const PictureFault cut_off = broken(fmt::format("the file is cut off at byte {}", file.size()));
  PictureFacts facts{.format = PictureFacts::Format::jpeg};
  bool framed = false;
  bool scanned = false;
  bool sideways = false;
  for (std::size_t at = 2;;) { // after the start of the image
    if (file.byte(at) && file.byte(at) != 0xFFU) return broken(fmt::format("no part begins at byte {}", at));
    while (file.byte(at) == 0xFFU) ++at; // fill bytes may come before a marker (B.1.1.2)
    const auto marker = file.byte(at++);
    if (!marker) return cut_off;
    if (*marker == end_of_image) break;
    if (stands_alone(*marker)) continue;
    const auto length = file.big(at, 2);
    if (!length || *length > file.size() - at) return cut_off;
    if (*length < 2 || *marker == start_of_image) return broken(fmt::format("no part begins at byte {}", at - 1));
    const std::string_view inside = file.part(at + 2, *length - 2);
    if (frame_header(*marker)) {
      if (!shown(*marker)) return broken("its kind of JPEG is not one that browsers show: save it as baseline");
      if (framed || inside.size() < 6) return broken(fmt::format("its header at byte {} is damaged", at - 2));
      framed = true;
      facts.height = *file.big(at + 3, 2);
      facts.width = *file.big(at + 5, 2);
    }
    constexpr std::string_view exif{"Exif\0\0", 6};
    if (*marker == application_1 && inside.starts_with(exif)) {
      const ExifFacts told = read_exif(inside.substr(exif.size()));
      sideways = told.sideways;
      facts.located = facts.located || told.located;
    }
    at += *length;
    if (*marker == start_of_scan) {
      if (!framed) return broken("its pixels come before their header");
      scanned = true;
      at = after_scan(bytes, at);
      if (at == file.size()) return cut_off;
    }
  }
  if (!scanned) return broken("it holds no pixels");
  if (sideways) std::swap(facts.width, facts.height);
  return facts;
}

} // namespace coeval
