// One page of HTML. Every text goes through Markup, which escapes it, so nothing that a curator, a seller or the user
// wrote can become markup. What would not fit on a sheet of paper is cut, and the page says so.
#include <algorithm>

#include <fmt/format.h>

#include "examine/words.hpp"
#include "report/examine.hpp"

namespace coeval {
namespace {

// Together they fill a sheet of A4 and no more, in the type below.
constexpr std::size_t most_seen = 7;
constexpr std::size_t most_candidates = 8;
constexpr std::size_t most_reasons = 3;
constexpr std::size_t most_looks = 3;
constexpr std::size_t most_to_settle = 2;
// Bytes of one text, of one in a table or heading, and of a list of candidates.
constexpr std::size_t most_text = 140;
constexpr std::size_t most_in_cell = 44;
constexpr std::size_t most_in_list = 330;

constexpr std::string_view style = R"(
@page { size: A4; margin: 12mm 14mm }
body { font: 8.5pt/1.25 sans-serif; color: #111; background: #fff; max-width: 182mm; margin: 1em auto }
h1 { font-size: 14pt; margin: 0 0 1mm }
h2 { font-size: 10pt; margin: 2.5mm 0 1mm; border-bottom: 1px solid #555 }
p, ul, ol { margin: 0.5mm 0 }
table { border-collapse: collapse; width: 100%; table-layout: fixed }
th, td { text-align: left; vertical-align: top; padding: 0.5mm 2mm 0.5mm 0; border-bottom: 1px solid #ccc;
  overflow-wrap: anywhere }
th:last-child { width: 14% }
.answer { font-weight: bold }
.address { font-family: monospace; overflow-wrap: anywhere }
.reply { border: 1px solid #555; height: 14mm; padding: 1mm }
small { font-size: 8pt }
@media print { body { margin: 0; max-width: none } }
)";

class Markup {
public:
  // Control characters have no place in HTML, and what turns the direction of text could disguise it: `printable` shows
  // both.
  Markup& text(std::string_view plain, std::size_t most = most_text) {
    for (const char c : printable(shortened(plain, most))) {
      switch (c) {
      case '&':
        html_ += "&amp;";
        break;
      case '<':
        html_ += "&lt;";
        break;
      case '>':
        html_ += "&gt;";
        break;
      case '"':
        html_ += "&quot;";
        break;
      default:
        html_ += c;
      }
    }
    return *this;
  }
  // Names of elements and classes are this file's own.
  Markup& open(std::string_view element, std::string_view of_class = {}) {
    html_ += of_class.empty() ? fmt::format("<{}>", element) : fmt::format("<{} class=\"{}\">", element, of_class);
    return *this;
  }
  Markup& close(std::string_view element) {
    html_ += fmt::format("</{}>", element);
    return *this;
  }
  Markup& line(std::string_view element, std::string_view plain, std::string_view of_class = {}) {
    open(element, of_class).text(plain).close(element);
    html_ += '\n';
    return *this;
  }
  Markup& verbatim(std::string_view html) {
    html_ += html;
    return *this;
  }
  [[nodiscard]] std::string finish() && { return std::move(html_); }

private:
  static std::string shortened(std::string_view plain, std::size_t most) {
    if (plain.size() <= most) return std::string{plain};
    std::size_t end = most;
    while (end > 0 && (static_cast<unsigned char>(plain[end]) & 0xC0U) == 0x80U) --end; // not inside a character
    return std::string{plain.substr(0, end)} + "…";
  }

  std::string html_;
};

void more(Markup& page, std::size_t all, std::size_t shown) {
  if (all > shown) page.line("p", fmt::format("and {} more", all - shown));
}

void list_candidates(Markup& page, const FeatureTable& table, const std::vector<std::size_t>& candidates) {
  page.open("p");
  std::size_t shown = 0;
  std::size_t bytes = 0;
  for (; shown < candidates.size() && shown < most_candidates && bytes < most_in_list; ++shown) {
    const Candidate& candidate = table.candidates[candidates[shown]];
    const std::string_view address = address_of(*table.kb, candidate);
    bytes += address.size();
    page.text(shown == 0 ? "" : "; ").open("span", "address").text(address).close("span");
    if (!candidate.original()) page.text(" (reproduction)");
  }
  page.close("p").verbatim("\n");
  more(page, candidates.size(), shown);
}

void seen_table(Markup& page, const ExamineReport& report) {
  if (report.seen.empty()) {
    page.line("p", "Nothing was looked at yet.");
    return;
  }
  page.verbatim("<table>\n<thead><tr><th scope=\"col\">look</th><th scope=\"col\">seen or measured</th>"
                "<th scope=\"col\">as claimed</th><th scope=\"col\">agrees?</th></tr></thead>\n<tbody>\n");
  for (std::size_t i = 0; i < report.seen.size() && i < most_seen; ++i) {
    const Observation& seen = report.seen[i];
    const std::string stated = stated_of(report.table, report.claimed, seen);
    page.open("tr").open("td").text(report.table.feature(at(seen.feature)).name, most_in_cell).close("td");
    page.open("td").text(seen.text, most_in_cell).close("td");
    page.open("td").text(stated.empty() ? std::string_view{"–"} : std::string_view{stated}, most_in_cell).close("td");
    page.open("td").text(stand_words(report.outcome.stands[report.claimed], i)).close("td").close("tr").verbatim("\n");
  }
  page.verbatim("</tbody>\n</table>\n");
  more(page, report.seen.size(), most_seen);
}

void marks_seen(Markup& page, const ReportInput& input, const MarksFound& found) {
  if (found.marks.empty()) return;
  page.open("ul").verbatim("\n");
  for (std::size_t i = 0; i < found.marks.size(); ++i) {
    page.open("li")
        .text("carries ")
        .open("span", "address")
        .text(carried_words(input.kb, found.marks[i]))
        .close("span");
    if (found.of_claimed[i]) page.text(": the run was " + ruling_words(input.kb, *found.of_claimed[i]));
    const Entry& entry = input.kb.entries[input.kb.marks[at(found.marks[i].mark)].entry];
    if (const std::string_view caution = entry.text("caution"); !caution.empty())
      page.text(". Careful: ").text(caution);
    page.close("li").verbatim("\n");
  }
  page.close("ul").verbatim("\n");
}

void answer(Markup& page, const ExamineReport& report) {
  const FeatureTable& table = report.table;
  switch (report.conclusion.answer) {
  case ClaimAnswer::consistent:
    page.line("p",
              "Consistent with what is claimed: nothing else that is entered is left that a look could tell from it.",
              "answer");
    break;
  case ClaimAnswer::excluded:
    page.line("p", "Not what is claimed: what was seen rules it out.", "answer");
    break;
  case ClaimAnswer::undecided:
    page.line("p", "Undecided: what was seen does not tell it from what else is left.", "answer");
    break;
  }
  if (lacks_reproductions(table)) page.line("p", "No reproduction is entered, so none was ruled out.");
  if (report.conclusion.answer == ClaimAnswer::excluded) {
    page.line("p", report.outcome.left.empty() ? "Nothing that is entered fits." : "What fits instead:");
    if (!report.outcome.left.empty()) list_candidates(page, table, report.outcome.left);
    return;
  }
  if (!report.conclusion.others.empty()) {
    page.line("p", "It could also be:");
    list_candidates(page, table, report.conclusion.others);
  }
  if (!report.conclusion.alike.empty()) {
    page.line("p", "No look that is entered is sure to tell it from:");
    list_candidates(page, table, report.conclusion.alike);
  }
}

void belonging(Markup& page, const ReportInput& input, const Judgement& judgement) {
  page.line("h2", "Does such a run belong with the figure?");
  page.open("p").open("strong").text(name(judgement.verdict)).close("strong").text(" with ");
  page.open("span", "address").text(input.kb.issues[at(judgement.issue)].address).close("span");
  if (const std::string gap = gap_words(judgement); !gap.empty()) page.text(": " + gap);
  page.close("p").verbatim("\n");
  std::vector<const Reason*> reasons;
  for (const Ground ground : deciding_grounds(judgement))
    for (const Reason& reason : judgement.ground(ground).proof) reasons.push_back(&reason);
  if (!reasons.empty()) {
    page.open("ol").verbatim("\n");
    for (std::size_t i = 0; i < reasons.size() && i < most_reasons; ++i) {
      std::string backing = reasons[i]->definition ? std::string{} : fmt::format(" ({}", name(reasons[i]->basis));
      for (const std::string& source : reasons[i]->sources) backing += "; " + source;
      if (!backing.empty()) backing += ")";
      page.open("li").text(reasons[i]->statement).text(backing).close("li").verbatim("\n");
    }
    page.close("ol").verbatim("\n");
    more(page, reasons.size(), most_reasons);
  }
  for (std::size_t i = 0; i < judgement.would_settle.size() && i < most_to_settle; ++i)
    page.line("p", "To find out: " + judgement.would_settle[i]);
  more(page, judgement.would_settle.size(), most_to_settle);
}

void open_questions(Markup& page, const ExamineReport& report) {
  if (report.outcome.next.empty()) return;
  page.line("h2", "What would tell, and is open");
  page.open("ul").verbatim("\n");
  for (std::size_t i = 0; i < report.outcome.next.size() && i < most_looks; ++i) {
    const Feature& feature = report.table.feature(at(report.outcome.next[i].feature));
    page.open("li").open("strong").text(feature.name, most_in_cell).close("strong").text(": ");
    page.text(how_to_look(*report.table.kb, feature));
    if (const std::string_view caution = report.table.kb->entries[feature.entry].text("caution"); !caution.empty())
      page.text(" Careful: ").text(caution);
    page.close("li").verbatim("\n");
  }
  page.close("ul").verbatim("\n");
}

} // namespace

std::string second_opinion_sheet(const ReportInput& input, const ExamineReport& report) {
  const LinkedKb& kb = input.kb;
  const Candidate& claimed = report.table.candidates[report.claimed];
  const std::string title = "Second opinion: " + kb.accessories[at(accessory_of(kb, claimed))].name;
  Markup page;
  page.verbatim(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
  page.open("title").text(title, most_in_cell).close("title").verbatim("\n");
  page.verbatim("<style>").verbatim(style).verbatim("</style>\n</head>\n<body>\n<main>\n");
  page.open("h1").text(title, most_in_cell).close("h1").verbatim("\n");
  page.open("p").text("Offered as ").open("span", "address").text(address_of(kb, claimed)).close("span");
  if (const std::string_view colour = colour_name(kb, kb.runs[at(std::get<RunIndex>(claimed.what))].entry);
      !colour.empty())
    page.text(fmt::format(", {}", colour));
  if (report.with)
    page.text(", for ").open("span", "address").text(kb.issues[at(report.with->issue)].address).close("span");
  page.close("p").verbatim("\n");
  page.line("h2", "What was seen");
  seen_table(page, report);
  marks_seen(page, input, report.marks);
  page.line("h2", "What follows");
  answer(page, report);
  if (report.with) belonging(page, input, *report.with);
  open_questions(page, report);
  page.line("h2", "Your opinion");
  page.line("div", "Name, date, and what you would look at:", "reply");
  page.line("h2", "Cautions");
  page.open("ul").verbatim("\n");
  for (const std::string_view caution : cautions()) page.open("li").line("small", caution).close("li").verbatim("\n");
  page.close("ul").verbatim("\n</main>\n</body>\n</html>\n");
  return std::move(page).finish();
}

} // namespace coeval
