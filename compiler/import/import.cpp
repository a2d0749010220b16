#include "import/import.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "entries/schema.hpp"
#include "export/kb_json.hpp"
#include "export/table_names.hpp"
#include "import/json_document.hpp"
#include "import/toml_files.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

Diagnostic about_json(const Imported& imported, const std::string& pointer, Code code, std::string message,
                      std::string help) {
  Diagnostic diagnostic;
  diagnostic.code = code;
  diagnostic.path = pointer.empty() ? imported.name : imported.name + "#" + pointer;
  diagnostic.message = std::move(message);
  diagnostic.help = std::move(help);
  return diagnostic;
}

std::string kind_of_json(const Json& value) {
  if (value.is_null()) return "null";
  if (value.is_object()) return "an object";
  if (value.is_array()) return "an array";
  if (value.is_string()) return "a string";
  return value.is_boolean() ? "true or false" : "a number";
}

// Reads the list of entries, and lays them out as trees of parents and children.
class EntryLayout {
public:
  EntryLayout(Imported& imported, Diagnostics& out) : imported_(imported), out_(out) {}

  std::vector<JsonEntry> read(const Json& entries) {
    for (std::size_t i = 0; i < entries.size(); ++i) read_entry(entries[i], fmt::format("/entries/{}", i));
    for (std::size_t i = 0; i < list_.size(); ++i)
      if (link(i)) list_[i].linked = true;
    return std::move(list_);
  }

private:
  void refuse(const std::string& pointer, Code code, std::string message, std::string help) {
    out_.report(about_json(imported_, pointer, code, std::move(message), std::move(help)));
  }

  // A member that is text or null; empty where it is null, not there or refused.
  std::string address_member(const Json& json, const char* name, const std::string& pointer) {
    const auto found = json.find(name);
    if (found == json.end() || found->is_null()) return {};
    if (found->is_string()) return found->get<std::string>();
    refuse(pointer + pointer_part(name), Code::wrong_type,
           fmt::format("`{}` takes an address or null, not {}", name, kind_of_json(*found)), "write it as a string");
    return {};
  }

  void read_entry(const Json& json, const std::string& pointer) {
    if (!json.is_object()) {
      refuse(pointer, Code::wrong_type, "an entry is an object, not " + kind_of_json(json), "");
      return;
    }
    const std::vector<std::string_view> members{"kind", "address", "parent",   "file",
                                                "line", "fields",  "evidence", "span"};
    for (const auto& [name, value] : json.items())
      if (std::ranges::find(members, name) == members.end()) {
        const auto near = near_names(name, members);
        refuse(pointer + pointer_part(name), Code::unknown_key, fmt::format("an entry has no member `{}`", name),
               near.empty() ? "its members are " + list_names(members, "and") : did_you_mean(near));
      }
    const auto kind = json.find("kind");
    const KindSpec* spec = kind != json.end() && kind->is_string() ? find_kind_word(kind->get<std::string>()) : nullptr;
    if (spec == nullptr) {
      std::vector<std::string_view> known;
      for (const KindSpec& other : schema()) known.push_back(kind_word(other.kind));
      const bool given = kind != json.end() && kind->is_string();
      const auto near = given ? near_names(kind->get<std::string>(), known) : std::vector<std::string_view>{};
      refuse(pointer + "/kind", Code::wrong_value,
             given ? fmt::format("there is no kind `{}`", kind->get<std::string>())
                   : "an entry needs its kind, as a string",
             near.empty() ? "the kinds are " + list_names(known, "and") : did_you_mean(near));
      return;
    }
    const auto fields = json.find("fields");
    if (fields == json.end() || !fields->is_object()) {
      refuse(pointer + "/fields", Code::wrong_type, "an entry needs its fields, as an object", "");
      return;
    }
    JsonEntry entry{.spec = spec, .fields = &*fields, .pointer = pointer};
    entry.address = address_member(json, "address", pointer);
    entry.parent_address = address_member(json, "parent", pointer);
    if (const auto id = fields->find("id"); id != fields->end() && id->is_string()) entry.id = id->get<std::string>();
    if (!entry.address.empty()) {
      const auto [first, fresh] = by_address_.emplace(entry.address, list_.size());
      if (!fresh) {
        refuse(pointer + "/address", Code::duplicate_id, fmt::format("there are two entries `{}`", entry.address),
               fmt::format("give one of them another id; the first is {}", list_[first->second].pointer));
        return;
      }
    }
    list_.push_back(std::move(entry));
  }

