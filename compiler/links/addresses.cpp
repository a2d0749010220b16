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
  kb.addresses = AddressTable{kb.entries.entries.size()};
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const Entry& entry = kb.entries.entries[i];
    if (entry.id.empty()) continue;
    const KindSpec& spec = spec_of(entry.kind);
    const bool child = entry.parent != no_entry;
    if (child && kb.address(entry.parent).empty()) continue; // the parent's id was refused
    const std::string_view family = child ? kb.address(entry.parent) : spec.address_prefix();
    const auto other = kb.addresses.give(EntryIndex{static_cast<std::uint32_t>(i)}, family, entry.id);
    if (!other) continue;
    const Entry& first = kb.entries[*other];
    const std::string_view address = kb.address(*other);
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

AddressReader::AddressReader(const LinkedKb& kb) : kb_(kb) {
  static_assert(kind_count <= 64);
  // Until nothing is added: a parent may stand in another one, in whatever order the schema has them.
  for (bool more = true; more;) {
    more = false;
    for (const KindSpec& spec : schema()) {
      std::uint64_t& families = families_of_[static_cast<std::size_t>(spec.kind)];
      const std::uint64_t before = families;
      for (const Kind parent : spec.parents)
        families |= families_of_[static_cast<std::size_t>(parent)] | std::uint64_t{1} << static_cast<unsigned>(parent);
      more = more || families != before;
    }
  }
}

bool AddressReader::may_hold(Kind family, std::span<const Kind> kinds) const {
  return std::ranges::any_of(kinds, [&](Kind kind) {
    return (families_of_[static_cast<std::size_t>(kind)] >> static_cast<unsigned>(family) & 1) != 0;
  });
}

std::optional<EntryIndex> AddressReader::find(std::string_view family, std::string_view id) {
  address_.assign(family).append(1, '/').append(id);
  return kb_.addresses.find(address_);
}

std::optional<EntryIndex> AddressReader::resolve(const WrittenAddress& written, std::span<const Kind> kinds,
                                                 LinkTroubles& troubles) {
  std::optional<EntryIndex> found;
  std::optional<EntryIndex> wrong;
  const auto take = [&](std::optional<EntryIndex> named) {
    if (!named) return false;
    if (std::ranges::find(kinds, kb_.entries[*named].kind) != kinds.end())
      found = named;
    else if (!wrong)
      wrong = named;
    return found.has_value();
  };
  const std::string_view prefix =
      kinds.size() == 1 ? spec_of(kinds.front()).address_prefix() : std::string_view{}; // of the bare id
  const auto look = [&](bool everywhere) {
    for (EntryIndex scope = kb_.entries[written.entry].parent; scope != no_entry; scope = kb_.entries[scope].parent)
      if ((everywhere || may_hold(kb_.entries[scope].kind, kinds)) && !kb_.address(scope).empty() &&
          take(find(kb_.address(scope), written.text)))
        return;
    const bool may_be_full = prefix.empty() || written.text.find('/') != std::string_view::npos;
    if ((everywhere || may_be_full) && take(kb_.addresses.find(written.text))) return;
    if (!prefix.empty()) take(find(prefix, written.text));
  };
  // First only where an entry of those kinds can be, which spares most references all look-ups but one; what is there
  // of other kinds matters only where that finds nothing.
  look(false);
  if (!found) {
    wrong.reset();
    look(true);
  }
  if (!found) {
    troubles.unresolved.push_back({written, {kinds.begin(), kinds.end()}, wrong});
    return {};
  }
  if (*found == written.entry) {
    Diagnostic itself;
    itself.code = Code::self_reference;
    itself.place = written.place;
    itself.message = fmt::format("`{}` refers to itself here", kb_.address(written.entry));
    itself.help = "name the other entry, or take the key out";
    troubles.out.report(std::move(itself));
    return {};
  }
  return found;
}

void TroubleReporter::report(LinkTroubles troubles) {
  for (const Unresolved& unresolved : troubles.unresolved) report_unresolved(unresolved);
  for (const Word* citation : troubles.unknown_sources) report_unknown_source(*citation);
  out_.merge(std::move(troubles.out));
}

