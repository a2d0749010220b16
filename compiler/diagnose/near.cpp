#include "diagnose/near.hpp"

#include <algorithm>
#include <utility>

namespace coeval {

std::size_t edit_distance(std::string_view one, std::string_view other) {
  // Three rows of the usual table suffice; hostile input is kept cheap by comparing only the first 200 bytes.
  constexpr std::size_t longest = 200;
  one = one.substr(0, longest);
  other = other.substr(0, longest);
  std::vector<std::size_t> before(other.size() + 1), last(other.size() + 1), row(other.size() + 1);
  for (std::size_t j = 0; j <= other.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= one.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= other.size(); ++j) {
      const std::size_t replace = last[j - 1] + (one[i - 1] == other[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replace});
      if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[other.size()];
}

std::vector<std::string_view> near_names(std::string_view written, std::span<const std::string_view> known,
                                         std::size_t most) {
  const std::size_t allowed = std::max<std::size_t>(1, written.size() / 3);
  std::vector<std::pair<std::size_t, std::string_view>> close;
  for (const std::string_view name : known) {
    const std::size_t gap = name.size() > written.size() ? name.size() - written.size() : written.size() - name.size();
    if (gap > allowed) continue;
    const std::size_t distance = edit_distance(written, name);
    if (distance <= allowed && distance < name.size()) close.emplace_back(distance, name);
  }
  std::ranges::sort(close);
  close.erase(std::unique(close.begin(), close.end()), close.end());
  std::vector<std::string_view> names;
  for (const auto& [distance, name] : close)
    if (names.size() < most) names.push_back(name);
  return names;
}

std::string counted(std::size_t count, std::string_view noun) {
  return std::to_string(count) + " " + std::string{noun} + (count == 1 ? "" : "s");
}

std::string list_names(std::span<const std::string_view> names, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " " + std::string{last} + " " : ", ";
    text += "`" + std::string{names[i]} + "`";
  }
  return text;
}

std::string with_article(std::string_view noun) {
  const bool vowel = !noun.empty() && std::string_view{"aeiou"}.find(noun.front()) != std::string_view::npos;
  return (vowel ? "an " : "a ") + std::string{noun};
}

std::string did_you_mean(std::span<const std::string_view> names) {
  return names.empty() ? std::string{} : "did you mean " + list_names(names) + "?";
}

} // namespace coeval
