#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/issue_facts.hpp"
#include "pages/paths.hpp"

namespace coeval {
namespace {

// A box for the figure itself, then one for each slot.
Checklist::Group boxes(const LinkedKb& kb, const Issue& issue, Text title) {
  Checklist::Group group{std::move(title), {}};
  group.items.push_back({{plain("figure")}, std::string{kb.entries[issue.entry].text("paint")}});
  for (const Takes& takes : issue.takes)
    group.items.push_back({{plain(takes.slot + ": "), link_to(kb, kb.accessories[at(takes.accessory)].entry)}, {}});
  return group;
}

// The runs that would do, or may: attested, fits and open.
std::string runs_that_do(const Site& site, Judge& judge, IssueIndex issue, const Takes& takes) {
  std::string words;
  std::optional<Verdict> told;
  for (const Judgement& judgement : judge.outfit(issue, takes)) {
    if (judgement.verdict > Verdict::open) break;
    if (told != judgement.verdict)
      words += fmt::format("{}{}: ", words.empty() ? "" : "; ", name(judgement.verdict));
    else
      words += " / ";
    told = judgement.verdict;
    words += run_name_of(site.kb(), judgement.run);
  }
  return words.empty() ? "no run on record belongs" : words;
}

void add_figure(const Site& site, const Figure& figure, Checklist& checklist) {
  const LinkedKb& kb = site.kb();
  Judge judge{kb, site.dates(), Basis::conjectured};
  for (const IssueIndex index : figure.issues) {
    const Issue& issue = kb.issues[at(index)];
    Checklist::Group group = boxes(kb, issue, {link_to(kb, issue.entry), plain(", " + short_span(site, issue.span))});
    for (std::size_t i = 0; i < issue.takes.size(); ++i)
      group.items[i + 1].note = runs_that_do(site, judge, index, issue.takes[i]);
    checklist.groups.push_back(std::move(group));
  }
}

void add_line(const Site& site, LineIndex line, Checklist& checklist) {
  const LinkedKb& kb = site.kb();
  for (const FigureIndex figure : site.backlinks().of_line[at(line)].figures)
    for (const IssueIndex index : kb.figures[at(figure)].issues)
      checklist.groups.push_back(boxes(kb, kb.issues[at(index)], {full_link_to(kb, kb.issues[at(index)].entry)}));
}

} // namespace

void build_checklist(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const bool of_line = kb.entries[planned.entry].kind == Kind::line;
  const std::string name = name_of(kb, planned.entry);
  Checklist checklist;
  if (of_line)
    add_line(site, LineIndex{kb.position[at(planned.entry)]}, checklist);
  else
    add_figure(site, kb.figures[kb.position[at(planned.entry)]], checklist);
  page.eyebrow = "Checklist";
  page.summary = fmt::format("{}: {} with a box for every slot, to print and tick.", name,
                             counted(checklist.groups.size(), Kind::issue));
  add_section(
      page, "intro", {},
      {paragraphs(of_line ? "A box for every issue and for each of its slots. The checklist of a figure, from its "
                            "page, names the runs that would do."
                          : "A box for every issue and for each of its slots, with the runs that would do: those "
                            "found with it (attested), those proven possible (fits), and those that are neither "
                            "proven nor ruled out (open).")});
  if (checklist.groups.empty())
    add_section(page, "checklist", {}, {paragraphs("No issue is entered.")});
  else
    add_section(page, "checklist", "To tick", {std::move(checklist)});
  add_section(page, "more", "See also",
              {List{{{{},
                      {},
                      {{{link_to(kb, planned.entry)}, {}},
                       {{{"Verdicts", "verdicts.html", false}}, {plain("what the words mean")}}}}}}});
}

} // namespace coeval
