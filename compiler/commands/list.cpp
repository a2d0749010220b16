#include <algorithm>

#include <fmt/format.h>

#include "commands/command.hpp"
#include "diagnose/near.hpp"

namespace coeval {

int run_list(const Settings& settings, const std::string& kind, bool only_addresses) {
  std::vector<std::string_view> kinds;
  for (const KindSpec& spec : schema())
    if (spec.has_id()) kinds.push_back(spec.name);
  if (!kind.empty() && std::ranges::find(kinds, kind) == kinds.end()) {
    const auto near = near_names(kind, kinds);
    print_error(fmt::format("coeval: there is no kind `{}`; {}\n", printable(kind),
                            near.empty() ? "kinds are " + list_names(kinds, "and") : did_you_mean(near)));
    return exit_usage;
  }
  const Session session{settings};
  if (session.exit) return *session.exit;
  std::vector<EntryIndex> entries;
  for (const EntryIndex entry : session.kb().addresses.in_order())
    if (kind.empty() || spec_of(session.kb().entries[entry].kind).name == kind) entries.push_back(entry);
  if (settings.format == Format::json) {
    print(list_json(session.report(), entries));
  } else if (only_addresses) {
    std::string text;
    for (const EntryIndex entry : entries) text.append(session.kb().address(entry)).append("\n");
    print(text);
  } else {
    print(list_text(session.report(), entries));
  }
  return exit_yes;
}

} // namespace coeval
