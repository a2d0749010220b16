#include "import/toml_files.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "export/table_names.hpp"
#include "import/json_document.hpp"
#include "import/toml_text.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

// Beyond which a file that entries share is continued in another: well below what the compiler reads.
constexpr std::size_t full_file = std::size_t{1} << 20;

// An id that can be the name of a file as it is.
bool is_file_name(std::string_view id) {
  constexpr std::size_t longest = 80;
  return !id.empty() && id.size() <= longest &&
         std::ranges::all_of(id, [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; });
}

// Has a file to itself: it cannot share one, or other kinds stand beside it.
bool has_own_file(const KindSpec& spec) {
  return !spec.repeated || std::ranges::any_of(schema(), [&](const KindSpec& other) {
    return other.standing == Standing::beside && other.parents.front() == spec.kind;
  });
}

// Relative, below where it starts, and without anything that another system reads differently.
bool is_inner_path(const std::string& path) {
  if (path.empty() || path.size() > 1000 || path.find_first_of("\\:") != std::string::npos) return false;
  if (std::ranges::any_of(path, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == '\x7f'; }))
    return false;
  std::size_t start = 0;
  while (start <= path.size()) {
    const std::size_t end = std::min(path.find('/', start), path.size());
    const std::string_view part = std::string_view{path}.substr(start, end - start);
    if (part.empty() || part == "." || part == "..") return false;
    start = end + 1;
  }
  return true;
}

} // namespace

void TomlFiles::mark(File& file, std::string pointer) {
  file.origins.emplace_back(static_cast<std::uint32_t>(file.text.size()), std::move(pointer));
}

bool TomlFiles::wrong(const std::string& pointer, std::string message) {
  report_(pointer, Code::wrong_type, std::move(message), "`coeval schema export` says what may stand where");
  return false;
}

void TomlFiles::write(Imported& imported) {
  for (const JsonEntry& entry : entries_) {
    if (!entry.linked || entry.spec->standing != Standing::top) continue;
    if (has_own_file(*entry.spec) && !is_file_name(entry.id)) {
      report_(entry.pointer + "/fields/id", Code::broken_id,
              fmt::format("{} needs an id of a-z, 0-9 and hyphens, at most 80 of them", with_article(entry.spec->name)),
              "choose a short id such as `ring-top`");
      continue;
    }
    write_entry(file_for(entry), entry, std::string{entry.spec->name});
  }
  std::ranges::sort(files_, {}, &File::path);
  for (std::size_t i = 0; i < files_.size(); ++i) {
    for (auto& [begin, pointer] : files_[i].origins)
      imported.origins.push_back({FileIndex{static_cast<std::uint32_t>(i)}, begin, std::move(pointer)});
    imported.sources.files.emplace_back(std::move(files_[i].path), std::move(files_[i].text));
  }
  imported.refused = std::move(refused_);
  imported.sources.assets.insert(pictures_.begin(), pictures_.end());
}

TomlFiles::File& TomlFiles::file_for(const JsonEntry& entry) {
  const std::string plural = table_name(entry.spec->kind);
  if (has_own_file(*entry.spec)) return files_.emplace_back(File{fmt::format("{}/{}.toml", plural, entry.id), {}, {}});
  Shared& shared = shared_[entry.spec->kind];
  if (shared.files == 0 || files_[shared.last].text.size() >= full_file) {
    shared.last = files_.size();
    const std::string number = ++shared.files == 1 ? std::string{} : fmt::format("-{}", shared.files);
    files_.push_back({fmt::format("{}{}.toml", plural, number), {}, {}});
  }
  return files_[shared.last];
}

void TomlFiles::write_entry(File& file, const JsonEntry& entry, const std::string& heading) {
  if (!file.text.empty()) file.text += '\n';
  mark(file, entry.pointer);
  file.text += entry.spec->repeated ? fmt::format("[[{}]]\n", heading) : fmt::format("[{}]\n", heading);
  for (const auto& [name, value] : entry.fields->items()) {
    if (const KeySpec* key = entry.spec->find(name)) {
      write_field(file, entry, *key, value);
      continue;
    }
    std::vector<std::string_view> names;
    for (const KeySpec& key : entry.spec->keys) names.push_back(key.name);
    const auto near = near_names(name, names);
    report_(entry.pointer + "/fields" + pointer_part(name), Code::unknown_key,
            fmt::format("{} has no key `{}`", with_article(kind_word(entry.spec->kind)), name),
            near.empty() ? "its keys are " + list_names(names, "and") : did_you_mean(near));
  }
  for (const std::size_t child : entry.children) {
    const KindSpec& spec = *entries_[child].spec;
    write_entry(file, entries_[child],
                spec.standing == Standing::beside ? std::string{spec.name} : fmt::format("{}.{}", heading, spec.name));
  }
}

void TomlFiles::write_field(File& file, const JsonEntry& entry, const KeySpec& key, const Json& value) {
  const std::string pointer = entry.pointer + "/fields" + pointer_part(key.name);
  const std::size_t before = file.text.size();
  const std::size_t origins_before = file.origins.size();
  mark(file, pointer);
  file.text += toml_key(key.name) + " = ";
  if (write_value(file, key, value, pointer)) {
    file.text += '\n';
    return;
  }
  file.text.resize(before);
  file.origins.resize(origins_before);
  refused_.insert(entry.pointer);
}

