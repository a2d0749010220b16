// pictures/inspect.hpp: is this a picture that browsers show, how large is it, and is it harmless?
//
// Pictures come from other people and are put on a page as they are. Headers of PNG, JPEG and WebP are read far enough
// to know the size and that the file is whole; what is compressed inside is left to the browser. SVG is text that a
// browser can run, load things from and be kept busy by: it is read as a whole, and only what draws is let through.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

namespace coeval {

struct PictureFacts {
  enum class Format : std::uint8_t { svg, png, jpeg, webp };
  Format format{};
  unsigned width = 0; // CSS pixels, as a browser shows it: a JPEG that is stored turned is told upright; never 0
  unsigned height = 0;
  bool located = false; // holds where on earth it was taken: a photographer's home, perhaps
};

struct PictureFault {
  enum class Kind : std::uint8_t {
    broken, // not shown, or not as a whole
    unsafe  // could do more than be looked at
  };
  Kind kind{};
  std::string words; // what is wrong and where: "line 3: `script` runs in the reader's browser"
};

// `name`: of its file, whose ending must be that of its format. Never reads outside `bytes`, whatever they are.
[[nodiscard]] std::variant<PictureFacts, PictureFault> inspect_picture(std::string_view bytes, std::string_view name);

} // namespace coeval
