// What is not settled, and what would settle it?
#include "cli/command_line.hpp"

namespace coeval {

void add_unsettled(CommandLine& line) {
  struct Wanted {
    std::string point;
    std::optional<std::size_t> top;
  };
  const auto [agenda, wanted] = line.add_with<Wanted>(
      "agenda", "which day or plant, found out, would settle most open verdicts",
      [](const Settings& settings, const Wanted& typed) { return run_agenda(settings, typed.point, typed.top); });
  agenda.add_option("POINT", wanted.point,
                    "ADDRESS.start or ADDRESS.end: only this one, with all that it would settle");
  agenda.add_option("--top", wanted.top, "how many; 10 unless said, in JSON all")->type_name("N");

  const auto [claims, claim] =
      line.add_with<std::string>("claims", "what collectors repeat, and what the evidence says of it", run_claims);
  claims.add_option("CLAIM", claim, "one claim, with the proof; all, a line each, without it");

  struct Disputed {
    bool everything = false;
  };
  const auto [disputes, disputed] = line.add_with<Disputed>(
      "disputes", "the disputed statements: what they contradict, and what would follow from each",
      [](const Settings& settings, const Disputed& typed) { return run_disputes(settings, typed.everything); });
  disputes.add_flag("--everything", disputed.everything, "every verdict and day that would differ, not only the first");
}

} // namespace coeval
