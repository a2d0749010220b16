// report/shelf_changes.hpp: what was changed in the file of a shelf, or written to another?
#pragma once

#include <string>
#include <vector>

#include "diagnose/render.hpp"

namespace coeval {

struct ShelfChange {
  std::string table; // "purchase"
  std::string id;
  std::string key;
  std::string before; // as the cell of a table, one item of a list a line; empty: the key was not there
  std::string after;
};

struct ParcelReport {
  std::string purchase;
  std::string file; // as given
  std::vector<ShelfChange> changes;
};
[[nodiscard]] std::string parcel_text(const ParcelReport& report, TextStyle style);
// {"format": "coeval-parcel", "version": 1, "purchase": id, "file": path,
//  "changes": [{"table", "id", "key", "before": text or null, "after": text}...]}
[[nodiscard]] std::string parcel_json(const ParcelReport& report);

struct ConvertReport {
  std::string from; // as given
  std::string to;
  std::size_t tables = 0;
  bool drops_comments = false; // there are some, and the new file has none
};
[[nodiscard]] std::string convert_text(const ConvertReport& report, TextStyle style);
// {"format": "coeval-convert", "version": 1, "from": path, "to": path, "tables": number, "drops-comments": boolean}
[[nodiscard]] std::string convert_json(const ConvertReport& report);

} // namespace coeval
