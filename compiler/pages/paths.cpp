#include "pages/paths.hpp"

#include <algorithm>

namespace coeval {
namespace {

// The folder of a kind's pages; its list is the folder's name with .html.
std::string_view folder_of(Kind kind) {
  switch (kind) {
  case Kind::line:
    return "lines";
  case Kind::figure:
  case Kind::issue:
    return "figures";
  case Kind::accessory:
  case Kind::mould:
  case Kind::run:
    return "accessories";
  case Kind::repro:
    return "reproductions";
  case Kind::period:
    return "periods";
  case Kind::card:
    return "cards";
  case Kind::plant:
    return "plants";
  case Kind::route:
    return "routes";
  case Kind::mark:
    return "marks";
  case Kind::feature:
    return "features";
  case Kind::source:
    return "sources";
  case Kind::claim:
    return "claims";
  default:
    return {};
  }
}

std::string page(std::string_view folder, std::string_view name) {
  return std::string{folder} + "/" + std::string{name} + ".html";
}

// Longer parts keep this much, and the rest is told by a hash, so that no file system refuses them.
constexpr std::size_t longest_part = 160;

// FNV-1a, 64 bits.
std::uint64_t hash_of(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return hash;
}

std::string safe_part(std::string_view part) {
  static constexpr std::string_view digits = "0123456789abcdef";
  std::string safe;
  for (const char c : part) {
    const bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || (c == '.' && !safe.empty());
    if (kept) {
      safe += c;
    } else {
      const auto byte = static_cast<unsigned char>(c);
      safe += {'_', digits[byte / 16], digits[byte % 16]};
    }
  }
  if (safe.size() <= longest_part) return safe;
  std::string hash;
  for (std::uint64_t rest = hash_of(part); hash.size() < 16; rest /= 16) hash += digits[rest % 16];
  const std::size_t dot = part.rfind('.');
  const bool short_ending = dot != std::string_view::npos && part.size() - dot <= 8;
  return safe.substr(0, longest_part) + "_" + hash +
         (short_ending ? safe_part("x" + std::string{part.substr(dot)}).substr(1) : "");
}

} // namespace

std::string path_of(const LinkedKb& kb, EntryIndex index) {
  const Entry& entry = kb.entries[index];
  const std::string_view address = kb.address(index);
  if (address.empty()) return {};
  const std::string_view folder = folder_of(entry.kind);
  switch (entry.kind) {
  case Kind::figure:
  case Kind::issue:
  case Kind::accessory:
  case Kind::run:
  case Kind::repro:
    return page(folder, address);
  case Kind::mould:
    return page(folder, kb.address(entry.parent)) + "#" + entry.id;
  default:
    return folder.empty() ? std::string{} : page(folder, entry.id);
  }
}

std::string path_of_market(std::string_view country) { return page("markets", country); }

std::string path_of_matrix(const LinkedKb& kb, AccessoryIndex accessory) {
  return page("matrices", kb.accessories[at(accessory)].id);
}

std::string path_of_key(const LinkedKb& kb, AccessoryIndex accessory) {
  return page("keys", kb.accessories[at(accessory)].id);
}

std::string path_of_slot_key(std::string_view slot) { return page("keys/slots", safe_part(slot)); }

std::string path_of_checklist(const LinkedKb& kb, EntryIndex line_or_figure) {
  const Entry& entry = kb.entries[line_or_figure];
  return page(entry.kind == Kind::line ? "checklists/lines" : "checklists/figures", entry.id);
}

std::string path_of_index(Kind kind) {
  const bool listed = kind != Kind::issue && kind != Kind::mould && kind != Kind::run && kind != Kind::line;
  const std::string_view folder = folder_of(kind);
  return folder.empty() || !listed ? std::string{} : std::string{folder} + ".html";
}

std::string verdict_anchor(const LinkedKb& kb, RunIndex run) {
  std::string anchor{kb.runs[at(run)].address};
  std::replace(anchor.begin(), anchor.end(), '/', '.');
  return anchor;
}

std::string path_of_file(std::string_view path) {
  std::string safe = "data/kb";
  for (std::size_t begin = 0; begin <= path.size();) {
    const std::size_t slash = std::min(path.find('/', begin), path.size());
    safe += "/" + safe_part(path.substr(begin, slash - begin));
    begin = slash + 1;
  }
  return safe;
}

} // namespace coeval
