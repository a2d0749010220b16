#include <algorithm>
#include <charconv>
#include <iostream>

#include <fmt/format.h>

#include "commands/looks.hpp"
#include "report/examine.hpp"

namespace coeval {
namespace {

constexpr std::size_t all_looks = 1000;

// Look by look: asks on standard error, reads answers from standard input, so that standard output holds the outcome
// only.
class Questions {
public:
  Questions(const FeatureTable& table, std::vector<Observation> seen, Question question, TextStyle style)
      : table_(table), given_(std::move(seen)), question_(std::move(question)), style_(style) {
    question_.most_next = all_looks;
  }

  // Until one candidate is left, no look tells more, or the user stops.
  std::vector<Observation> ask() {
    print_error("answer with a number of the list or a value; `?` if you cannot tell, `back` to undo, an empty line to "
                "stop\n");
    while (true) {
      std::vector<Observation> seen = so_far();
      const Outcome outcome = examine(table_, seen, question_);
      const auto look = std::ranges::find_if(outcome.next, [&](const Look& next) { return !given_up(next.feature); });
      const bool stuck = outcome.left.size() < 2 || look == outcome.next.end() || seen.size() == most_observations;
      print_error(fmt::format("\n{} of {} left\n", outcome.left.size(), table_.size()));
      if (stuck && answers_.empty()) return seen;
      if (stuck)
        print_error("nothing more to ask; `back` to undo, an empty line to end\n> ");
      else
        put(look->feature);
      std::string line;
      if (!std::getline(std::cin, line)) return seen;
      line = trimmed(line);
      if (line.empty()) return seen;
      if (line == "back") {
        if (answers_.empty())
          print_error("there is no answer to undo\n");
        else
          answers_.pop_back();
      } else if (!stuck) {
        take(look->feature, line);
      }
    }
  }

private:
  struct Answer {
    FeatureIndex feature{};
    std::optional<Observation> seen; // nothing: cannot tell
  };

  static std::string trimmed(const std::string& line) {
    const auto begin = line.find_first_not_of(" \t\r");
    if (begin == std::string::npos) return {};
    return line.substr(begin, line.find_last_not_of(" \t\r") - begin + 1);
  }

  [[nodiscard]] std::vector<Observation> so_far() const {
    std::vector<Observation> seen = given_;
    for (const Answer& answer : answers_)
      if (answer.seen) seen.push_back(*answer.seen);
    return seen;
  }

  [[nodiscard]] bool given_up(FeatureIndex feature) const {
    return std::ranges::any_of(answers_, [&](const Answer& answer) { return answer.feature == feature; });
  }

  // What a choice can be, in the order of its numbers.
  [[nodiscard]] static std::vector<std::string> options(const Feature& feature) {
    if (feature.kind == FeatureKind::present) return {"yes", "no"};
    return feature.kind == FeatureKind::choice ? feature.values : std::vector<std::string>{};
  }

  void put(FeatureIndex index) const {
    const Feature& feature = table_.feature(at(index));
    std::string text = fmt::format("{} ({})\n  {}\n", printable(feature.name), feature.id,
                                   wrap(how_to_look(*table_.kb, feature), 2, style_));
    if (const std::string_view caution = table_.kb->entries[feature.entry].text("caution"); !caution.empty())
      text += fmt::format("  caution: {}\n", wrap(caution, 11, style_));
    const std::vector<std::string> values = options(feature);
    for (std::size_t i = 0; i < values.size(); ++i) text += fmt::format("  {}  {}\n", i + 1, printable(values[i]));
    if (feature.kind == FeatureKind::measure) text += fmt::format("  in {}, such as 21.4±0.05\n", feature.unit);
    if (feature.kind == FeatureKind::count) text += "  a number\n";
    if (feature.kind == FeatureKind::text) text += "  what it reads\n";
    if (feature.kind == FeatureKind::colour) text += "  lab(70.8,5.2,44.9)±1.5\n";
    print_error(text + "> ");
  }

  void take(FeatureIndex index, const std::string& line) {
    if (line == "?") {
      answers_.push_back({index, {}});
      return;
    }
    const Feature& feature = table_.feature(at(index));
    std::string value = line;
    const std::vector<std::string> values = options(feature);
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(line.data(), line.data() + line.size(), number);
    const bool numbered = error == std::errc{} && end == line.data() + line.size();
    if (numbered && number >= 1 && number <= values.size()) value = values[number - 1];
    const auto read = read_observation(*table_.kb, feature.id + "=" + value);
    if (const auto* misread = std::get_if<Misread>(&read))
      print_error(fmt::format("{}; {}\n", misread->message, misread->help));
    else
      answers_.push_back({index, std::get<Observation>(read)});
  }

  const FeatureTable& table_;
  std::vector<Observation> given_;
  std::vector<Answer> answers_;
  Question question_;
  TextStyle style_;
};

} // namespace

int run_identify(const Settings& settings, const std::string& accessory, const LookSettings& looks) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  int exit = exit_yes;
  const auto sought = find_sought(session, accessory, looks.slot, exit);
  if (!sought) return exit;
  auto read = read_looks(session.kb(), looks);
  if (!read) return exit_usage;
  auto marks = find_marks(session, settings, looks.marks, sought->candidates, {});
  if (!marks) return exit_usage;
  const Question question{.seller_first = looks.seller_first, .ruled_out = ruled_out(*marks)};
  const FeatureTable table = tabulate(session.kb(), sought->candidates, read->figure_colour);
  IdentifyReport report{table, sought->of, std::move(read->seen), {}};
  if (looks.by_questions) report.seen = Questions{table, std::move(report.seen), question, settings.err}.ask();
  report.outcome = examine(table, report.seen, question);
  report.marks = std::move(*marks);
  print(settings.format == Format::json ? identify_json(session.report(), report)
                                        : identify_text(session.report(), report, settings.out));
  if (report.outcome.left.empty()) return exit_no;
  return report.outcome.left.size() == 1 ? exit_yes : exit_open;
}

} // namespace coeval
