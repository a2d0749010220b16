#include <fmt/format.h>

#include "commands/command.hpp"
#include "diagnose/near.hpp"
#include "entries/json_schema.hpp"
#include "export/export.hpp"
#include "report/output_schema.hpp"

namespace coeval {

int run_schema(const std::string& of) {
  if (of == "kb" || of == "shelf") {
    print(file_json_schema(of == "kb" ? Language::knowledge_base : Language::shelf));
    return exit_yes;
  }
  if (of == "export") {
    print(export_json_schema());
    return exit_yes;
  }
  if (const auto schema = output_json_schema(of)) {
    print(*schema);
    return exit_yes;
  }
  std::vector<std::string_view> names = output_formats();
  names.insert(names.begin(), {"kb", "shelf", "export"});
  const auto near = near_names(of, names);
  print_error(fmt::format("coeval: there is no schema of `{}`; {}\n", printable(of),
                          near.empty() ? "there are schemas of " + list_names(names, "and") : did_you_mean(near)));
  return exit_usage;
}

} // namespace coeval
