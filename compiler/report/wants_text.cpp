#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "report/text_parts.hpp"
#include "report/wants.hpp"

namespace coeval {
namespace {

// What one screen has room for; --all shows everything.
constexpr std::size_t most_lines = 32;
constexpr std::size_t most_runs = 3;
constexpr std::size_t most_pieces = 4;

class WantsTelling {
public:
  WantsTelling(const ReportInput& input, const WantsReport& report, TextStyle style)
      : kb_(input.kb), report_(report), shelf_(report.shelf), style_(style) {}

  std::string tell() const {
    std::size_t slots = 0;
    std::size_t wishes = 0;
    for (const Wanted& wanted : report_.wanted) {
      slots += wanted.pieces.size();
      wishes += wanted.want ? 1 : 0;
    }
    const std::string who = shelf_.name.empty() ? std::string{} : printable(shelf_.name) + ": ";
    std::string text = wrap(fmt::format("{}{} without a part that may be right after the best swap, {} of your own",
                                        who, counted(slots, "slot"), counted(wishes, "want")),
                            0, style_) +
                       "\n";
    std::size_t lines = 0;
    std::size_t shown = 0;
    for (const Wanted& wanted : report_.wanted) {
      const std::string told = "\n" + block(wanted);
      lines += static_cast<std::size_t>(std::ranges::count(told, '\n'));
      if (!report_.all && lines > most_lines && shown > 0) break;
      text += told;
      ++shown;
    }
    if (report_.wanted.size() > shown)
      text += fmt::format("\nand {} more; --all shows them\n", report_.wanted.size() - shown);
    return text;
  }

private:
  std::string block(const Wanted& wanted) const {
    const std::string head = fmt::format("{:>4}  ", wanted.priority);
    std::string text = head + wrap(wanted.want ? wish(wanted) : gap(wanted), head.size(), style_) + "\n";
    text += runs(wanted);
    if (!wanted.ask.empty()) text += "      ask for  " + wrap(questions(wanted), 15, style_) + "\n";
    return text;
  }

  std::string wish(const Wanted& wanted) const {
    const Want& want = shelf_.wants[*wanted.want];
    const std::string_view what = want.issue       ? kb_.issues[at(*want.issue)].address
                                  : want.figure    ? kb_.figures[at(*want.figure)].id
                                  : want.run       ? kb_.runs[at(*want.run)].address
                                  : want.accessory ? kb_.accessories[at(*want.accessory)].id
                                                   : std::string_view{};
    std::string words = fmt::format("{}: {}", want.id, what);
    if (want.limit) words += fmt::format(", for {} at most", coeval::text(*want.limit));
    if (want.run && wanted.runs.front().pairings > 0)
      words += fmt::format("; {} on record", counted(wanted.runs.front().pairings, "pairing"));
    if (want.issue) words += fmt::format("; `coeval outfit {}` shows what belongs with it", what);
    return words;
  }

  std::string gap(const Wanted& wanted) const {
    std::string pieces;
    const std::size_t shown = std::min(wanted.pieces.size(), report_.all ? wanted.pieces.size() : most_pieces);
    for (std::size_t i = 0; i < shown; ++i)
      pieces += fmt::format("{}{}", i == 0 ? "" : ", ", shelf_[wanted.pieces[i]].id);
    if (wanted.pieces.size() > shown) pieces += fmt::format(" and {} more", wanted.pieces.size() - shown);
    const Issue& issue = kb_.issues[at(wanted.issue)];
    const IssueSlot slot = slots_of(issue)[wanted.slot];
    std::string accessories;
    for (const AccessoryIndex accessory : slot.accessories)
      accessories += fmt::format("{}{}", accessories.empty() ? "" : " or ", kb_.accessories[at(accessory)].id);
    return fmt::format("{}: {} for the slot {} of {}", pieces, accessories, slot.name, issue.address);
  }

  std::string runs(const Wanted& wanted) const {
    if (wanted.want && !shelf_.wants[*wanted.want].accessory) return {}; // the head says it
    if (wanted.runs.empty()) {
      return "      no run of it is entered that could do\n";
    }
    const std::size_t shown = report_.all ? wanted.runs.size() : std::min(wanted.runs.size(), most_runs);
    std::size_t width = 0;
    for (std::size_t i = 0; i < shown; ++i) width = std::max(width, kb_.runs[at(wanted.runs[i].run)].address.size());
    std::string text;
    for (std::size_t i = 0; i < shown; ++i) {
      const WantedRun& run = wanted.runs[i];
      const std::string_view verdict = run.judgement == nullptr ? "" : name(run.judgement->verdict);
      text += trimmed(fmt::format("      {:<{}}  {:<10}{}", kb_.runs[at(run.run)].address, width, verdict,
                                  run.pairings == 0 ? "" : counted(run.pairings, "pairing") + " on record"));
    }
    if (wanted.runs.size() > shown)
      text += fmt::format("      and {}\n", counted(wanted.runs.size() - shown, "more run"));
    return text;
  }

  std::string questions(const Wanted& wanted) const {
    std::string words;
    for (const FeatureIndex index : wanted.ask) {
      const Feature& feature = kb_.features[at(index)];
      words += words.empty() ? "" : "; ";
      words += feature.by == LookBy::photograph ? fmt::format("a photograph: {}", feature.name)
                                                : fmt::format("a measurement: {}", feature.name);
    }
    words += fmt::format("; `coeval ask {}` writes the message", kb_.runs[at(wanted.runs.front().run)].address);
    if (!wanted.want)
      words.insert(words.rfind("` writes"), fmt::format(" --for {}", kb_.issues[at(wanted.issue)].address));
    return words;
  }

  const LinkedKb& kb_;
  const WantsReport& report_;
  const LinkedShelf& shelf_;
  TextStyle style_;
};

} // namespace

std::string wants_text(const ReportInput& input, const WantsReport& report, TextStyle style) {
  return WantsTelling{input, report, style}.tell();
}

} // namespace coeval
