#include "pictures/inspect.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "pictures/formats.hpp"

namespace coeval {
namespace {

// A picture larger than this takes more memory than a phone has for a page.
constexpr unsigned longest_side = 20'000;
constexpr std::uint64_t most_pixels = 100'000'000;

using Format = PictureFacts::Format;

struct FormatSpec {
  Format format{};
  std::string_view name;
  std::vector<std::string_view> endings;
  Inspection (*inspect)(std::string_view);
};

const std::array<FormatSpec, 4>& formats() {
  static const std::array<FormatSpec, 4> specs{FormatSpec{Format::svg, "SVG", {".svg"}, inspect_svg},
                                               FormatSpec{Format::png, "PNG", {".png"}, inspect_png},
                                               FormatSpec{Format::jpeg, "JPEG", {".jpg", ".jpeg"}, inspect_jpeg},
                                               FormatSpec{Format::webp, "WebP", {".webp"}, inspect_webp}};
  return specs;
}

const FormatSpec* format_of(std::string_view bytes) {
  using namespace std::string_view_literals;
  const auto& [svg, png, jpeg, webp] = formats();
  if (bytes.starts_with("\x89PNG\r\n\x1A\n"sv)) return &png;
  if (bytes.starts_with("\xFF\xD8\xFF"sv)) return &jpeg;
  if (bytes.starts_with("RIFF"sv) && bytes.size() >= 12 && bytes.substr(8, 4) == "WEBP"sv) return &webp;
  std::string_view text = bytes;
  if (text.starts_with("\xEF\xBB\xBF"sv)) text.remove_prefix(3);
  const std::size_t begin = text.find_first_not_of(" \t\r\n");
  return begin != std::string_view::npos && text[begin] == '<' ? &svg : nullptr;
}

bool has_ending(std::string_view name, const FormatSpec& format) {
  return std::ranges::any_of(format.endings, [&](std::string_view ending) { return name.ends_with(ending); });
}

} // namespace

PictureFault broken(std::string words) { return {PictureFault::Kind::broken, std::move(words)}; }
PictureFault unsafe(std::string words) { return {PictureFault::Kind::unsafe, std::move(words)}; }

std::variant<PictureFacts, PictureFault> inspect_picture(std::string_view bytes, std::string_view name) {
  if (bytes.empty()) return broken("the file is empty");
  const FormatSpec* format = format_of(bytes);
  if (format == nullptr) return broken("this is no SVG, PNG, JPEG or WebP picture");
  // A server tells browsers the format by the ending.
  if (!has_ending(name, *format))
    return broken(fmt::format("this is {} {} picture, so its name must end in {}",
                              format->format == Format::svg ? "an" : "a", format->name, format->endings.front()));
  Inspection result = format->inspect(bytes);
  const auto* facts = std::get_if<PictureFacts>(&result);
  if (facts == nullptr) return result;
  if (facts->width == 0 || facts->height == 0) return broken("its width or height is 0");
  if (facts->width > longest_side || facts->height > longest_side ||
      std::uint64_t{facts->width} * facts->height > most_pixels)
    return unsafe(fmt::format("it is {} by {} pixels, more than a phone can hold; a side of 2000 is plenty",
                              facts->width, facts->height));
  return result;
}

} // namespace coeval
