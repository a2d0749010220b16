#include "shelf/splices.hpp"

#include <algorithm>
#include <tuple>

namespace coeval {
namespace {

std::string_view line_break_of(std::string_view text) {
  const std::size_t first = text.find('\n');
  return first != std::string_view::npos && first > 0 && text[first - 1] == '\r' ? "\r\n" : "\n";
}

} // namespace

void Splices::replace(std::uint32_t begin, std::uint32_t end, std::string by) {
  splices_.push_back({begin, end, false, std::move(by)});
}

void Splices::add_line(std::uint32_t at, std::string_view line) {
  const std::uint32_t end = at > 0 && text_[at - 1] == '\n' ? at : line_end(at);
  splices_.push_back({end, end, true, std::string{line}});
}

std::uint32_t Splices::line_begin(std::uint32_t byte) const {
  const std::size_t before = byte == 0 ? std::string_view::npos : text_.rfind('\n', byte - 1);
  return before == std::string_view::npos ? 0 : static_cast<std::uint32_t>(before + 1);
}

std::uint32_t Splices::line_end(std::uint32_t byte) const {
  const std::size_t at = text_.find('\n', byte);
  return static_cast<std::uint32_t>(at == std::string_view::npos ? text_.size() : at + 1);
}

std::string Splices::apply() const {
  std::vector<Splice> sorted = splices_;
  std::ranges::stable_sort(sorted, {}, [](const Splice& one) { return std::tuple{one.begin, one.is_line}; });
  const std::string_view line_break = line_break_of(text_);
  std::string text;
  std::size_t done = 0;
  for (const Splice& splice : sorted) {
    if (splice.begin > done) text += text_.substr(done, splice.begin - done);
    done = std::max<std::size_t>(done, splice.end);
    const bool last_is_open = splice.is_line && !text.empty() && text.back() != '\n';
    if (last_is_open) text += line_break;
    text += splice.by;
    if (splice.is_line) text += line_break;
  }
  return text + std::string{text_.substr(std::min(done, text_.size()))};
}

} // namespace coeval
