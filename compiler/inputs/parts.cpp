#include "inputs/parts.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>

namespace coeval {
namespace {

constexpr std::string_view parts_head = "coeval-parts 1\n";
constexpr std::uint32_t order_of_bytes = 0x01020304U;

template <class Number> void append_number(std::string& bytes, const Number& number) {
  bytes.append(reinterpret_cast<const char*>(&number), sizeof number);
}

// Takes numbers and stretches from the front for as long as there are any.
class BytesReader {
public:
  explicit BytesReader(std::string_view bytes) : rest_(bytes) {}
  [[nodiscard]] bool done() const { return rest_.empty(); }
  [[nodiscard]] std::optional<std::string_view> bytes(std::uint64_t count) {
    if (count > rest_.size()) return {};
    const std::string_view taken = rest_.substr(0, count);
    rest_.remove_prefix(count);
    return taken;
  }
  template <class Number> [[nodiscard]] std::optional<Number> number() {
    const auto taken = bytes(sizeof(Number));
    if (!taken) return {};
    Number value{};
    std::memcpy(&value, taken->data(), sizeof value);
    return value;
  }
  [[nodiscard]] std::optional<ContentHash> hash() {
    const auto high = number<std::uint64_t>();
    const auto low = number<std::uint64_t>();
    if (!high || !low) return {};
    return ContentHash{*high, *low};
  }

private:
  std::string_view rest_;
};

} // namespace

PartsBefore::PartsBefore(std::string_view bytes) {
  if (bytes.size() < sizeof(ContentHash)) return;
  const std::string_view parts = bytes.substr(0, bytes.size() - sizeof(ContentHash));
  if (BytesReader{bytes.substr(parts.size())}.hash() != hash_of(parts)) return;
  BytesReader reader{parts};
  if (reader.bytes(parts_head.size()) != parts_head || reader.number<std::uint32_t>() != order_of_bytes) return;
  while (!reader.done()) {
    const auto key = reader.hash();
    const auto size = reader.number<std::uint64_t>();
    const auto part = size ? reader.bytes(*size) : std::nullopt;
    if (!key || !part) break;
    parts_.emplace_back(*key, *part);
  }
  std::ranges::sort(parts_, {}, [](const auto& part) { return part.first; });
}

std::optional<std::string_view> PartsBefore::find(const ContentHash& key) const {
  const auto found = std::ranges::lower_bound(parts_, key, {}, [](const auto& part) { return part.first; });
  if (found == parts_.end() || found->first != key) return {};
  return found->second;
}

PartsAfter::PartsAfter(std::size_t expected) : bytes_(parts_head) {
  bytes_.reserve(expected + expected / 16);
  append_number(bytes_, order_of_bytes);
}

void PartsAfter::add(const ContentHash& key, std::string_view part) {
  append_number(bytes_, key.high);
  append_number(bytes_, key.low);
  append_number(bytes_, static_cast<std::uint64_t>(part.size()));
  bytes_ += part;
}

std::string PartsAfter::finished() && {
  const ContentHash hash = hash_of(bytes_);
  append_number(bytes_, hash.high);
  append_number(bytes_, hash.low);
  return std::move(bytes_);
}

} // namespace coeval
