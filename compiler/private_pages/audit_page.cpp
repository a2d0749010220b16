#include <fmt/format.h>

#include "private_pages/tell.hpp"

namespace coeval {
namespace {

std::string of(std::size_t count, std::size_t all) { return fmt::format("{} of {}", count, all); }

// What is wrong with one piece, a line for each finding.
List::Group findings_of(const PrivatePagesInput& input, const PrivateTeller& tell, const PieceAudit& piece) {
  List::Group group;
  group.title = input.shelf[piece.piece].id;
  group.anchor = "piece." + group.title;
  const auto slot_name = [&](const Finding& finding) {
    return finding.slot ? input.judge.slots(*input.shelf[piece.piece].issue)[*finding.slot].name + ": " : std::string{};
  };
  for (const Finding& finding : piece.findings) {
    Text line{words(fmt::format("{}{}", slot_name(finding), finding_word(finding)))};
    if (finding.part) {
      line.push_back(words(", "));
      const Text part = tell.part(*finding.part);
      line.insert(line.end(), part.begin(), part.end());
    }
    group.items.push_back({std::move(line), {words(finding_reason(input.report, input.audit, piece, finding))}});
  }
  return group;
}

// One row a piece: the worst first, as the audit has them.
Table overview(const PrivatePagesInput& input, const PrivateTeller& tell) {
  Table table;
  table.caption = "Every piece, the worst first";
  table.columns = {{{words("Piece")}}, {{words("Right slots")}}, {{words("What is wrong or open")}}};
  for (const PieceAudit& piece : input.audit.audit.pieces) {
    std::string findings;
    for (const Finding& finding : piece.findings) findings += (findings.empty() ? "" : ", ") + finding_word(finding);
    Text state{words(findings.empty() ? (piece.complete() ? "complete" : "nothing") : findings)};
    if (!findings.empty()) state.front().to = "#piece." + input.shelf[piece.piece].id;
    table.rows.push_back({{tell.piece(piece.piece)},
                          {{words(piece.slots.empty() ? "–" : of(piece.count(SlotState::right), piece.slots.size()))}},
                          {std::move(state)}});
  }
  return table;
}

} // namespace

Page audit_page(const PrivatePagesInput& input) {
  const Audit& audit = input.audit.audit;
  const PrivateTeller tell{input};
  Page page{.path = "index.html", .title = "Audit"};
  std::size_t slots = 0;
  std::size_t with_slots = 0;
  std::size_t complete = 0;
  for (const PieceAudit& piece : audit.pieces) {
    slots += piece.slots.size();
    with_slots += piece.slots.empty() ? 0 : 1;
    complete += piece.complete() ? 1 : 0;
  }
  page.summary =
      fmt::format("What is right on this shelf, what is wrong or missing, and what waits: {} pieces, {} loose parts.",
                  audit.pieces.size(), audit.loose.size());
  Facts facts;
  facts.facts = {{"complete pieces", {words(of(complete, with_slots))}, {}},
                 {"right slots", {words(of(audit.count(SlotState::right), slots))}, {}},
                 {"open", {words(std::to_string(audit.count(SlotState::open)))}, {}},
                 {"wrong", {words(std::to_string(audit.count(SlotState::wrong)))}, {}},
                 {"reproductions", {words(std::to_string(audit.count(SlotState::reproduction)))}, {}},
                 {"empty", {words(std::to_string(audit.count(SlotState::empty)))}, {}}};
  page.sections.push_back({"intro", {}, {}, {std::move(facts)}});
  add_to_list(page, "Pieces", {overview(input, tell)});

  List findings;
  for (const PieceAudit& piece : audit.pieces)
    if (!piece.findings.empty()) findings.groups.push_back(findings_of(input, tell, piece));
  if (!findings.groups.empty()) add_to_list(page, "Findings", {std::move(findings)});

  Table loose;
  loose.caption = "Parts that no piece wears";
  loose.columns = {{{words("Part")}}, {{words("Where it would help most")}}, {{words("Slots that it would help")}}};
  for (const LooseAudit& part : audit.loose) {
    Text best{words("nowhere on this shelf")};
    if (part.best)
      best = {coded(input.shelf[part.best->piece].id),
              words(", " + input.judge.slots(*input.shelf[part.best->piece].issue)[part.best->slot].name)};
    loose.rows.push_back({{tell.part(part.part)}, {std::move(best)}, {{words(std::to_string(part.helped))}}});
  }
  if (!loose.rows.empty()) add_to_list(page, "Loose parts", {std::move(loose)});

  Table parcels;
  parcels.caption = "Purchases on their way, or not examined yet";
  parcels.columns = {{{words("Purchase")}}, {{words("State")}}, {{words("Since")}}, {{words("Not examined")}}};
  for (const ParcelAudit& parcel : audit.parcels)
    parcels.rows.push_back({{{coded(input.shelf[parcel.purchase].id)}},
                            {{words(std::string{name(parcel.state)})}},
                            {{words(iso(parcel.since))}},
                            {{words(std::to_string(parcel.unexamined))}}});
  if (!parcels.rows.empty())
    add_to_list(
        page, "Parcels",
        {Paragraphs{{{words("Examine a parcel when it comes. What was not as described is told to the seller at "
                            "once, with photographs; which rights a buyer has differs by place.")}}},
         std::move(parcels)});
  return page;
}

} // namespace coeval
