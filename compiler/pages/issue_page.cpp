#include <algorithm>

#include <fmt/format.h>

#include "chronology/statements.hpp"
#include "pages/builders.hpp"
#include "pages/issue_facts.hpp"
#include "pages/looks.hpp"
#include "pages/paths.hpp"
#include "pages/records.hpp"

namespace coeval {
namespace {

class IssuePage {
public:
  IssuePage(const Site& site, IssueIndex index, Page& page)
      : site_(site), kb_(site.kb()), index_(index), issue_(kb_.issues[at(index)]), page_(page),
        judge_(kb_, site.dates(), Basis::conjectured), taken_(taken_by(issue_)) {
    for (const Taken& taken : taken_) outfit_.push_back(judge_.outfit(index_, *taken.by.front()));
  }

  void build() {
    page_.eyebrow = singular_of(Kind::issue);
    page_.summary = fmt::format("{}: packed {}; {}.", page_.title, short_span(site_, issue_.span), outfit_words());
    add_about();
    if (std::vector<Picture> pictures = pictures_of(site_, issue_.entry); !pictures.empty())
      add_section(page_, "plate", {}, {Plate{std::move(pictures)}});
    add_when();
    add_outfit();
    add_looks();
    add_pairings(site_, issue_.entry, page_);
    add_claims(site_, {issue_.entry}, page_);
    add_disputed(site_, {issue_.entry}, page_);
  }

private:
  [[nodiscard]] const Entry& entry() const { return kb_.entries[issue_.entry]; }

  [[nodiscard]] std::string outfit_words() const {
    if (taken_.empty()) return issue_.bare ? "sold with no accessory" : "what it was sold with is not entered";
    const auto complete = static_cast<std::size_t>(std::ranges::count_if(
        outfit_, [](const auto& runs) { return !runs.empty() && runs.front().verdict <= Verdict::fits; }));
    return complete == taken_.size() ? "every slot has a run that belongs"
                                     : fmt::format("{} of {} slots {} a run that belongs", complete, taken_.size(),
                                                   complete == 1 ? "has" : "have");
  }

  void add_about() {
    const TimeSpan& span = kb_.spans[at(issue_.span)];
    Facts facts;
    add_fact(facts, "Figure", {link_to(kb_, kb_.figures[at(issue_.figure)].entry)});
    add_fact(facts, "Paint", {plain(std::string{entry().text("paint")})});
    add_fact(facts, "Market", markets_of(kb_, issue_));
    add_fact(facts, "Packed at", packer_of(kb_, issue_));
    if (const auto maker = named_by(kb_, issue_.entry, "maker", Kind::maker))
      add_fact(facts, "Put out by", {link_to(kb_, *maker)});
    add_fact(facts, "Card", cards_of(kb_, issue_));
    add_fact(facts, "Offered", {plain(std::string{entry().text("offer")})});
    add_fact(facts, "Marks", marks_of(kb_, issue_.span));
    if (issue_.reissue_of) add_fact(facts, "Reissue of", {full_link_to(kb_, kb_.issues[at(*issue_.reissue_of)].entry)});
    if (span.replaces) {
      Text text{link_to(kb_, kb_.spans[at(*span.replaces)].entry)};
      if (span.clean) text.push_back(plain(", which had ended before"));
      add_fact(facts, "Followed", std::move(text));
    }
    std::vector<Piece> within;
    for (const auto& [other, where] : span.within) within.push_back(full_link_to(kb_, kb_.spans[at(other)].entry));
    add_fact(facts, "Packed within", enumerated(within));
    add_fact(facts, "Stock kept", stock_kept());
    add_fact(facts, "Address", {address_piece(kb_, issue_.entry)});
    std::vector<Block> about{std::move(facts)};
    add_notes_and_evidence(site_, issue_.entry, about);
    add_section(page_, "about", {}, std::move(about));
  }

  // How long parts for it lay in stock at most, whether it says so itself or its line does.
  [[nodiscard]] Text stock_kept() const {
    const Leftover* leftover = kb_.leftover_of(index_);
    if (leftover == nullptr) return {plain("not known")};
    return {plain(in_words(leftover->at_most) + " at most" + (issue_.leftover ? ", for this issue" : ""))};
  }

  void add_when() {
    std::vector<Block> when{Bounds{{tell_span(site_, issue_.span)}}};
    std::vector<TimelineRow> rows{timeline_row(site_, issue_.span, true)};
    for (const std::vector<Judgement>& runs : outfit_) {
      const auto last = std::ranges::find_if(runs, [](const Judgement& one) { return one.verdict > Verdict::open; });
      if (last == runs.begin()) continue;
      rows.emplace_back(); // a rule between accessories
      for (auto run = runs.begin(); run != last; ++run)
        rows.push_back(timeline_row(site_, kb_.runs[at(run->run)].span, false));
    }
    add_timeline(site_, "When it was packed, and when the runs were made that belong or may belong",
                 kb_.figures[at(issue_.figure)].line, std::move(rows), when);
    add_section(page_, "when", "When it was packed", std::move(when));
  }

