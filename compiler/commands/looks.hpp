// commands/looks.hpp: what do the commands about a part at hand share?
#pragma once

#include "commands/command.hpp"
#include "examine/table.hpp"
#include "report/examine.hpp"

namespace coeval {

struct LookSettings {
  std::vector<std::string> seen;  // FEATURE=VALUE
  std::vector<std::string> marks; // MARK or MARK=READING
  std::string figure_colour;      // L,a,b of the owner's figure
  std::string slot;               // for a key or an identification: every accessory of a slot
  std::string issue;              // that the part is offered for
  std::string sheet;              // where to write the second-opinion sheet
  bool by_questions = false;      // look by look, answered on standard input
  bool seller_first = false;      // propose first what a seller can do
};

struct Looks {
  std::vector<Observation> seen;
  std::optional<SeenColour> figure_colour;
};

// The observations; nothing where one cannot be read, and then standard error says of each what would do.
[[nodiscard]] std::optional<Looks> read_looks(const LinkedKb& kb, const LookSettings& settings);

// What a part could be: the candidates of an accessory, of a slot, or all. Nothing where there is no such accessory or
// slot, or no candidate; `exit` is then the exit code.
struct Sought {
  std::string of;
  std::vector<Candidate> candidates;
};
[[nodiscard]] std::optional<Sought> find_sought(const Session& session, const std::string& accessory,
                                                const std::string& slot, int& exit);

// A run that a part is offered as, among the candidates of its accessory.
struct Offered {
  RunIndex run{};
  std::vector<Candidate> candidates;
  std::size_t claimed = 0;
  std::optional<Judgement> with; // whether it belongs with the issue that it is offered for
};
[[nodiscard]] std::optional<Offered> find_offered(const Session& session, const Settings& settings,
                                                  const std::string& run, const std::string& issue);

// Which of the candidates the marks rule out. Nothing where a mark cannot be understood, and then standard error says
// so.
[[nodiscard]] std::optional<MarksFound> find_marks(const Session& session, const Settings& settings,
                                                   const std::vector<std::string>& typed,
                                                   const std::vector<Candidate>& candidates,
                                                   std::optional<std::size_t> claimed);
[[nodiscard]] std::vector<bool> ruled_out(const MarksFound& found);

// Writes the file whole; says so on standard error where it cannot.
[[nodiscard]] bool write_sheet(const std::string& path, std::string_view html);

int run_identify(const Settings& settings, const std::string& accessory, const LookSettings& looks);
int run_key(const Settings& settings, const std::string& accessory, const std::string& slot);
int run_examine(const Settings& settings, const std::string& run, const LookSettings& looks);
int run_ask(const Settings& settings, const std::string& run, const LookSettings& looks);

} // namespace coeval
