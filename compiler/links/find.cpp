#include "links/find.hpp"

#include <algorithm>
#include <optional>

#include "diagnose/near.hpp"

namespace coeval {
namespace {

bool ends_in(std::string_view address, std::string_view tail) {
  return address.ends_with(tail) && (address.size() == tail.size() || address[address.size() - tail.size() - 1] == '/');
}

std::string_view last_ids(std::string_view address, std::size_t count) {
  std::size_t begin = address.size();
  while (count-- > 0 && begin != std::string_view::npos && begin > 0) {
    const std::size_t slash = address.rfind('/', begin - 1);
    if (slash == std::string_view::npos) return address;
    begin = slash;
  }
  return address.substr(begin + 1);
}

// Nothing where the two are too far apart to be a slip. Names of very different length are, however they are spelt.
std::optional<std::size_t> slips(std::string_view text, std::string_view name) {
  const std::size_t most = std::max<std::size_t>(1, text.size() / 3);
  const std::size_t gap = name.size() > text.size() ? name.size() - text.size() : text.size() - name.size();
  if (gap > most) return {};
  const std::size_t distance = edit_distance(text, name);
  if (distance > most) return {};
  return distance;
}

} // namespace

Found find_entry(const LinkedKb& kb, std::string_view text, std::span<const Kind> kinds) {
  Found found;
  if (text.empty()) return found;
  const auto wanted = [&](EntryIndex entry) { return std::ranges::find(kinds, kb.entries[entry].kind) != kinds.end(); };
  const auto exact = kb.addresses.find(text);
  if (exact && wanted(*exact)) {
    found.matches.push_back(*exact);
    return found;
  }
  const auto each = [&](const auto& visit) {
    for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
      const EntryIndex entry{static_cast<std::uint32_t>(i)};
      if (const std::string_view address = kb.address(entry); !address.empty()) visit(entry, address);
    }
  };
  each([&](EntryIndex entry, std::string_view address) {
    if (ends_in(address, text)) (wanted(entry) ? found.matches : found.other).push_back(entry);
  });
  const auto address_of = [&](EntryIndex entry) { return kb.address(entry); };
  std::ranges::sort(found.matches, {}, address_of);
  std::ranges::sort(found.other, {}, address_of);
  if (!found.matches.empty()) return found;

  // Compare with the same number of ids from the end of every address, so that a slip in a short tail is recognised
  // too.
  const auto ids = static_cast<std::size_t>(std::ranges::count(text, '/')) + 1;
  std::vector<std::pair<std::size_t, std::string_view>> close;
  each([&](EntryIndex entry, std::string_view address) {
    if (!wanted(entry)) return;
    const auto whole = slips(text, address);
    const auto tail = slips(text, last_ids(address, ids));
    if (whole && (!tail || *whole <= *tail))
      close.emplace_back(*whole, address);
    else if (tail)
      close.emplace_back(*tail, address);
  });
  std::ranges::sort(close);
  for (const auto& [distance, address] : close)
    if (found.near.size() < 5) found.near.emplace_back(address);
  return found;
}

} // namespace coeval