  void add_outfit() {
    if (taken_.empty()) {
      add_section(
          page_, "outfit", "Outfit",
          {paragraphs(issue_.bare ? "It was sold with no accessory."
                                  : "What it was sold with is not entered. No verdict can be given on any part: "
                                    "silence is not a no.")});
      return;
    }
    Paragraphs intro = paragraphs(
        "Every run of every accessory that it takes, best first. Each verdict opens to its four grounds and the "
        "statements that prove them; of verdicts worse than open, only the statements of the ground that decides are "
        "shown.");
    std::string words = outfit_words();
    words.front() = words.front() == 'e' ? 'E' : words.front();
    intro.texts.insert(intro.texts.begin(), {plain(words + ".")});
    add_section(page_, "outfit", "Outfit", {std::move(intro)});
    for (std::size_t i = 0; i < taken_.size(); ++i) add_slot(taken_[i], outfit_[i]);
  }

  void add_slot(const Taken& taken, const std::vector<Judgement>& runs) {
    const Accessory& accessory = kb_.accessories[at(taken.accessory)];
    std::vector<Block> blocks;
    for (const Takes* takes : taken.by) blocks.emplace_back(EvidenceBlock{tell_evidence(site_, takes->evidence)});
    for (const EntryIndex child : site_.backlinks().children[at(issue_.entry)])
      if (kb_.entries[child].kind == Kind::takes && std::ranges::any_of(taken.by, [&](const Takes* takes) {
            return takes->evidence.place == kb_.entries[child].place;
          }))
        add_text(site_, child, "notes", blocks);
    Verdicts verdicts;
    for (const Judgement& judgement : runs) verdicts.verdicts.push_back(verdict(judgement.run));
    if (verdicts.verdicts.empty())
      blocks.emplace_back(paragraphs("No run of it is entered."));
    else
      blocks.emplace_back(std::move(verdicts));
    Section section{"outfit",
                    "slot." + accessory.id,
                    {plain(slots_of(taken) + ": "), link_to(kb_, accessory.entry)},
                    std::move(blocks)};
    page_.sections.push_back(std::move(section));
  }

  VerdictView verdict(RunIndex run) {
    const Judgement judgement = judge_.judge(run, index_, true);
    VerdictView view = tell_verdict(site_, judgement, false, true);
    if (judgement.verdict <= Verdict::open) return view;
    const std::vector<Ground> deciding = deciding_grounds(judgement);
    for (GroundView& ground : view.grounds)
      if (std::ranges::find(deciding, ground.ground) == deciding.end()) ground.proof.clear();
    return view;
  }

  void add_looks() {
    if (const auto looks = looks_of(kb_, issue_.entry); !looks.empty())
      add_section(page_, "looks", "What can be seen on the figure",
                  {looks_table(site_, "Stated of this issue", looks)});
    std::vector<Block> blocks;
    for (std::size_t i = 0; i < taken_.size(); ++i)
      if (Table hints = hints_of(taken_[i], outfit_[i]); !hints.rows.empty()) blocks.emplace_back(std::move(hints));
    if (blocks.empty()) return;
    blocks.insert(
        blocks.begin(),
        paragraphs("What none of the runs that belong, or may belong, shows, and others do. A reproduction can "
                   "show any of it."));
    add_section(page_, "looks", "What to look at on its parts", std::move(blocks));
  }

  // Values of a feature as one cell, each once.
  Cell values_of(const std::vector<const FeatureValue*>& values) const {
    Cell cell;
    std::vector<Piece> pieces;
    for (const FeatureValue* value : values) {
      Piece piece = plain(value_words(kb_, *value));
      const auto same = [&](const Piece& other) { return other.text == piece.text; };
      if (std::ranges::none_of(pieces, same)) pieces.push_back(std::move(piece));
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      if (i != 0) cell.text.push_back(plain("; "));
      cell.text.push_back(pieces[i]);
    }
    return cell;
  }

  Table hints_of(const Taken& taken, const std::vector<Judgement>& runs) const {
    struct Shown {
      std::vector<const FeatureValue*> by_good, by_bad;
    };
    std::map<FeatureIndex, Shown> features;
    for (const Judgement& judgement : runs)
      for (const StatedLook& look : looks_of(kb_, kb_.runs[at(judgement.run)].entry)) {
        Shown& shown = features[look.feature];
        (judgement.verdict <= Verdict::open ? shown.by_good : shown.by_bad).push_back(look.value);
      }
    Table table;
    table.kind = Table::Kind::comparison;
    table.caption = kb_.accessories[at(taken.accessory)].name;
    for (const std::string_view head : {"Feature", "On runs that belong or may", "Only on runs that do not"})
      table.columns.push_back({.text = {plain(std::string{head})}});
    for (const auto& [feature, shown] : features) {
      std::vector<const FeatureValue*> telling; // shown by runs that do not belong, and by none of the others
      std::ranges::copy_if(shown.by_bad, std::back_inserter(telling), [&, &good = shown.by_good](const auto* bad) {
        return std::ranges::all_of(good, [&](const auto* value) { return tells_apart(kb_, *value, *bad); });
      });
      if (shown.by_good.empty() || telling.empty() || kb_.features[at(feature)].destructive) continue;
      table.rows.push_back({{.text = {feature_link(kb_, feature)}}, values_of(shown.by_good), values_of(telling)});
    }
    return table;
  }

  const Site& site_;
  const LinkedKb& kb_;
  IssueIndex index_;
  const Issue& issue_;
  Page& page_;
  Judge judge_;
  std::vector<Taken> taken_;
  std::vector<std::vector<Judgement>> outfit_; // of each taken accessory
};

} // namespace

void build_issue(const Site& site, const PlannedPage& planned, Page& page) {
  IssuePage{site, IssueIndex{site.kb().position[at(planned.entry)]}, page}.build();
}

} // namespace coeval
