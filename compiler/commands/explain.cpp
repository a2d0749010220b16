#include <fmt/format.h>

#include "commands/command.hpp"
#include "diagnose/near.hpp"

namespace coeval {
namespace {

std::string indented(std::string_view text) {
  std::string result;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    result += (line.empty() ? "" : "    ") + std::string{line} + "\n";
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return result;
}

} // namespace

int run_explain(const Settings& settings, const std::string& code) {
  const bool json = settings.format == Format::json;
  if (code.empty()) {
    if (json) {
      print(explain_json(catalogue()));
      return exit_yes;
    }
    for (const CatalogueRow& row : catalogue())
      print(fmt::format("{:<28}{:<9}{}\n", row.name, name(row.severity), row.title));
    return exit_yes;
  }
  const CatalogueRow* row = find_row(code);
  if (row == nullptr) {
    std::vector<std::string_view> names;
    for (const CatalogueRow& known : catalogue()) names.push_back(known.name);
    const auto near = near_names(code, names);
    print_error(fmt::format("coeval: there is no code `{}`; {}\n", printable(code),
                            near.empty() ? "`coeval explain` lists them all" : did_you_mean(near)));
    return exit_usage;
  }
  if (json) {
    print(explain_json({row, 1}));
    return exit_yes;
  }
  print(fmt::format("{} ({})\n\n{}\n\n", row->name, name(row->severity), wrap(row->title, 0, settings.out)));
  print(fmt::format("why it matters\n{}\n\n", "  " + wrap(row->why, 2, settings.out)));
  print(fmt::format("example\n{}\n", indented(row->example)));
  print(fmt::format("repair\n{}\n", "  " + wrap(row->repair, 2, settings.out)));
  return exit_yes;
}

} // namespace coeval
