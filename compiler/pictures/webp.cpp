// WebP container specification (Google, RFC 9649 section 2): RIFF chunks. Sizes: RFC 6386 section 9.1 for lossy
// pictures, RFC 9649 sections 2.7 and 3.4 for extended and lossless ones.
#include <fmt/format.h>

#include "pictures/bytes.hpp"
#include "pictures/formats.hpp"

namespace coeval {
namespace {

// A frame's tag of three bytes (the lowest bit is 0 for a whole picture), a start code, 14 bits of width and 14 of
// height, each with two bits of scaling that decoders do not apply.
bool read_lossy(const Bytes& chunk, PictureFacts& facts) {
  const auto tag = chunk.little(0, 3);
  const auto width = chunk.little(6, 2);
  const auto height = chunk.little(8, 2);
  if (!tag || (*tag & 1U) != 0 || chunk.big(3, 3) != 0x9D012AU || !width || !height) return false;
  facts.width = *width & 0x3FFFU;
  facts.height = *height & 0x3FFFU;
  return true;
}

// A signature, 14 bits of width less one, 14 of height less one, one for transparency, three of version.
bool read_lossless(const Bytes& chunk, PictureFacts& facts) {
  const auto bits = chunk.little(1, 4);
  if (chunk.byte(0) != 0x2FU || !bits || *bits >> 29 != 0) return false;
  facts.width = (*bits & 0x3FFFU) + 1;
  facts.height = (*bits >> 14 & 0x3FFFU) + 1;
  return true;
}

// Flags, three bytes of nothing, 24 bits each of width and height less one.
bool read_extended(const Bytes& chunk, PictureFacts& facts) {
  const auto width = chunk.little(4, 3);
  const auto height = chunk.little(7, 3);
  if (!width || !height) return false;
  facts.width = *width + 1;
  facts.height = *height + 1;
  return true;
}

} // namespace

Inspection inspect_webp(std::string_view bytes) {
  const Bytes file{bytes};
  const PictureFault cut_off = broken(fmt::format("the file is cut off at byte {}", file.size()));
  constexpr std::size_t header = 8; // of a chunk: its name and size
  const auto told = file.little(4, 4);
  if (!told || *told > file.size() - header) return cut_off;
  const std::size_t end = header + *told;
  PictureFacts facts{.format = PictureFacts::Format::webp};
  bool sized = false;
  bool pixels = false;
  for (std::size_t at = 12; at < end;) {
    const std::string_view name = file.part(at, 4);
    const auto size = file.little(at + 4, 4);
    if (!size || end - at < header || *size > end - at - header) return cut_off;
    const Bytes chunk{file.part(at + header, *size)};
    const bool lossy = name == "VP8 ";
    const bool lossless = name == "VP8L";
    const bool extended = name == "VP8X";
    const bool first = at == 12;
    if (first && !lossy && !lossless && !extended) return broken("it does not begin with a header that WebP allows");
    if (first) { // what follows an extended header is drawn within its size
      sized = lossy ? read_lossy(chunk, facts) : lossless ? read_lossless(chunk, facts) : read_extended(chunk, facts);
      if (!sized) return broken(fmt::format("its header at byte {} is damaged", at));
    }
    pixels = pixels || lossy || lossless || name == "ANMF";
    if (name == "EXIF") {
      std::string_view exif = file.part(at + header, *size);
      constexpr std::string_view prefix{"Exif\0\0", 6};
      if (exif.starts_with(prefix)) exif.remove_prefix(prefix.size());
      facts.located = facts.located || read_exif(exif).located;
    }
    at += header + *size + (*size & 1U);
  }
  if (!sized || !pixels) return broken("it holds no pixels");
  return facts;
}

} // namespace coeval
