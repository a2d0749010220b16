#include "commands/command.hpp"
#include "verdicts/judge.hpp"

namespace coeval {

int run_outfit(const Settings& settings, const std::string& issue) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const LinkedKb& kb = session.kb();
  const auto entry = session.find(issue, {Kind::issue});
  if (!entry) return exit_usage;
  OutfitReport report;
  report.issue = IssueIndex{kb.position[at(*entry)]};
  Judge judge{kb, session.dates(), settings.weakest};
  for (const Takes& takes : kb.issues[at(report.issue)].takes)
    report.slots.push_back({takes.slot, takes.accessory, judge.outfit(report.issue, takes)});
  print(settings.format == Format::json ? outfit_json(session.report(), report)
                                        : outfit_text(session.report(), report, settings.out));
  if (report.slots.empty()) return kb.issues[at(report.issue)].bare ? exit_yes : exit_open;
  int result = exit_yes; // the worst slot decides
  for (const OutfitSlot& slot : report.slots) {
    const int answer = slot.runs.empty() ? exit_open : exit_of(slot.runs); // silence is not a no
    if (answer == exit_no) return exit_no;
    if (answer == exit_open) result = exit_open;
  }
  return result;
}

} // namespace coeval
