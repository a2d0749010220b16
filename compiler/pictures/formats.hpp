// pictures/formats.hpp: what does a file of each format say about itself?
//
// Private to this room. Each reader is given bytes that begin as its format does, and checks everything else.
#pragma once

#include "pictures/inspect.hpp"

namespace coeval {

using Inspection = std::variant<PictureFacts, PictureFault>;

[[nodiscard]] Inspection inspect_png(std::string_view bytes);
[[nodiscard]] Inspection inspect_jpeg(std::string_view bytes);
[[nodiscard]] Inspection inspect_webp(std::string_view bytes);
[[nodiscard]] Inspection inspect_svg(std::string_view bytes);

// What a block of Exif says (CIPA DC-008, TIFF 6.0), without the six bytes "Exif\0\0" before it. What cannot be read is
// left as it is here.
struct ExifFacts {
  bool sideways = false; // shown turned by a quarter
  bool located = false;
};
[[nodiscard]] ExifFacts read_exif(std::string_view tiff);

[[nodiscard]] PictureFault broken(std::string words);
[[nodiscard]] PictureFault unsafe(std::string words);

} // namespace coeval