  // Puts an entry below its parent. False where it cannot stand where it says.
  bool link(std::size_t index) {
    JsonEntry& entry = list_[index];
    const std::vector<Kind>& parents = entry.spec->parents;
    const std::string at_parent = entry.pointer + "/parent";
    const std::string_view word = kind_word(entry.spec->kind);
    if (parents.empty()) {
      if (entry.parent_address.empty()) return is_at_its_address(entry);
      refuse(at_parent, Code::wrong_kind, fmt::format("{} belongs to no other entry", with_article(word)),
             "let it be null");
      return false;
    }
    const auto found = by_address_.find(entry.parent_address);
    if (found == by_address_.end()) {
      refuse(at_parent, Code::unknown_address,
             entry.parent_address.empty()
                 ? fmt::format("{} belongs to another entry, and this names none", with_article(word))
                 : fmt::format("there is no entry `{}`", entry.parent_address),
             "name the address of the entry that it belongs to");
      return false;
    }
    JsonEntry& parent = list_[found->second];
    if (std::ranges::find(parents, parent.spec->kind) == parents.end()) {
      refuse(at_parent, Code::wrong_kind,
             fmt::format("`{}` is a {}, and no {} can belong to that", entry.parent_address,
                         kind_word(parent.spec->kind), word),
             "");
      return false;
    }
    if (!entry.spec->repeated && !single_.emplace(found->second, entry.spec).second) {
      refuse(entry.pointer, Code::duplicate_id, fmt::format("`{}` has two of kind {}", entry.parent_address, word),
             "keep one of them");
      return false;
    }
    if (!is_at_its_address(entry)) return false;
    parent.children.push_back(index);
    return true;
  }

  bool is_at_its_address(const JsonEntry& entry) {
    std::string address;
    if (entry.spec->has_id()) {
      const std::string_view prefix = entry.spec->address_prefix();
      if (!entry.parent_address.empty())
        address = entry.parent_address + "/" + entry.id;
      else
        address = prefix.empty() ? entry.id : fmt::format("{}/{}", prefix, entry.id);
    }
    const bool told = entry.address.empty() && !address.empty(); // it is null or was refused; a missing one is no harm
    if (told || entry.address == address || entry.id.empty() != address.empty())
      return true; // a missing id is told later
    refuse(entry.pointer + "/address", Code::broken_address,
           fmt::format("`{}` is not its address: that is {}", entry.address,
                       address.empty() ? std::string{"null"} : fmt::format("`{}`", address)),
           "an address is the parent's, a slash and the id");
    return false;
  }

  Imported& imported_;
  Diagnostics& out_;
  std::vector<JsonEntry> list_;
  std::map<std::string, std::size_t, std::less<>> by_address_;
  std::set<std::pair<std::size_t, const KindSpec*>> single_; // of which parent there is one of which kind already
};

} // namespace

Imported import_json(std::string_view json, std::string name, Diagnostics& out) {
  Imported imported;
  imported.name = std::move(name);
  const auto refuse = [&](const std::string& pointer, std::string message, std::string help) {
    out.report(about_json(imported, pointer, Code::broken_json, std::move(message), std::move(help)));
    return std::move(imported);
  };
  constexpr std::string_view from_export = "`coeval export --to kb.json` writes such a file";
  const JsonResult read = read_json(json, {"evidence", "span", "file", "line"});
  if (read.fault) return refuse(read.fault->pointer, read.fault->message, std::string{from_export});
  const Json& document = read.value;
  if (!document.is_object() || document.value("format", Json()) != kb_json_format)
    return refuse("/format", fmt::format("this is no export: its format is not \"{}\"", kb_json_format),
                  std::string{from_export});
  if (const Json version = document.value("version", Json()); version != kb_json_version)
    return refuse("/version",
                  fmt::format("only version {} can be read, and this is {}", kb_json_version, version.dump()),
                  "export it again with this program");
  const auto entries = document.find("entries");
  if (entries == document.end() || !entries->is_array())
    return refuse("/entries", "an export has its entries in an array", std::string{from_export});
  for (const auto& [member, value] : document.items())
    if (member != "format" && member != "version" && member != "entries")
      out.report(about_json(imported, pointer_part(member), Code::unknown_key,
                            fmt::format("an export has no member `{}`", member),
                            "its members are format, version and entries"));
  const std::vector<JsonEntry> list = EntryLayout{imported, out}.read(*entries);
  const auto report = [&](const std::string& pointer, Code code, std::string message, std::string help) {
    out.report(about_json(imported, pointer, code, std::move(message), std::move(help)));
  };
  TomlFiles files{list, report};
  files.write(imported);
  return imported;
}

std::vector<Diagnostic> told_of_json(const Imported& imported, const std::vector<Diagnostic>& list) {
  const auto pointer_of = [&](Span place) -> std::string {
    if (!place.known()) return {};
    const auto after = std::ranges::upper_bound(imported.origins, std::pair{place.file, place.begin}, {},
                                                [](const Imported::Origin& from) {
                                                  return std::pair{from.file, from.begin};
                                                });
    return after == imported.origins.begin() ? std::string{} : std::prev(after)->pointer;
  };
  std::vector<Diagnostic> told;
  for (Diagnostic diagnostic : list) {
    const std::string pointer = pointer_of(diagnostic.place);
    if (diagnostic.code == Code::missing_key && imported.refused.contains(pointer))
      continue; // it may be what was refused
    diagnostic.path = pointer.empty() ? imported.name : imported.name + "#" + pointer;
    diagnostic.place = {};
    diagnostic.fix.reset();
    for (const Label& label : diagnostic.labels)
      diagnostic.help +=
          fmt::format("{}{}: {}", diagnostic.help.empty() ? "" : "; ", label.text, pointer_of(label.place));
    diagnostic.labels.clear();
    for (Reason& reason : diagnostic.reasons) {
      reason.statement += fmt::format(" ({})", pointer_of(reason.place));
      reason.place = {};
    }
    told.push_back(std::move(diagnostic));
  }
  return told;
}

} // namespace coeval
