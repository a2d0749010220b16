#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/issue_facts.hpp"
#include "pages/looks.hpp"
#include "pages/matrices.hpp"
#include "pages/paths.hpp"
#include "pages/records.hpp"

namespace coeval {
namespace {

// So many columns of a matrix can be taken in beside each other.
constexpr std::size_t most_columns_beside_facts = 14;

Table issues_table(const Site& site, const Figure& figure) {
  const LinkedKb& kb = site.kb();
  Table table;
  table.caption = "Issues of " + figure.name;
  for (const std::string_view head : {"Issue", "Packed", "Market", "Packed at", "Card", "Offered", "Paint"})
    table.columns.push_back({.text = {plain(std::string{head})}});
  for (const IssueIndex index : figure.issues) {
    const Issue& issue = kb.issues[at(index)];
    const Entry& entry = kb.entries[issue.entry];
    table.rows.push_back({{.text = {link_to(kb, issue.entry)}},
                          {.text = {plain(short_span(site, issue.span))}},
                          {.text = markets_of(kb, issue)},
                          {.text = packer_of(kb, issue)},
                          {.text = cards_of(kb, issue)},
                          {.text = {plain(std::string{entry.text("offer")})}},
                          {.text = {plain(std::string{entry.text("paint")})}}});
  }
  return table;
}

// The accessories that its issues take, in the order in which they are first taken.
std::vector<AccessoryIndex> accessories_of(const LinkedKb& kb, const Figure& figure) {
  std::vector<AccessoryIndex> accessories;
  for (const IssueIndex issue : figure.issues)
    for (const Takes& takes : kb.issues[at(issue)].takes)
      if (std::ranges::find(accessories, takes.accessory) == accessories.end()) accessories.push_back(takes.accessory);
  return accessories;
}

std::vector<Block> matrices(const Site& site, const Figure& figure) {
  const LinkedKb& kb = site.kb();
  Judge judge{kb, site.dates(), Basis::conjectured};
  std::vector<Block> blocks;
  for (const AccessoryIndex accessory : accessories_of(kb, figure)) {
    std::vector<IssueIndex> taking;
    std::ranges::copy_if(figure.issues, std::back_inserter(taking), [&](IssueIndex issue) {
      return std::ranges::any_of(kb.issues[at(issue)].takes,
                                 [&](const Takes& takes) { return takes.accessory == accessory; });
    });
    for (Table& table : verdict_matrices(site, judge, accessory, taking, most_columns_beside_facts))
      blocks.emplace_back(std::move(table));
  }
  if (!blocks.empty())
    blocks.insert(blocks.begin(),
                  Paragraphs{{{plain("Each sign leads to the verdict with its proof. What the signs mean: "),
                               Piece{"the verdicts", "verdicts.html"}, plain(".")}}});
  return blocks;
}

std::vector<Picture> plate(const Site& site, const Figure& figure) {
  const LinkedKb& kb = site.kb();
  std::vector<Picture> pictures = pictures_of(site, figure.entry);
  for (const IssueIndex issue : figure.issues)
    for (Picture& picture : pictures_of(site, kb.issues[at(issue)].entry)) {
      picture.caption = {link_to(kb, kb.issues[at(issue)].entry)};
      pictures.push_back(std::move(picture));
    }
  return pictures;
}

} // namespace

void build_figure(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const Figure& figure = kb.figures[kb.position[at(planned.entry)]];
  const std::string role{kb.entries[planned.entry].text("role")};
  page.eyebrow = singular_of(Kind::figure);
  page.summary = fmt::format("{}{}{}: {}, with their dates, cards, accessories and how each is known.", figure.name,
                             role.empty() ? "" : ", ", role, counted(figure.issues.size(), Kind::issue));

  Facts facts;
  add_fact(facts, "Role", {plain(role)});
  if (figure.line) add_fact(facts, "Line", {link_to(kb, kb.lines[at(*figure.line)].entry)});
  add_fact(facts, "Address", {address_piece(kb, planned.entry)});
  add_fact(facts, "To print", {{"Checklist of its issues", path_of_checklist(kb, planned.entry), false}});
  std::vector<Block> about{std::move(facts)};
  add_notes_and_evidence(site, planned.entry, about);
  add_section(page, "about", {}, std::move(about));

  if (std::vector<Picture> pictures = plate(site, figure); !pictures.empty())
    add_section(page, "plate", {}, {Plate{std::move(pictures)}});

  std::vector<TimelineRow> rows;
  for (const IssueIndex issue : figure.issues) {
    rows.push_back(timeline_row(site, kb.issues[at(issue)].span, true));
    rows.back().label = name_of(kb, kb.issues[at(issue)].entry);
  }
  std::vector<Block> when;
  add_timeline(site, "When the issues of " + figure.name + " were packed", figure.line, std::move(rows), when);
  add_section(page, "when", "When its issues were packed", std::move(when));

  if (figure.issues.empty())
    add_section(page, "issues", "Issues", {paragraphs("No issue of this figure is entered.")});
  else
    add_section(page, "issues", "Issues", {issues_table(site, figure)});
  add_section(page, "matrix", "Its issues against runs", matrices(site, figure));

  if (const auto looks = looks_of(site, planned.entry); !looks.empty())
    add_section(page, "looks", "What can be seen and measured",
                {looks_table(site, "What is stated of " + figure.name, looks)});
  std::vector<EntryIndex> entries;
  for (const IssueIndex issue : figure.issues) entries.push_back(kb.issues[at(issue)].entry);
  add_claims(site, entries, page);
}

} // namespace coeval
