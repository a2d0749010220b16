#include "report/drift.hpp"
#include "commands/command.hpp"
#include "commands/version.hpp"

namespace coeval {

int run_drift(const Settings& settings, const DriftSettings& drift) {
  const NamedVersion from{settings, drift.from};
  if (from.exit) return *from.exit;
  const NamedVersion to{settings, drift.to};
  if (to.exit) return *to.exit;
  const Version before = from.version();
  const Version after = to.version();
  const Drift found = drift_between(before, after, settings.weakest);
  const DriftReport report{found,
                           {from.name(), from.commit(), from.day(), before},
                           {to.name(), to.commit(), to.day(), after},
                           settings.weakest};
  print(drift.markdown                    ? drift_markdown(report)
        : settings.format == Format::json ? drift_json(report)
                                          : drift_text(report, settings.out));
  return found.nothing() ? exit_yes : exit_no;
}

} // namespace coeval
