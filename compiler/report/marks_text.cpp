#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "calendar/duration.hpp"
#include "report/marks.hpp"
#include "report/text_parts.hpp"

namespace coeval {
namespace {

std::string_view country_or_jurisdiction(const Entry& mark) {
  if (const std::string_view words = mark.text("jurisdiction"); !words.empty()) return words;
  const auto* country = mark.get<Words>("country");
  return country == nullptr ? std::string_view{} : std::string_view{country->front().text};
}

std::string line(std::string_view label, std::string_view text, TextStyle style) {
  return text.empty() ? std::string{} : fmt::format("    {:<9} {}\n", label, wrap(text, 14, style));
}

std::string heading_of(const Dating& dating, TextStyle style) {
  std::string text;
  Tone tone = Tone::yes;
  const auto& all = dating.marks;
  if (!dating.clashes.empty()) {
    text = "CONTRADICTORY";
    tone = Tone::no;
  } else if (dating.earliest && dating.latest) {
    text = fmt::format("BETWEEN {} AND {}", iso(*all[*dating.earliest].earliest.day),
                       iso(*all[*dating.latest].latest.day));
  } else if (dating.earliest) {
    text = fmt::format("NO EARLIER THAN {}", iso(*all[*dating.earliest].earliest.day));
  } else if (dating.latest) {
    text = fmt::format("NO LATER THAN {}", iso(*all[*dating.latest].latest.day));
  } else {
    text = "UNDATED";
    tone = Tone::open;
  }
  return toned(text, tone, style);
}

// What one mark says, in one line.
std::string says(const LinkedKb& kb, const MarkDating& own) {
  std::vector<std::string> parts;
  if (own.earliest.day) parts.push_back(fmt::format("no earlier than {}", iso(*own.earliest.day)));
  if (own.latest.day) parts.push_back(fmt::format("no later than {}", iso(*own.latest.day)));
  if (own.below_first_number)
    parts.emplace_back("nothing is entered about so low a number, so nothing follows from it");
  if (kb.marks[at(own.mark.mark)].reading == ReadingKind::number && own.read_first && own.read_last)
    parts.push_back(
        fmt::format("the number was given out between {} and {}", iso(*own.read_first), iso(*own.read_last)));
  if (!own.latest.day && own.last_use)
    parts.push_back(fmt::format("gone by {}, which does not bind what carries it", iso(*own.last_use)));
  if (parts.empty()) return "does not date what carries it";
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : "; ") + part;
  return text;
}

std::string evidence_table(const ReportInput& input, const Dating& dating) {
  const auto day = [](const std::optional<Day>& value) { return value ? iso(*value) : std::string{"-"}; };
  std::string text = fmt::format("  {:<26}{:<14}{}\n", "on this evidence", "earliest", "latest");
  for (const Basis basis : all_bases) {
    if (basis > input.weakest) break;
    const DayBounds& bounds = dating.by_basis[static_cast<std::size_t>(basis)];
    text += fmt::format("  {:<26}{:<14}{}\n",
                        basis == Basis::documented ? "documented" : fmt::format("{} or stronger", name(basis)),
                        day(bounds.earliest), day(bounds.latest));
  }
  return text;
}

} // namespace

std::string_view bounds_caution() {
  return "Every date here is a bound and not the day of making: a mould keeps an old mark, printed stock is used up, "
         "and "
         "that a mark is absent proves nothing.";
}

std::vector<MarkIndex> marks_of_kind(const LinkedKb& kb, std::string_view kind) {
  const std::vector<std::string_view>& kinds = spec_of(Kind::mark).find("kind")->choices;
  const auto key = [&](MarkIndex mark) {
    const Entry& entry = kb.entries[kb.marks[at(mark)].entry];
    return std::tuple{std::ranges::find(kinds, entry.text("kind")) - kinds.begin(), std::string_view{entry.id}};
  };
  std::vector<MarkIndex> marks;
  for (std::size_t i = 0; i < kb.marks.size(); ++i)
    if (kind.empty() || kb.entries[kb.marks[i].entry].text("kind") == kind)
      marks.push_back(MarkIndex{static_cast<std::uint32_t>(i)});
  std::ranges::sort(marks, {}, key);
  return marks;
}

std::string marks_text(const ReportInput& input, const Chronology& dates, const std::vector<MarkIndex>& marks,
                       TextStyle style) {
  std::string text;
  std::optional<std::string_view> kind;
  for (const MarkIndex mark : marks) {
    const Entry& entry = input.kb.entries[input.kb.marks[at(mark)].entry];
    if (kind != entry.text("kind")) {
      kind = entry.text("kind");
      text += fmt::format("{}{}\n", text.empty() ? "" : "\n", kind->empty() ? "of no kind" : *kind);
    }
    text += fmt::format("\n  {}   {}\n", entry.id, printable(entry.text("name")));
    text += line("reads", entry.text("text"), style);
    text += line("where", entry.text("where"), style);
    text += line("whose", country_or_jurisdiction(entry), style);
    text += line("dates", dating_sentences(input.kb, dates, mark, input.weakest), style);
    text += line("caution", entry.text("caution"), style);
  }
  if (marks.empty()) return "no mark is entered\n";
  return text + "\n" + wrap(bounds_caution(), 0, style) + "\n";
}

std::string dated_text(const ReportInput& input, const Dating& dating, TextStyle style) {
  const LinkedKb& kb = input.kb;
  std::string text = heading_of(dating, style);
  std::string with;
  for (const MarkDating& own : dating.marks) with += (with.empty() ? "" : ", ") + carried_words(kb, own.mark);
  text += "   " + wrap("with " + with, 3, style) + "\n";
  const auto words_of = [&](std::size_t mark) { return carried_words(kb, dating.marks[mark].mark); };
  for (const MarkClash& clash : dating.clashes)
    text += "\n" +
            wrap(clash.early == clash.late
                     ? fmt::format("nothing carries {}: it was gone at least {} before what it reads, because",
                                   words_of(clash.early), at_least_words(clash.gap))
                     : fmt::format("nothing carries both: {} was gone at least {} before {}, because",
                                   words_of(clash.early), at_least_words(clash.gap), words_of(clash.late)),
                 0, style) +
            "\n" + render_reasons(clash.proof, input.sources, style);
  text += "\n" + evidence_table(input, dating);
  if (dating.clashes.empty()) {
    if (dating.earliest)
      text += fmt::format("\nno earlier than {} for {}, because\n", iso(*dating.marks[*dating.earliest].earliest.day),
                          words_of(*dating.earliest)) +
              render_reasons(dating.marks[*dating.earliest].earliest.proof, input.sources, style);
    else
      text += "\nnothing says how early\n";
    if (dating.latest)
      text += fmt::format("\nno later than {} for {}, because\n", iso(*dating.marks[*dating.latest].latest.day),
                          words_of(*dating.latest)) +
              render_reasons(dating.marks[*dating.latest].latest.proof, input.sources, style);
    else
      text += "\nnothing says how late\n";
  }
  text += "\nwhat each says by itself, and what it does not prove\n";
  for (const MarkDating& own : dating.marks) {
    const Entry& entry = kb.entries[kb.marks[at(own.mark.mark)].entry];
    text += "  " + wrap(fmt::format("{}: {}", carried_words(kb, own.mark), says(kb, own)), 4, style) + "\n";
    if (!entry.text("caution").empty()) text += "    " + wrap(entry.text("caution"), 4, style) + "\n";
  }
  return text + "\n" + wrap(bounds_caution(), 0, style) + "\n";
}

} // namespace coeval
