#include "links/addresses.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"

namespace coeval {
namespace {

std::string kind_names(std::span<const Kind> kinds) {
  std::string text;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (i > 0) text += i + 1 == kinds.size() ? " or " : ", ";
    text += spec_of(kinds[i]).name;
  }
  return text;
}

} // namespace

void name_entries(LinkedKb& kb, Diagnostics& out) {
  kb.addresses.resize(kb.entries.entries.size());
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const Entry& entry = kb.entries.entries[i];
    if (entry.id.empty()) continue;
    const KindSpec& spec = spec_of(entry.kind);
    std::string address;
    if (entry.parent != no_entry) {
      if (kb.addresses[at(entry.parent)].empty()) continue; // the parent's id was refused
      address = kb.addresses[at(entry.parent)] + "/" + entry.id;
    } else {
      address = spec.address_prefix().empty() ? entry.id : std::string{spec.address_prefix()} + "/" + entry.id;
    }
    const auto [other, fresh] = kb.by_address.emplace(address, EntryIndex{static_cast<std::uint32_t>(i)});
    if (fresh) {
      kb.addresses[i] = std::move(address);
      continue;
    }
    const Entry& first = kb.entries[other->second];
    Diagnostic twice;
    twice.code = Code::duplicate_id;
    twice.place = entry.place;
    twice.message = first.kind == entry.kind ? fmt::format("there are two entries `{}`", address)
                                             : fmt::format("the {} `{}` has the address of {}", spec.name, address,
                                                           with_article(spec_of(first.kind).name));
    twice.help = "give one of them another id, or merge the two";
    twice.labels.push_back({first.place, "first used here"});
    out.report(std::move(twice));
  }
}

std::optional<EntryIndex> AddressReader::find(std::string_view address) {
  if (by_address_.empty()) by_address_.insert(kb_.by_address.begin(), kb_.by_address.end());
  const auto found = by_address_.find(address);
  if (found == by_address_.end()) return {};
  return found->second;
}

bool AddressReader::may_compare(std::size_t names) {
  constexpr std::size_t most = 5'000'000;
  compared_ += names;
  return compared_ <= most;
}

std::optional<EntryIndex> AddressReader::resolve(const Word& word, EntryIndex entry, std::span<const Kind> kinds,
                                                 std::string_view tail) {
  const auto wanted = [&](EntryIndex found) {
    return std::ranges::find(kinds, kb_.entries[found].kind) != kinds.end();
  };
  std::optional<EntryIndex> wrong;
  const auto look = [&](const std::string& address) -> std::optional<EntryIndex> {
    const auto found = find(address);
    if (!found || wanted(*found)) return found;
    if (!wrong) wrong = found;
    return {};
  };
  std::optional<EntryIndex> found;
  for (EntryIndex scope = kb_.entries[entry].parent; scope != no_entry && !found; scope = kb_.entries[scope].parent)
    if (!kb_.address(scope).empty()) found = look(kb_.address(scope) + "/" + word.text);
  if (!found) found = look(word.text);
  if (!found && kinds.size() == 1 && !spec_of(kinds.front()).address_prefix().empty())
    found = look(std::string{spec_of(kinds.front()).address_prefix()} + "/" + word.text);
  if (!found) {
    report_unknown(word, entry, kinds, tail, wrong);
    return {};
  }
  if (*found == entry) {
    Diagnostic itself;
    itself.code = Code::self_reference;
    itself.place = word.place;
    itself.message = fmt::format("`{}` refers to itself here", kb_.address(entry));
    itself.help = "name the other entry, or take the key out";
    out_.report(std::move(itself));
    return {};
  }
  return found;
}

void AddressReader::report_unknown(const Word& word, EntryIndex entry, std::span<const Kind> kinds,
                                   std::string_view tail, std::optional<EntryIndex> wrong) {
  if (!complete_ && !wrong) return; // it may stand in a file that could not be read
  Diagnostic unknown;
  unknown.place = word.place;
  if (wrong) {
    unknown.code = Code::wrong_kind;
    unknown.message =
        fmt::format("`{}` is {}, and this takes {}", word.text, with_article(spec_of(kb_.entries[*wrong].kind).name),
                    with_article(kind_names(kinds)));
    unknown.labels.push_back({kb_.entries[*wrong].place, "defined here"});
  } else {
    unknown.code = Code::unknown_address;
    unknown.message = fmt::format("there is no {} `{}`", kind_names(kinds), word.text);
  }
  // Every way in which an entry of the right kind could have been written here.
  std::vector<std::string> ways;
  const bool compare = may_compare(kb_.by_address.size());
  for (const auto& [address, other] : kb_.by_address) {
    if (!compare) break;
    if (std::ranges::find(kinds, kb_.entries[other].kind) == kinds.end() || other == entry) continue;
    const bool bare = kinds.size() == 1 && !spec_of(kinds.front()).address_prefix().empty();
    std::string way = bare ? kb_.entries[other].id : address;
    for (EntryIndex scope = kb_.entries[entry].parent; scope != no_entry; scope = kb_.entries[scope].parent) {
      const std::string prefix = kb_.address(scope) + "/";
      if (prefix.size() > 1 && address.starts_with(prefix)) {
        way = address.substr(prefix.size());
        break;
      }
    }
    ways.push_back(std::move(way));
  }
  const std::vector<std::string_view> views(ways.begin(), ways.end());
  std::vector<std::string_view> near = near_names(word.text, views);
  if (near.empty()) // perhaps only the last id was written, or the path before it is wrong
    for (const std::string_view way : views)
      if (near.size() < 3 &&
          way.substr(way.rfind('/') + 1) == std::string_view{word.text}.substr(word.text.rfind('/') + 1))
        near.push_back(way);
  std::vector<std::string> repairs;
  for (const std::string_view way : near) repairs.push_back(std::string{way} + std::string{tail});
  const std::vector<std::string_view> shown(repairs.begin(), repairs.end());
  unknown.help = shown.empty() ? "mend the address, or add the entry" : did_you_mean(shown);
  if (repairs.size() == 1) unknown.fix = Fix{word.place, "\"" + repairs.front() + "\"", false};
  out_.report(std::move(unknown));
}

} // namespace coeval
