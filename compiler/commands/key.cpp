#include "commands/looks.hpp"
#include "report/examine.hpp"

namespace coeval {

int run_key(const Settings& settings, const std::string& accessory, const std::string& slot) {
  if (accessory.empty() && slot.empty()) {
    print_error("coeval: say of which accessory, or with --slot of which slot\n");
    return exit_usage;
  }
  const Session session{settings};
  if (session.exit) return *session.exit;
  int exit = exit_yes;
  const auto sought = find_sought(session, accessory, slot, exit);
  if (!sought) return exit;
  const FeatureTable table = tabulate(session.kb(), sought->candidates);
  const KeyReport report{table, sought->of, make_key(table)};
  print(settings.format == Format::json ? key_json(session.report(), report)
                                        : key_text(session.report(), report, settings.out));
  return exit_yes;
}

} // namespace coeval
