// Does a part belong, and how is that known?
#include "cli/command_line.hpp"

namespace coeval {

void add_questions(CommandLine& line) {
  struct Belongs {
    std::string part, issue;
    bool every_ground = false;
  };
  line.add_kb(line.add("check", "report every mistake, contradiction and doubtful claim", run_check));

  const auto [belongs, pair] =
      line.add_with<Belongs>("belongs", "does a run belong with an issue, and how is that known?",
                             [](const Settings& settings, const Belongs& typed) {
                               return run_belongs(settings, typed.part, typed.issue, typed.every_ground);
                             });
  belongs.add_option("RUN", pair.part, "a run; or a mould or accessory, answered run by run")->required();
  belongs.add_option("ISSUE", pair.issue, "an issue of a figure")->required();
  belongs.add_flag("--every-ground", pair.every_ground,
                   "print the proof of every ground, not only of those that decide");

  const auto [outfit, issue] =
      line.add_with<std::string>("outfit", "the runs for each slot of an issue, the best first", run_outfit);
  outfit.add_option("ISSUE", issue, "an issue of a figure")->required();

  const auto [homes, part] =
      line.add_with<std::string>("homes", "the issues that a run could belong with, the best first", run_homes);
  homes.add_option("RUN", part, "a run; or a mould or accessory, answered run by run")->required();

  const auto [why, point] = line.add_with<std::string>(
      "why", "how early and how late something began or ended, and the chain that proves it", run_why);
  why.add_option("POINT", point, "ADDRESS.start or ADDRESS.end; ADDRESS alone for both")->required();

  const auto [marks, kind] = line.add_with<std::string>(
      "marks", "the dating marks: what each reads, how far it dates what carries it", run_marks);
  marks.add_option("KIND", kind, "only these: safety, origin, address …");

  const auto [dated, seen] = line.add_with<std::vector<std::string>>(
      "dated", "how early and how late something with these marks can have been made", run_dated);
  dated.add_option("--mark", seen, "a mark that it carries; with what it reads, where it is one that is read")
      ->type_name("MARK[=READING]")
      ->required();
}

} // namespace coeval
