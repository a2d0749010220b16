// pictures/bytes.hpp: which number stands at a place of a file?
//
// Private to this room. Whoever asks past the end gets nothing: no reader can forget to check.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string_view>

namespace coeval {

class Bytes {
public:
  explicit Bytes(std::string_view bytes) : bytes_(bytes) {}

  [[nodiscard]] std::size_t size() const { return bytes_.size(); }
  // Both are empty or cut short where they reach past the end.
  [[nodiscard]] std::string_view from(std::size_t at) const { return bytes_.substr(std::min(at, bytes_.size())); }
  [[nodiscard]] std::string_view part(std::size_t at, std::size_t size) const { return from(at).substr(0, size); }

  // `size` bytes as a number, the most significant first, or last.
  [[nodiscard]] std::optional<std::uint32_t> big(std::size_t at, std::size_t size) const {
    const std::string_view here = part(at, size);
    if (here.size() < size) return {};
    std::uint32_t number = 0;
    for (const char byte : here) number = number << 8 | static_cast<unsigned char>(byte);
    return number;
  }
  [[nodiscard]] std::optional<std::uint32_t> little(std::size_t at, std::size_t size) const {
    const std::string_view here = part(at, size);
    if (here.size() < size) return {};
    std::uint32_t number = 0;
    for (std::size_t i = size; i > 0; --i) number = number << 8 | static_cast<unsigned char>(here[i - 1]);
    return number;
  }
  [[nodiscard]] std::optional<std::uint32_t> byte(std::size_t at) const { return big(at, 1); }

private:
  std::string_view bytes_;
};

} // namespace coeval
