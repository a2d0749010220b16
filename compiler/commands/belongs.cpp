#include <fmt/format.h>

#include "commands/command.hpp"
#include "commands/parts.hpp"
#include "verdicts/judge.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_instead = 5;

// Runs of the same accessory that do belong with the issue, the best first.
std::vector<Judgement> others_that_belong(const LinkedKb& kb, Judge& judge, const Judgement& answer) {
  std::vector<Judgement> list;
  const AccessoryIndex accessory = kb.runs[at(answer.run)].accessory;
  for (const Takes& takes : kb.issues[at(answer.issue)].takes) {
    if (takes.accessory != accessory) continue;
    for (Judgement& other : judge.outfit(answer.issue, takes))
      if (other.verdict <= Verdict::fits && list.size() < most_instead) list.push_back(std::move(other));
    break;
  }
  return list;
}

} // namespace

int run_belongs(const Settings& settings, const std::string& part, const std::string& issue, bool every_ground) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const LinkedKb& kb = session.kb();
  const auto part_entry = session.find(part, {Kind::run, Kind::mould, Kind::accessory});
  const auto issue_entry = session.find(issue, {Kind::issue});
  if (!part_entry || !issue_entry) return exit_usage;
  const IssueIndex with{kb.position[at(*issue_entry)]};
  const std::vector<RunIndex> runs = runs_of(kb, *part_entry);
  if (runs.empty()) {
    print_error(
        fmt::format("coeval: no run of `{}` is entered, so nothing can be said of it\n", kb.address(*part_entry)));
    return exit_open;
  }
  Judge judge{kb, session.dates(), settings.weakest};
  BelongsReport report;
  report.every_ground = every_ground;
  for (const RunIndex run : runs) report.answers.push_back(judge.judge(run, with, true));
  if (report.answers.size() == 1 && report.answers.front().verdict > Verdict::open)
    report.instead = others_that_belong(kb, judge, report.answers.front());
  print(settings.format == Format::json ? belongs_json(session.report(), report)
                                        : belongs_text(session.report(), report, settings.out));
  return exit_of(report.answers);
}

} // namespace coeval
