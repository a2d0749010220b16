// import/toml_files.hpp: how do entries stand in TOML files?
//
// Private to this room.
#pragma once

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "entries/schema.hpp"
#include "import/import.hpp"

namespace coeval {

struct JsonEntry {
  const KindSpec* spec = nullptr;
  const nlohmann::ordered_json* fields = nullptr; // an object
  std::string pointer;
  std::string address;
  std::string parent_address;
  std::string id;
  std::vector<std::size_t> children; // positions in the list, in its order
  bool linked = false;               // it stands at the top or below its parent; others are reported and left out
};

// (pointer, code, message, help)
using JsonReport = std::function<void(const std::string&, Code, std::string, std::string)>;

class TomlFiles {
public:
  TomlFiles(const std::vector<JsonEntry>& entries, JsonReport report) : entries_(entries), report_(std::move(report)) {}

  // Adds the files, the pictures that they name, and what came from where.
  void write(Imported& imported);

private:
  struct File {
    std::string path;
    std::string text;
    std::vector<std::pair<std::uint32_t, std::string>> origins; // (byte, pointer)
  };

  // The files that the entries of a kind share: how many so far, and where the last one is.
  struct Shared {
    std::size_t files = 0;
    std::size_t last = 0;
  };

  File& file_for(const JsonEntry& entry);
  void write_entry(File& file, const JsonEntry& entry, const std::string& heading);
  void write_field(File& file, const JsonEntry& entry, const KeySpec& key, const nlohmann::ordered_json& value);
  bool write_value(File& file, const KeySpec& key, const nlohmann::ordered_json& value, const std::string& pointer);
  bool write_dates(File& file, const KeySpec& key, const nlohmann::ordered_json& value, const std::string& pointer);
  bool write_features(File& file, const nlohmann::ordered_json& value, const std::string& pointer);
  bool write_list(File& file, const nlohmann::ordered_json& list, const std::string& pointer);
  bool write_picture(File& file, const nlohmann::ordered_json& value, const std::string& pointer);
  bool wrong(const std::string& pointer, std::string message);
  void mark(File& file, std::string pointer);

  const std::vector<JsonEntry>& entries_;
  JsonReport report_;
  std::vector<File> files_;
  std::map<Kind, Shared> shared_;
  std::vector<std::string> pictures_;
  std::set<std::string> refused_;
};

} // namespace coeval
