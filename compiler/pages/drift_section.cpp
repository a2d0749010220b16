#include "pages/drift_section.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "drift/telling.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_causes = 40;
constexpr std::size_t most_items = 60;    // of one list
constexpr std::size_t most_written = 400; // bytes of what a curator wrote, in one place

// The entry at an address by its name, linked; where this edition does not hold it, the address.
Piece named(const LinkedKb& kb, const std::string& address) {
  const auto found = kb.addresses.find(address);
  return !found ? Piece{address, {}, true} : full_link_to(kb, *found);
}

class DriftSection {
public:
  DriftSection(const Site& site, const SiteDrift& told) : site_(site), told_(told), drift_(told.drift) {}

  std::vector<Block> blocks() {
    say({plain(capital(totals(drift_)) + ".")});
    for (std::size_t i = 0; i < drift_.causes.size() && i < most_causes; ++i) tell_cause(drift_.causes[i]);
    if (drift_.causes.size() > most_causes)
      say({plain(fmt::format("And {} more causes.", drift_.causes.size() - most_causes))});
    tell_pieces("New", drift_.arrived);
    tell_pieces("Gone", drift_.gone);
    for (const ContradictionChange& change : drift_.contradictions) tell_contradiction(change);
    tell_others();
    return std::move(blocks_);
  }

private:
  static std::string capital(std::string words) {
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
      words.front() = static_cast<char>(words.front() - 'a' + 'A');
    return words;
  }

  void say(Text text) { blocks_.emplace_back(Paragraphs{{std::move(text)}}); }

  // "documented; press-log-kt vol. 6 p. 11; saltmere/cards.toml:12"
  [[nodiscard]] Text backing(const Edit& edit) const {
    Text text;
    const auto part = [&] {
      if (!text.empty()) text.push_back(plain("; "));
    };
    if (edit.basis) text.push_back(plain(std::string{name(*edit.basis)}));
    for (const std::string& citation_text : edit.citations) {
      part();
      append(text, citation(site_.kb(), citation_text));
    }
    part();
    if (edit.after != no_entry) {
      text.push_back(place(site_, edit.place));
    } else { // it stood in a file of the earlier version, which is not published
      const SourceFile& file = told_.before[edit.place.file];
      text.push_back(plain("was in "));
      text.push_back({fmt::format("{}:{}", file.path(), file.position(edit.place.begin).line), {}, true});
    }
    return text;
  }

  static Text sentence(const Edit& edit) {
    Text text;
    for (const Phrase& phrase : tell(edit))
      text.push_back({phrase.written ? shortened(phrase.text, most_written) : phrase.text, {}, phrase.written});
    return text;
  }

  void tell_cause(const CausedChanges& group) {
    List because{{{fmt::format("{} changed because", counted(group.changes)), {}, {}}}};
    for (const EditIndex index : group.cause.edits) {
      const Edit& edit = drift_.edits[static_cast<std::size_t>(index)];
      because.groups.front().items.push_back({sentence(edit), backing(edit)});
    }
    cut(because.groups.front());
    blocks_.emplace_back(std::move(because));
    List changes;
    for (const VerdictTransition& transition : by_transition(group.changes.verdicts)) {
      List::Group& list = changes.groups.emplace_back(List::Group{capital(transition.words), {}, {}});
      for (const ChangedVerdict* change : transition.changes)
        list.items.push_back(
            {{named(site_.kb(), change->question.run), plain(" with "), named(site_.kb(), change->question.issue)},
             note(detail(*change))});
    }
    if (!group.changes.bounds.empty()) {
      List::Group& list = changes.groups.emplace_back(List::Group{"Earliest and latest days", {}, {}});
      for (const BoundChange& change : group.changes.bounds)
        list.items.push_back({{plain(tell(change, site_.kb()))}, {}});
    }
    if (!group.changes.claims.empty()) {
      List::Group& list = changes.groups.emplace_back(List::Group{"Claims", {}, {}});
      for (const ClaimChange& change : group.changes.claims) list.items.push_back({{plain(tell(change))}, {}});
    }
    for (List::Group& list : changes.groups) cut(list);
    blocks_.emplace_back(std::move(changes));
  }

  static Text note(std::string words) { return words.empty() ? Text{} : Text{plain(std::move(words))}; }

  static void cut(List::Group& list) {
    if (list.items.size() <= most_items) return;
    const std::size_t more = list.items.size() - most_items;
    list.items.resize(most_items);
    list.items.push_back({{plain(fmt::format("and {} more", more))}, {}});
  }

  void tell_pieces(std::string title, const std::vector<LonePiece>& pieces) {
    List::Group list{std::move(title), {}, {}};
    for (const LonePiece& piece : pieces)
      list.items.push_back({{named(site_.kb(), piece.address)}, {plain("verdicts: " + counted_verdicts(piece))}});
    add(std::move(list));
  }

  void tell_contradiction(const ContradictionChange& change) {
    if (change.came) return; // an edition has none
    List::Group list{"These statements could not all be true, and no longer stand so", {}, {}};
    for (const Reason& reason : change.reasons)
      list.items.push_back({{plain(reason.statement)}, {plain(std::string{name(reason.basis)})}});
    add(std::move(list));
  }

  void tell_others() {
    List::Group list{"Other edits, which change none of these answers", {}, {}};
    for (const EditIndex index : other_edits(drift_)) {
      const Edit& edit = drift_.edits[static_cast<std::size_t>(index)];
      list.items.push_back({sentence(edit), backing(edit)});
    }
    const std::size_t count = list.items.size();
    if (count == 0) return;
    cut(list);
    blocks_.emplace_back(Details{{plain(counted(count, "other edit"))}, {List{{std::move(list)}}}});
  }

  void add(List::Group list) {
    if (list.items.empty()) return;
    cut(list);
    blocks_.emplace_back(List{{std::move(list)}});
  }

  const Site& site_;
  const SiteDrift& told_;
  const Drift& drift_;
  std::vector<Block> blocks_;
};

} // namespace

void add_drift(const Site& site, const SiteDrift& told, Page& page) {
  add_section(page, "list", told.title, DriftSection{site, told}.blocks(), told.anchor);
}

} // namespace coeval
