#include "report/checklist.hpp"
#include "commands/shelf_commands.hpp"

namespace coeval {

int run_checklist(const Settings& settings, const ChecklistSettings& typed) {
  const ShelfSession session{settings, typed.shelf};
  if (session.exit) return *session.exit;
  const LinkedKb& kb = session.kb();
  std::vector<FigureIndex> figures;
  bool understood = true;
  for (const std::string& figure : typed.figures)
    if (const auto entry = session.session().find(figure, {Kind::figure}))
      figures.push_back(FigureIndex{kb.position[at(*entry)]});
    else
      understood = false;
  if (!understood) return exit_usage;
  if (typed.figures.empty())
    for (std::size_t i = 0; i < kb.figures.size(); ++i) figures.push_back(FigureIndex{static_cast<std::uint32_t>(i)});
  PartJudge judge{kb, session.dates(), session.shelf(), settings.weakest};
  const Audit audit = audit_shelf(kb, session.shelf(), judge);
  const ChecklistReport report{session.shelf(), make_checklist(kb, session.shelf(), judge, audit, figures),
                               typed.slots};
  const ReportInput input = session.session().report();
  print(settings.format == Format::json ? checklist_json(input, report) : checklist_text(input, report, settings.out));
  return exit_yes;
}

} // namespace coeval
