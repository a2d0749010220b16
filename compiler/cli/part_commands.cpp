// What is this part at hand?
#include <unistd.h>

#include "cli/command_line.hpp"
#include "commands/looks.hpp"

namespace coeval {
namespace {

struct AtHand {
  std::string part;
  LookSettings looks;
};

void add_seen(CLI::App& command, LookSettings& looks) {
  command.add_option("--seen", looks.seen, "what was seen or measured: top=ring, vents=4, height-mm=21.4±0.05 …")
      ->type_name("FEATURE=VALUE");
  command
      .add_option("--figure-colour", looks.figure_colour,
                  "the plastic of your figure, CIELAB, for body-colour=same-as-figure")
      ->type_name("L,a,b");
  command.add_flag("--by-seller", looks.seller_first, "propose first what a seller can photograph or measure");
}

void add_marks(CLI::App& command, LookSettings& looks) {
  command
      .add_option("--mark", looks.marks,
                  "a dating mark that it carries; with what it reads, where it is one that is read")
      ->type_name("MARK[=READING]");
}

void add_offer(CLI::App& command, AtHand& typed) {
  command.add_option("RUN", typed.part, "the run that it is offered as")->required();
  add_seen(command, typed.looks);
  command.add_option("--for", typed.looks.issue, "the issue that it is offered for")->type_name("ISSUE");
  command.add_option("--sheet", typed.looks.sheet, "write a page to print, for a second opinion")
      ->type_name("FILE.html");
}

} // namespace

void add_part_commands(CommandLine& line) {
  const auto [identify, found] = line.add_with<AtHand>(
      "identify", "which run or reproduction is this part?", [](const Settings& settings, AtHand typed) {
        const bool on_terminal = isatty(STDIN_FILENO) != 0 && isatty(STDERR_FILENO) != 0;
        typed.looks.by_questions =
            typed.looks.by_questions || (typed.looks.seen.empty() && typed.looks.marks.empty() && on_terminal);
        return run_identify(settings, typed.part, typed.looks);
      });
  identify.add_option("ACCESSORY", found.part, "only runs and reproductions of this accessory");
  add_seen(identify, found.looks);
  add_marks(identify, found.looks);
  identify.add_option("--slot", found.looks.slot, "only accessories that go there: hand, head …")->type_name("SLOT");
  identify.add_flag("--ask", found.looks.by_questions, "look by look; on a terminal, unless --seen is given");

  const auto [key, keyed] = line.add_with<AtHand>(
      "key", "a key to tell the runs and reproductions of an accessory apart",
      [](const Settings& settings, const AtHand& typed) { return run_key(settings, typed.part, typed.looks.slot); });
  key.add_option("ACCESSORY", keyed.part, "the accessory");
  key.add_option("--slot", keyed.looks.slot, "all accessories that go there: hand, head …")->type_name("SLOT");

  const auto [examine, examined] = line.add_with<AtHand>(
      "examine", "is a part what it is offered as?",
      [](const Settings& settings, const AtHand& typed) { return run_examine(settings, typed.part, typed.looks); });
  add_offer(examine, examined);
  add_marks(examine, examined.looks);

  const auto [ask, asked] = line.add_with<AtHand>(
      "ask", "what to ask a seller, as a message, the most telling first",
      [](const Settings& settings, const AtHand& typed) { return run_ask(settings, typed.part, typed.looks); });
  add_offer(ask, asked);
}

} // namespace coeval
