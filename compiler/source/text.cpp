#include "source/text.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

#include <utf8proc.h>

namespace coeval {
namespace {

constexpr std::uint32_t milestone_gap = 512;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// How many bytes of ASCII `text` starts with.
std::size_t ascii_prefix(std::string_view text) {
  constexpr std::uint64_t high_bits = 0x8080808080808080U;
  std::size_t byte = 0;
  std::uint64_t eight = 0;
  for (; byte + sizeof eight <= text.size(); byte += sizeof eight) {
    std::memcpy(&eight, text.data() + byte, sizeof eight);
    if ((eight & high_bits) != 0) break;
  }
  while (byte < text.size() && static_cast<unsigned char>(text[byte]) < 0x80) ++byte;
  return byte;
}

} // namespace

std::size_t code_point_size(std::string_view text) {
  if (text.empty()) return 0;
  if (static_cast<unsigned char>(text.front()) < 0x80) return 1;
  utf8proc_int32_t point = 0;
  const auto length = static_cast<utf8proc_ssize_t>(std::min<std::size_t>(text.size(), 4));
  const utf8proc_ssize_t size =
      utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()), length, &point);
  return size > 0 ? static_cast<std::size_t>(size) : 1;
}

std::optional<std::size_t> first_bad_byte(std::string_view text) {
  for (std::size_t byte = ascii_prefix(text); byte < text.size(); byte += ascii_prefix(text.substr(byte))) {
    const std::size_t size = code_point_size(text.substr(byte, 4));
    if (size == 1) return byte; // whatever lies outside ASCII takes two bytes or more
    byte += size;
  }
  return {};
}

SourceFile::SourceFile(std::string path, std::string text) : path_(std::move(path)) {
  const auto content = std::make_shared<Content>();
  content->text = std::move(text);
  content_ = content;
}

SourceFile::Lines SourceFile::lines_of(std::string_view text) {
  Lines lines;
  lines.ascii = ascii_prefix(text) == text.size();
  Milestone here;
  if (text.starts_with(byte_order_mark)) here.byte = static_cast<std::uint32_t>(byte_order_mark.size());
  lines.starts.reserve(static_cast<std::size_t>(std::ranges::count(text, '\n')) + 1);
  lines.starts.push_back(here.byte);
  for (std::size_t end = text.find('\n', here.byte); end != std::string_view::npos; end = text.find('\n', end + 1))
    lines.starts.push_back(static_cast<std::uint32_t>(end) + 1);
  if (lines.ascii) return lines;
  lines.milestones.push_back(here);
  while (here.byte < text.size()) {
    if (here.byte - lines.milestones.back().byte >= milestone_gap) lines.milestones.push_back(here);
    here.byte += static_cast<std::uint32_t>(code_point_size(text.substr(here.byte, 4)));
    ++here.points;
  }
  return lines;
}

const SourceFile::Lines& SourceFile::lines() const {
  std::call_once(content_->counted, [this] { content_->lines = lines_of(content_->text); });
  return content_->lines;
}

std::uint32_t SourceFile::line_end(std::uint32_t number) const {
  const std::vector<std::uint32_t>& starts = lines().starts;
  if (number >= starts.size()) return size();
  const std::uint32_t start = starts[number - 1];
  std::uint32_t end = starts[number] - 1;
  if (end > start && text()[end - 1] == '\r') --end;
  return end;
}

SourceFile::Milestone SourceFile::boundary(std::uint32_t byte) const {
  if (lines().ascii) return {byte, byte};
  const std::vector<Milestone>& milestones = lines().milestones;
  const auto after = std::ranges::upper_bound(milestones, byte, {}, &Milestone::byte);
  if (after == milestones.begin()) return milestones.front(); // inside the byte order mark
  Milestone here = *std::prev(after);
  while (here.byte < byte) {
    const auto next = here.byte + static_cast<std::uint32_t>(code_point_size(text().substr(here.byte, 4)));
    if (next > byte) break;
    here.byte = next;
    ++here.points;
  }
  return here;
}

LineColumn SourceFile::position(std::uint32_t byte) const {
  byte = std::min(byte, size());
  const std::vector<std::uint32_t>& starts = lines().starts;
  const auto after = std::ranges::upper_bound(starts, byte);
  if (after == starts.begin()) return {}; // inside the byte order mark
  const std::uint32_t start = *std::prev(after);
  return {static_cast<std::uint32_t>(after - starts.begin()), boundary(byte).points - boundary(start).points + 1};
}

std::uint32_t SourceFile::byte(LineColumn place) const {
  const auto& [ascii, starts, milestones] = lines();
  if (place.line == 0) return starts.front();
  if (place.line > starts.size()) return size();
  const std::uint32_t start = starts[place.line - 1];
  const std::uint32_t end = line_end(place.line);
  if (place.column <= 1) return start;
  if (ascii) return place.column - 1 < end - start ? start + place.column - 1 : end;
  if (end - start <= milestone_gap) { // most lines: shorter to walk than to look up
    std::uint32_t byte = start;
    for (std::uint32_t column = 1; column < place.column && byte < end; ++column)
      byte += static_cast<unsigned char>(text()[byte]) < 0x80
                  ? 1
                  : static_cast<std::uint32_t>(code_point_size(text().substr(byte, 4)));
    return std::min(byte, end);
  }
  // 64 bits: a column may be any number.
  const std::uint64_t wanted = std::uint64_t{boundary(start).points} + place.column - 1;
  const auto after = std::ranges::upper_bound(milestones, wanted, {}, &Milestone::points);
  Milestone here = *std::prev(after);
  while (here.points < wanted && here.byte < end) {
    here.byte += static_cast<std::uint32_t>(code_point_size(text().substr(here.byte, 4)));
    ++here.points;
  }
  return std::min(here.byte, end);
}

std::string_view SourceFile::line(std::uint32_t number) const {
  if (number == 0 || number > line_count()) return {};
  const std::uint32_t start = lines().starts[number - 1];
  return text().substr(start, line_end(number) - start);
}

std::string_view SourceSet::text(Span span) const {
  if (static_cast<std::size_t>(span.file) >= files.size() || span.begin > span.end) return {};
  const std::string_view all = (*this)[span.file].text();
  if (span.begin >= all.size()) return {};
  return all.substr(span.begin, span.end - span.begin);
}

} // namespace coeval