bool TomlFiles::write_value(File& file, const KeySpec& key, const Json& value, const std::string& pointer) {
  if (key.type == ValueType::dates) return write_dates(file, key, value, pointer);
  if (key.type == ValueType::features) return write_features(file, value, pointer);
  if (key.type == ValueType::file) return write_picture(file, value, pointer);
  if (value.is_array()) return write_list(file, value, pointer);
  const auto scalar = toml_scalar(value);
  if (!scalar) return wrong(pointer, fmt::format("`{}` takes no object and no null", key.name));
  file.text += *scalar;
  return true;
}

bool TomlFiles::write_list(File& file, const Json& list, const std::string& pointer) {
  file.text += '[';
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string at_item = fmt::format("{}/{}", pointer, i);
    const auto scalar = toml_scalar(list[i]);
    if (!scalar) return wrong(at_item, "a list holds texts, numbers, true and false, nothing else");
    if (i > 0) file.text += ", ";
    mark(file, at_item);
    file.text += *scalar;
  }
  file.text += ']';
  return true;
}

// {"written": text or {"start": text, "end": text}}; the days beside it follow from that.
bool TomlFiles::write_dates(File& file, const KeySpec& key, const Json& value, const std::string& pointer) {
  const auto written = value.is_object() ? value.find("written") : value.end();
  if (!value.is_object() || written == value.end())
    return wrong(pointer, fmt::format("`{}` takes an object whose member `written` holds the dates", key.name));
  for (const auto& [name, inner] : value.items())
    if (name != "written" && name != "start" && name != "end")
      return wrong(pointer + pointer_part(name), fmt::format("dates have no member `{}`", name));
  const std::string at_written = pointer + "/written";
  if (!written->is_object()) {
    const auto scalar = toml_scalar(*written);
    if (!scalar) return wrong(at_written, "dates are written as text, or as an object with start and end");
    mark(file, at_written);
    file.text += *scalar;
    return true;
  }
  file.text += "{ ";
  bool first = true;
  for (const auto& [name, end] : written->items()) {
    const auto scalar = toml_scalar(end);
    if (!scalar) return wrong(at_written + pointer_part(name), "an end of dates is written as text");
    if (!first) file.text += ", ";
    first = false;
    mark(file, at_written + pointer_part(name));
    file.text += fmt::format("{} = {}", toml_key(name), *scalar);
  }
  file.text += " }";
  return true;
}

// {feature: {"values": [value …], "tolerance": number} or {"lab": [L, a, b], "tolerance": number}}
bool TomlFiles::write_features(File& file, const Json& value, const std::string& pointer) {
  if (!value.is_object()) return wrong(pointer, "`features` takes an object with a member for each feature");
  file.text += "{ ";
  bool first = true;
  for (const auto& [name, feature] : value.items()) {
    const std::string at_feature = pointer + pointer_part(name);
    if (!feature.is_object()) return wrong(at_feature, "a feature is an object with `values` or `lab`");
    for (const auto& [member, inner] : feature.items())
      if (member != "values" && member != "lab" && member != "tolerance")
        return wrong(at_feature + pointer_part(member), fmt::format("a feature has no member `{}`", member));
    const auto values = feature.find("values");
    const auto lab = feature.find("lab");
    const auto tolerance = feature.find("tolerance");
    const bool has_lab = lab != feature.end();
    const bool listed = values != feature.end() && values->is_array();
    const bool none = !listed || values->empty(); // beside lab, an export has an empty list of values
    if (has_lab ? !none || !lab->is_array() : none)
      return wrong(at_feature, "a feature has either a list `values` with something in it, or a list `lab`");
    if (tolerance != feature.end() && !has_lab && values->size() != 1)
      return wrong(at_feature + "/tolerance", "a tolerance goes with one value");
    if (!first) file.text += ", ";
    first = false;
    mark(file, at_feature);
    file.text += toml_key(name) + " = ";
    const bool table = has_lab || tolerance != feature.end();
    if (table) file.text += has_lab ? "{ lab = " : "{ value = ";
    if (has_lab || values->size() > 1) {
      if (!write_list(file, has_lab ? *lab : *values, at_feature + (has_lab ? "/lab" : "/values"))) return false;
    } else {
      const auto scalar = toml_scalar(values->front());
      if (!scalar) return wrong(at_feature + "/values/0", "a value is text, a number, true or false");
      file.text += *scalar;
    }
    if (tolerance != feature.end()) {
      const auto scalar = toml_scalar(*tolerance);
      if (!scalar) return wrong(at_feature + "/tolerance", "a tolerance is a number");
      file.text += fmt::format(", tolerance = {}", *scalar);
    }
    if (table) file.text += " }";
  }
  file.text += " }";
  return true;
}

// A picture's path counts from the root there, and from the folder of the file here.
bool TomlFiles::write_picture(File& file, const Json& value, const std::string& pointer) {
  if (!value.is_string() || !is_inner_path(value.get_ref<const std::string&>()))
    return wrong(pointer,
                 "a picture's file is its path from the root of the knowledge base, with `/` between its parts");
  std::string path = value.get<std::string>();
  pictures_.push_back(path);
  for (const char c : file.path)
    if (c == '/') path.insert(0, "../");
  file.text += toml_string(path);
  return true;
}

} // namespace coeval
