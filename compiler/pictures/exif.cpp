// TIFF 6.0 (1992), section 2: "TIFF structure". CIPA DC-008 (Exif 2.32), 4.6.4: tags Orientation and GPS IFD Pointer.
#include "pictures/bytes.hpp"
#include "pictures/formats.hpp"

namespace coeval {

ExifFacts read_exif(std::string_view tiff) {
  constexpr std::uint32_t orientation = 0x0112;
  constexpr std::uint32_t gps_pointer = 0x8825;
  constexpr std::size_t entry_size = 12;
  ExifFacts facts;
  const bool little = tiff.starts_with("II");
  if (!little && !tiff.starts_with("MM")) return facts;
  const Bytes block{tiff};
  const auto number = [&](std::size_t at, std::size_t size) {
    return little ? block.little(at, size) : block.big(at, size);
  };
  const auto directory = number(4, 4);
  if (number(2, 2) != 42U || !directory) return facts;
  const std::size_t begin = *directory;
  const std::uint32_t count = number(begin, 2).value_or(0);
  for (std::uint32_t i = 0; i < count; ++i) {
    const std::size_t entry = begin + 2 + i * entry_size;
    const auto tag = number(entry, 2);
    if (!tag) break;
    if (*tag == gps_pointer) facts.located = true;
    if (*tag == orientation) {
      const std::uint32_t turned = number(entry + 8, 2).value_or(1);
      facts.sideways = turned >= 5 && turned <= 8;
    }
  }
  return facts;
}

} // namespace coeval