bool TroubleReporter::may_compare(std::size_t names) {
  constexpr std::size_t most = 5'000'000;
  compared_ += names;
  return compared_ <= most;
}

std::vector<std::string> TroubleReporter::ways_of(const Unresolved& unresolved) {
  std::vector<std::string> ways;
  if (!may_compare(kb_.addresses.count())) return ways;
  if (in_order_.empty()) in_order_ = kb_.addresses.in_order();
  const std::vector<Kind>& kinds = unresolved.kinds;
  const bool bare = kinds.size() == 1 && !spec_of(kinds.front()).address_prefix().empty();
  for (const EntryIndex other : in_order_) {
    if (std::ranges::find(kinds, kb_.entries[other].kind) == kinds.end() || other == unresolved.address.entry) continue;
    const std::string_view address = kb_.address(other);
    std::string_view way = bare ? std::string_view{kb_.entries[other].id} : address;
    EntryIndex scope = kb_.entries[unresolved.address.entry].parent;
    for (; scope != no_entry; scope = kb_.entries[scope].parent) {
      const std::string_view family = kb_.address(scope);
      if (!family.empty() && address.size() > family.size() && address.starts_with(family) &&
          address[family.size()] == '/') {
        way = address.substr(family.size() + 1);
        break;
      }
    }
    ways.emplace_back(way);
  }
  return ways;
}

void TroubleReporter::report_unresolved(const Unresolved& unresolved) {
  const std::string_view text = unresolved.address.text;
  const Span place = unresolved.address.place;
  const std::vector<Kind>& kinds = unresolved.kinds;
  const std::optional<EntryIndex> wrong = unresolved.wrong;
  if (!complete_ && !wrong) return; // it may stand in a file that could not be read
  Diagnostic unknown;
  unknown.place = place;
  if (wrong) {
    unknown.code = Code::wrong_kind;
    unknown.message =
        fmt::format("`{}` is {}, and this takes {}", text, with_article(spec_of(kb_.entries[*wrong].kind).name),
                    with_article(kind_names(kinds)));
    unknown.labels.push_back({kb_.entries[*wrong].place, "defined here"});
  } else {
    unknown.code = Code::unknown_address;
    unknown.message = fmt::format("there is no {} `{}`", kind_names(kinds), text);
  }
  const std::vector<std::string> ways = ways_of(unresolved);
  const std::vector<std::string_view> views(ways.begin(), ways.end());
  std::vector<std::string_view> near = near_names(text, views);
  if (near.empty()) // perhaps only the last id was written, or the path before it is wrong
    for (const std::string_view way : views)
      if (near.size() < 3 && way.substr(way.rfind('/') + 1) == text.substr(text.rfind('/') + 1)) near.push_back(way);
  std::vector<std::string> repairs;
  for (const std::string_view way : near) repairs.push_back(fmt::format("{}{}", way, unresolved.address.tail));
  const std::vector<std::string_view> shown(repairs.begin(), repairs.end());
  unknown.help = shown.empty() ? "mend the address, or add the entry" : did_you_mean(shown);
  if (repairs.size() == 1) unknown.fix = Fix{place, "\"" + repairs.front() + "\"", false};
  out_.report(std::move(unknown));
}

void TroubleReporter::report_unknown_source(const Word& citation) {
  if (!complete_) return;
  const std::string_view written = citation.text;
  const std::string_view id = written.substr(0, written.find(' '));
  std::vector<std::string_view> ids;
  if (may_compare(kb_.sources.size()))
    for (const Source& source : kb_.sources) ids.push_back(source.id);
  const auto near = near_names(id, ids);
  Diagnostic unknown;
  unknown.code = Code::unknown_source;
  unknown.place = citation.place;
  unknown.message = fmt::format("there is no source `{}`", id);
  unknown.help = near.empty() ? fmt::format("add a [[source]] with id = \"{}\"", id) : did_you_mean(near);
  if (near.size() == 1)
    unknown.fix = Fix{citation.place, fmt::format("\"{}{}\"", near.front(), written.substr(id.size())), false};
  out_.report(std::move(unknown));
}

} // namespace coeval
