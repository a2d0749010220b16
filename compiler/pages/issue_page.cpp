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

  // How much of their proofs the verdicts of this page show. A page stays light enough for a phone at a fair.
  enum class Shown : std::uint8_t {
    all_that_may,      // everything for those that belong or may; for the others what decides
    decisive_and_open, // of attested ones, too, only what decides: that they were found together
    decisive           // of open ones no proof, as nothing decides them; of the others that do not belong, one ground
  };
  static constexpr std::size_t most_proof_bytes = 26'000;

  // About how many bytes a step takes as HTML.
  static std::size_t weight(const Step& step) {
    std::size_t bytes = 230 + step.statement.size() + step.place.text.size() + step.place.to.size();
    for (const Text& source : step.sources)
      for (const Piece& piece : source) bytes += 20 + piece.text.size() + piece.to.size();
    return bytes;
  }

  static void trim(VerdictView& view, const std::vector<Ground>& deciding, Shown shown) {
    const bool whole = view.verdict == Verdict::fits ||
                       (view.verdict == Verdict::attested && shown == Shown::all_that_may) ||
                       (view.verdict == Verdict::open && shown != Shown::decisive);
    const auto decides = [&](const GroundView& ground) {
      return std::ranges::find(deciding, ground.ground) != deciding.end();
    };
    for (GroundView& ground : view.grounds)
      if (!whole && !decides(ground)) ground.proof.clear();
    if (view.verdict > Verdict::open && shown == Shown::decisive)
      std::erase_if(view.grounds, [&](const GroundView& ground) { return !decides(ground); });
  }

  // The verdicts of every accessory, their proofs as full as the page can bear.
  std::vector<Verdicts> told_verdicts(Shown& shown) {
    std::vector<Verdicts> all;
    std::vector<std::vector<Ground>> deciding;
    for (const std::vector<Judgement>& runs : outfit_) {
      all.emplace_back();
      for (const Judgement& judgement : runs) {
        VerdictView view = tell_verdict(site_, judge_.judge(judgement.run, index_, true), false, true);
        view.grounds[static_cast<std::size_t>(Ground::place)].proof.clear(); // stands at the head of its slot
        deciding.push_back(deciding_grounds(judgement));
        all.back().verdicts.push_back(std::move(view));
      }
    }
    for (shown = Shown::all_that_may;; shown = static_cast<Shown>(static_cast<int>(shown) + 1)) {
      std::size_t bytes = 0;
      std::size_t number = 0;
      for (Verdicts& verdicts : all)
        for (VerdictView& view : verdicts.verdicts) {
          trim(view, deciding[number++], shown);
          for (const GroundView& ground : view.grounds)
            for (const Step& step : ground.proof) bytes += weight(step);
        }
      if (bytes <= most_proof_bytes || shown == Shown::decisive) return all;
    }
  }

  static std::string_view words_for(Shown shown) {
    switch (shown) {
    case Shown::all_that_may:
      return "Each verdict opens to its four grounds and the statements that prove them; where a run does not belong, "
             "to "
             "those that rule it out.";
    case Shown::decisive_and_open:
      return "Each verdict opens to its four grounds and the statements that decide it, an open one to those of its "
             "grounds that are known.";
    case Shown::decisive:
      return "Each verdict opens to its grounds and the statements that decide it; where a run does not belong, to the "
             "ground that rules it out. Nothing decides an open one: it opens to what would settle it.";
    }
    return {};
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
    Shown shown{};
    std::vector<Verdicts> verdicts = told_verdicts(shown);
    std::string words = outfit_words();
    if (words.front() == 'e') words.front() = 'E';
    Paragraphs intro;
    intro.texts.push_back({plain(words + ".")});
    intro.texts.push_back({plain("Every run of every accessory that it takes, best first. " +
                                 std::string{words_for(shown)} + " What backs a slot stands at its head.")});
    add_section(page_, "outfit", "Outfit", {std::move(intro)});
    for (std::size_t i = 0; i < taken_.size(); ++i) add_slot(taken_[i], std::move(verdicts[i]));
  }

  void add_slot(const Taken& taken, Verdicts verdicts) {
    const Accessory& accessory = kb_.accessories[at(taken.accessory)];
    std::vector<Block> blocks;
    for (const Takes* takes : taken.by) blocks.emplace_back(EvidenceBlock{tell_evidence(site_, takes->evidence)});
    for (const EntryIndex child : site_.backlinks().children[at(issue_.entry)])
      if (kb_.entries[child].kind == Kind::takes && std::ranges::any_of(taken.by, [&](const Takes* takes) {
            return takes->evidence.place == kb_.entries[child].place;
          }))
        add_text(site_, child, "notes", blocks);
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

  void add_looks() {
    if (const auto looks = looks_of(site_, issue_.entry); !looks.empty())
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
  Cell values_of(const std::vector<StatedLook>& values) const {
    Cell cell;
    std::vector<Piece> pieces;
    for (const StatedLook& value : values) {
      Piece piece = plain(look_words(kb_, value));
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
    struct Values {
      std::vector<StatedLook> by_good, by_bad;
    };
    std::map<FeatureIndex, Values> features;
    for (const Judgement& judgement : runs)
      for (const StatedLook& look : looks_of(site_, kb_.runs[at(judgement.run)].entry)) {
        Values& shown = features[look.feature];
        (judgement.verdict <= Verdict::open ? shown.by_good : shown.by_bad).push_back(look);
      }
    Table table;
    table.kind = Table::Kind::comparison;
    table.caption = kb_.accessories[at(taken.accessory)].name;
    for (const std::string_view head : {"Feature", "On runs that belong or may", "Only on runs that do not"})
      table.columns.push_back({.text = {plain(std::string{head})}});
    for (const auto& [feature, shown] : features) {
      std::vector<StatedLook> telling; // shown by runs that do not belong, and by none of the others
      std::ranges::copy_if(
          shown.by_bad, std::back_inserter(telling), [&, &good = shown.by_good](const StatedLook& bad) {
            return std::ranges::all_of(good, [&](const StatedLook& value) { return tells_apart(kb_, value, bad); });
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
