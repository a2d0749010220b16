#include "commands/looks.hpp"

#include <algorithm>
#include <fstream>
#include <set>

#include <fmt/format.h>

#include "commands/carried_marks.hpp"
#include "diagnose/near.hpp"
#include "examine/examine.hpp"
#include "verdicts/judge.hpp"

namespace coeval {
namespace {

void say(const Misread& misread) {
  print_error(fmt::format("coeval: {}{}{}\n", misread.message, misread.help.empty() ? "" : "; ", misread.help));
}

} // namespace

std::optional<Looks> read_looks(const LinkedKb& kb, const LookSettings& settings) {
  Looks looks;
  bool understood = true;
  if (!settings.figure_colour.empty()) {
    const auto colour = read_colour(settings.figure_colour);
    if (const auto* misread = std::get_if<Misread>(&colour)) {
      say(*misread);
      understood = false;
    } else {
      looks.figure_colour = std::get<SeenColour>(colour);
    }
  }
  for (const std::string& text : settings.seen) {
    const auto read = read_observation(kb, text, looks.figure_colour);
    if (const auto* misread = std::get_if<Misread>(&read)) {
      say(*misread);
      understood = false;
    } else {
      looks.seen.push_back(std::get<Observation>(read));
    }
  }
  if (looks.seen.size() > most_observations) {
    print_error(fmt::format("coeval: {} observations are more than the {} that are compared at once; leave out what "
                            "does not matter\n",
                            looks.seen.size(), most_observations));
    understood = false;
  }
  if (!understood) return {};
  return looks;
}

std::optional<Sought> find_sought(const Session& session, const std::string& accessory, const std::string& slot,
                                  int& exit) {
  const LinkedKb& kb = session.kb();
  Sought sought;
  exit = exit_usage;
  if (!accessory.empty() && !slot.empty()) {
    print_error("coeval: an accessory has its slot already; give the one or the other\n");
    return {};
  }
  if (!accessory.empty()) {
    const auto entry = session.find(accessory, {Kind::accessory});
    if (!entry) return {};
    sought.of = kb.address(*entry);
    sought.candidates = candidates_of(kb, AccessoryIndex{kb.position[at(*entry)]});
  } else if (!slot.empty()) {
    std::set<std::string_view> slots;
    for (const Accessory& it : kb.accessories) slots.insert(it.slot);
    if (!slots.contains(slot)) {
      const std::vector<std::string_view> known(slots.begin(), slots.end());
      const auto near = near_names(slot, known);
      print_error(fmt::format("coeval: no accessory goes into a slot `{}`; {}\n", printable(slot),
                              near.empty() ? "there are " + list_names(known, "and") : did_you_mean(near)));
      return {};
    }
    sought.of = "slot " + slot;
    sought.candidates = candidates_in_slot(kb, slot);
  } else {
    sought.candidates = candidates_of(kb, {});
  }
  if (sought.candidates.empty()) {
    print_error(fmt::format("coeval: no run{} is entered, so nothing can be said of it\n",
                            sought.of.empty() ? "" : fmt::format(" of `{}`", sought.of)));
    exit = exit_open;
    return {};
  }
  return sought;
}

std::optional<Offered> find_offered(const Session& session, const Settings& settings, const std::string& run,
                                    const std::string& issue) {
  const LinkedKb& kb = session.kb();
  const auto run_entry = session.find(run, {Kind::run});
  if (!run_entry) return {};
  Offered offered;
  offered.run = RunIndex{kb.position[at(*run_entry)]};
  offered.candidates = candidates_of(kb, kb.runs[at(offered.run)].accessory);
  const auto claimed = std::ranges::find_if(offered.candidates, [&](const Candidate& candidate) {
    const auto* index = std::get_if<RunIndex>(&candidate.what);
    return index != nullptr && *index == offered.run;
  });
  offered.claimed = static_cast<std::size_t>(claimed - offered.candidates.begin());
  if (!issue.empty()) {
    const auto issue_entry = session.find(issue, {Kind::issue});
    if (!issue_entry) return {};
    Judge judge{kb, session.dates(), settings.weakest};
    offered.with = judge.judge(offered.run, IssueIndex{kb.position[at(*issue_entry)]}, true);
  }
  return offered;
}

std::optional<MarksFound> find_marks(const Session& session, const Settings& settings,
                                     const std::vector<std::string>& typed, const std::vector<Candidate>& candidates,
                                     std::optional<std::size_t> claimed) {
  auto marks = read_marks(session, typed);
  if (!marks) return {};
  MarksFound found{.marks = std::move(*marks)};
  if (found.marks.empty()) return found;
  const RunsByMarks runs{session.kb(), session.dates(), found.marks, settings.weakest};
  for (const Candidate& candidate : candidates) {
    const auto* run = std::get_if<RunIndex>(&candidate.what);
    found.rulings.push_back(run == nullptr ? std::nullopt : runs.rule_out(*run, false));
  }
  if (!claimed) return found;
  const RunIndex run = std::get<RunIndex>(candidates[*claimed].what);
  for (const CarriedMark& mark : found.marks)
    found.of_claimed.push_back(
        RunsByMarks{session.kb(), session.dates(), std::span{&mark, 1}, settings.weakest}.rule_out(run, true));
  return found;
}

std::vector<bool> ruled_out(const MarksFound& found) {
  std::vector<bool> out;
  for (const auto& ruling : found.rulings) out.push_back(ruling.has_value());
  return out;
}

bool write_sheet(const std::string& path, std::string_view html) {
  std::ofstream file{path, std::ios::binary | std::ios::trunc};
  file.write(html.data(), static_cast<std::streamsize>(html.size()));
  file.close();
  if (file) return true;
  print_error(
      fmt::format("coeval: the sheet could not be written to `{}`; is its folder there, and may you write in it?\n",
                  printable(path)));
  return false;
}

} // namespace coeval
