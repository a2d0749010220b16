#include "report/shelf_changes.hpp"

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "report/json_parts.hpp"

namespace coeval {
namespace {

// Items of a list, one a line, behind each other.
std::string in_one_line(std::string_view cell) {
  std::string line;
  for (const char c : cell) line += c == '\n' ? "; " : std::string(1, c);
  return line;
}

} // namespace

std::string parcel_text(const ParcelReport& report, TextStyle style) {
  if (report.changes.empty())
    return wrap(fmt::format("nothing to change: {} says so already", report.file), 0, style) + "\n";
  std::string text = wrap(fmt::format("changed in {}:", report.file), 0, style) + "\n";
  for (const ShelfChange& change : report.changes) {
    std::string line = fmt::format("{} `{}`: {} is {}", change.table, change.id, change.key, in_one_line(change.after));
    if (!change.before.empty()) line += fmt::format(" (was {})", in_one_line(change.before));
    text += "  " + wrap(line, 2, style) + "\n";
  }
  return text;
}

std::string parcel_json(const ParcelReport& report) {
  Json changes = Json::array();
  for (const ShelfChange& change : report.changes)
    changes.push_back({{"table", change.table},
                       {"id", change.id},
                       {"key", change.key},
                       {"before", text_or_null(change.before)},
                       {"after", change.after}});
  return written({{"format", "coeval-parcel"},
                  {"version", 1},
                  {"purchase", report.purchase},
                  {"file", report.file},
                  {"changes", std::move(changes)}});
}

std::string convert_text(const ConvertReport& report, TextStyle style) {
  std::string text = fmt::format("{} says what {} says: {}", report.to, report.from, counted(report.tables, "table"));
  if (report.drops_comments) text += "; its comments are not carried over, so keep that file too";
  return wrap(text, 0, style) + "\n";
}

std::string convert_json(const ConvertReport& report) {
  return written({{"format", "coeval-convert"},
                  {"version", 1},
                  {"from", report.from},
                  {"to", report.to},
                  {"tables", report.tables},
                  {"drops-comments", report.drops_comments}});
}

} // namespace coeval
