// The page of a period: how long it lasted, which cards and issues fall into it, and what is dated by it.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/spans.hpp"

namespace coeval {
namespace {

enum class Overlap : std::uint8_t { none, possible, certain };

// Do two spans have a day in common?
Overlap overlap_of(Distances& distances, TimeSpanIndex one, TimeSpanIndex other) {
  const auto upper = [&](Point x, Point y) { return distances.upper(x, y, Basis::conjectured); };
  const auto before = [&](TimeSpanIndex early, TimeSpanIndex late) { // early has surely ended when late starts
    const auto gap = upper(end_of(early), start_of(late));
    return gap && *gap < 0;
  };
  if (before(one, other) || before(other, one)) return Overlap::none;
  const auto reaches = [&](TimeSpanIndex early, TimeSpanIndex late) { // early surely starts no later than late ends
    const auto gap = upper(start_of(early), end_of(late));
    return gap && *gap <= 0;
  };
  return reaches(one, other) && reaches(other, one) ? Overlap::certain : Overlap::possible;
}

// What has that line too, or no line either.
const OfLine& all_of_line(const Site& site, std::optional<LineIndex> line) {
  return line ? site.backlinks().of_line[at(*line)] : site.backlinks().of_line.back();
}

std::string own_line(const LinkedKb& kb, std::optional<LineIndex> line) {
  return line ? name_of(kb, kb.lines[at(*line)].entry) : std::string{};
}

void add_within(const Site& site, TimeSpanIndex period, Page& page) {
  const LinkedKb& kb = site.kb();
  Distances distances{site.dates()};
  distances.keep(start_of(period));
  distances.keep(end_of(period));
  const OfLine& same_line = all_of_line(site, kb.spans[at(period)].line);

  List cards{{{"Surely in use for some of it", {}, {}}, {"Perhaps in use for some of it", {}, {}}}};
  for (const CardIndex index : same_line.cards) {
    const Card& card = kb.cards[at(index)];
    const Overlap common = overlap_of(distances, period, card.span);
    if (common == Overlap::none) continue;
    cards.groups[common == Overlap::certain ? 0 : 1].items.push_back(
        {{link_to(kb, card.entry)}, {plain("in use " + short_span(site, card.span))}});
  }
  std::erase_if(cards.groups, [](const List::Group& group) { return group.items.empty(); });
  if (!cards.groups.empty()) add_section(page, "within", "Cards", {std::move(cards)}, "cards");

  std::vector<IssueIndex> certain;
  std::vector<IssueIndex> possible;
  for (const IssueIndex issue : same_line.issues) {
    const Overlap common = overlap_of(distances, period, kb.issues[at(issue)].span);
    if (common != Overlap::none) (common == Overlap::certain ? certain : possible).push_back(issue);
  }
  if (!certain.empty())
    add_section(page, "within", "Issues surely packed in it", {list_of_issues(site, certain)}, "issues");
  if (!possible.empty())
    add_section(page, "within", "Issues perhaps packed in it", {list_of_issues(site, possible)}, "perhaps");
}

} // namespace

void build_period(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const TimeSpanIndex span = *site.backlinks().span[at(planned.entry)];
  const auto line = kb.spans[at(span)].line;
  page.eyebrow = singular_of(Kind::period);
  page.summary =
      fmt::format("{}: a period{}, {}.", page.title, line ? " of " + own_line(kb, line) : "", short_span(site, span));

  Facts facts;
  if (line) add_fact(facts, "Line", {link_to(kb, kb.lines[at(*line)].entry)});
  add_succession(site, planned.entry, facts);
  std::vector<Block> about;
  if (!facts.facts.empty()) about.emplace_back(std::move(facts));
  add_notes_and_evidence(site, planned.entry, about);
  add_section(page, "about", {}, std::move(about));

  std::vector<TimelineRow> others;
  for (const TimeSpanIndex other : all_of_line(site, line).periods)
    if (other != span) others.push_back(timeline_row(site, other, false));
  add_when(site, planned.entry, std::move(others), page);
  add_within(site, span, page);
  add_dated_by_it(site, planned.entry, page);
}

} // namespace coeval
