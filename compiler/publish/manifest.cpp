#include "publish/manifest.hpp"

#include <charconv>
#include <iterator>

#include <fmt/format.h>

#include "publish/path.hpp"

namespace coeval {
namespace {

constexpr std::string_view first_line = "coeval-manifest 1\n";

// Takes fields off the front of a line. Once one is not what it should be, `good` stays false.
class Fields {
public:
  explicit Fields(std::string_view line) : rest_(line) {}

  [[nodiscard]] std::string_view word() {
    const std::size_t space = rest_.find(' ');
    const std::string_view taken = rest_.substr(0, space);
    if (space == std::string_view::npos) good = false;
    rest_.remove_prefix(space == std::string_view::npos ? rest_.size() : space + 1);
    return taken;
  }
  template <class Number> [[nodiscard]] Number number() {
    const std::string_view digits = word();
    Number value{};
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc{} || end != digits.data() + digits.size()) good = false;
    return value;
  }
  [[nodiscard]] ContentHash hash_at_end() {
    const std::optional<ContentHash> hash = read_hash(rest());
    if (!hash) good = false;
    return hash.value_or(ContentHash{});
  }
  [[nodiscard]] ContentHash hash() {
    Fields field{word()};
    const ContentHash taken = field.hash_at_end();
    if (!field.good) good = false;
    return taken;
  }
  [[nodiscard]] std::string_view rest() const { return rest_; }

  bool good = true;

private:
  std::string_view rest_;
};

} // namespace

std::string manifest_text(const Manifest& manifest) {
  std::string text{first_line};
  auto end = std::back_inserter(text);
  std::size_t count = 0;
  for (const auto& [path, states] : manifest)
    for (const FileState& state : states) {
      fmt::format_to(end, "{:016x}{:016x} {} {} {}\n", state.hash.high, state.hash.low, state.size, state.modified,
                     path);
      ++count;
    }
  const ContentHash hash = hash_of(text);
  fmt::format_to(end, "end {} {:016x}{:016x}\n", count, hash.high, hash.low);
  return text;
}

std::optional<Manifest> read_manifest(std::string_view text) {
  if (!text.starts_with(first_line) || !text.ends_with('\n')) return {};
  const std::size_t last = text.rfind('\n', text.size() - 2) + 1; // where the last line starts
  Fields end{text.substr(last, text.size() - 1 - last)};
  if (end.word() != "end") return {};
  const auto count = end.number<std::size_t>();
  if (end.hash_at_end() != hash_of(text.substr(0, last)) || !end.good) return {};

  Manifest manifest;
  std::size_t seen = 0;
  for (std::size_t start = first_line.size(); start < last; ++seen) {
    const std::size_t line_end = text.find('\n', start);
    Fields line{text.substr(start, line_end - start)};
    start = line_end + 1;
    FileState state;
    state.hash = line.hash();
    state.size = line.number<std::uint64_t>();
    state.modified = line.number<std::int64_t>();
    if (!line.good || !is_output_path(line.rest())) return {};
    // Sorted, so every place is at the end.
    manifest.try_emplace(manifest.end(), std::string{line.rest()})->second.push_back(state);
  }
  if (seen != count) return {};
  return manifest;
}

} // namespace coeval
