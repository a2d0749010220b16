// Can any bytes make the inspection of pictures crash, read past their end, or say something that cannot be?
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "pictures/inspect.hpp"
#include "source/text.hpp"

using namespace coeval;

namespace {

void must(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  int accepted = 0;
  for (const char* name : std::array{"a.svg", "a.png", "a.jpg", "a.webp"}) {
    const auto result = inspect_picture(bytes, name);
    if (const auto* facts = std::get_if<PictureFacts>(&result)) {
      ++accepted;
      must(facts->width > 0 && facts->height > 0, "a picture has a size");
      must(facts->width <= 20'000 && facts->height <= 20'000, "a picture goes on a page");
    } else {
      const std::string& words = std::get<PictureFault>(result).words;
      must(!words.empty(), "a fault is told");
      must(!first_bad_byte(words).has_value(), "what is told is text");
    }
  }
  must(accepted <= 1, "a picture is of one format");
  return 0;
}
