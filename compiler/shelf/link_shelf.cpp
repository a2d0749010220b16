#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "examine/table.hpp"
#include "links/find.hpp"
#include "links/readings.hpp"
#include "shelf/fee_tables.hpp"
#include "shelf/part_fit.hpp"
#include "shelf/shelf.hpp"
#include "swap/swap.hpp"

namespace coeval {
namespace {

// The key's one address in the knowledge base or on the shelf.
const Word* address_in(const Entry& entry, std::string_view key) {
  const auto* words = entry.get<Words>(key);
  return words == nullptr || words->empty() ? nullptr : &words->front();
}

template <class Type> std::optional<Type> optional_of(const Entry& entry, std::string_view key) {
  const Type* value = entry.get<Type>(key);
  if (value == nullptr) return {};
  return *value;
}
std::optional<Day> day_of(const Entry& entry, std::string_view key) {
  const auto* day = entry.get<CalendarDay>(key);
  if (day == nullptr) return {};
  return day->day;
}
std::int64_t weight_of(const Entry& entry, std::string_view key) {
  return optional_of<std::int64_t>(entry, key).value_or(1);
}
Words words_of(const Entry& entry, std::string_view key) { return optional_of<Words>(entry, key).value_or(Words{}); }

// Addresses of the knowledge base as a shelf writes them: whole, or a tail that only one entry has. A shelf names the
// same few things again and again, so each is looked up once.
class KbAddresses {
public:
  KbAddresses(const LinkedKb& kb, Diagnostics& out) : kb_(kb), out_(out) {}

  template <class Index> std::optional<Index> find(const Entry& entry, std::string_view key, Kind kind) {
    const Word* word = address_in(entry, key);
    if (word == nullptr) return {};
    return find<Index>(*word, kind);
  }
  template <class Index> std::optional<Index> find(const Word& word, Kind kind) {
    const auto [known, fresh] = known_.try_emplace({kind, word.text});
    if (fresh) known->second = find_entry(kb_, word.text, {&kind, 1});
    const Found& found = known->second;
    if (found.matches.size() == 1) return Index{kb_.position[at(found.matches.front())]};
    report(word, kind, found);
    return {};
  }

private:
  void report(const Word& word, Kind kind, const Found& found) {
    Diagnostic wrong;
    wrong.place = word.place;
    const std::string_view noun = spec_of(kind).name;
    if (!found.matches.empty()) {
      wrong.code = Code::ambiguous_address;
      wrong.message = fmt::format("`{}` could be any of {} entries", word.text, found.matches.size());
      std::vector<std::string_view> names;
      for (const EntryIndex match : found.matches)
        if (names.size() < 5) names.push_back(kb_.address(match));
      wrong.help = fmt::format("write more of the address: {}", list_names(names));
    } else if (!found.other.empty()) {
      wrong.code = Code::wrong_kind;
      wrong.message =
          fmt::format("`{}` is {} and not {}", word.text,
                      with_article(spec_of(kb_.entries[found.other.front()].kind).name), with_article(noun));
      wrong.help = fmt::format("give the address of {}; `coeval list {}` shows them", with_article(noun), noun);
    } else {
      wrong.code = Code::unknown_address;
      wrong.message = fmt::format("the knowledge base has no {} `{}`", noun, word.text);
      const std::vector<std::string_view> near(found.near.begin(), found.near.end());
      wrong.help = near.empty() ? fmt::format("`coeval list {}` shows what it has", noun) : did_you_mean(near);
    }
    out_.report(std::move(wrong));
  }

  const LinkedKb& kb_;
  Diagnostics& out_;
  std::map<std::pair<Kind, std::string>, Found> known_;
};

// What parts of an accessory, or of a slot, can be: made once for each.
class Identities {
public:
  explicit Identities(const LinkedKb& kb) : kb_(kb) {}

  // Those of `among`, in its order, that nothing observed excludes.
  static std::vector<PartIdentity> left(const LinkedKb& kb, const std::vector<Candidate>& among,
                                        const std::vector<Observation>& seen,
                                        const std::optional<SeenColour>& figure_colour) {
    std::vector<PartIdentity> identities;
    if (seen.empty()) {
      for (const Candidate& candidate : among) identities.push_back(candidate.what);
      return identities;
    }
    const FeatureTable table = tabulate(kb, among, figure_colour);
    Question question;
    question.most_next = 0;
    for (const std::size_t index : examine(table, seen, question).left) identities.push_back(among[index].what);
    return identities;
  }

  const std::vector<Candidate>& of(AccessoryIndex accessory) {
    const auto [known, fresh] = by_accessory_.try_emplace(accessory);
    if (fresh) known->second = candidates_of(kb_, accessory);
    return known->second;
  }
  const std::vector<Candidate>& in(const std::string& slot) {
    const auto [known, fresh] = by_slot_.try_emplace(slot);
    if (fresh) known->second = candidates_in_slot(kb_, slot);
    return known->second;
  }

private:
  const LinkedKb& kb_;
  std::map<AccessoryIndex, std::vector<Candidate>> by_accessory_;
  std::map<std::string, std::vector<Candidate>> by_slot_;
};

class ShelfLinker {
public:
  ShelfLinker(LinkedShelf& shelf, const LinkedKb& kb, Diagnostics& out)
      : shelf_(shelf), kb_(kb), out_(out), addresses_(kb, out), identities_(kb) {}

  void link() {
    gather_ids();
    each(Kind::shelf, [this](EntryIndex, const Entry& entry) {
      shelf_.name = entry.text("name");
      shelf_.home = optional_of<Currency>(entry, "home");
    });
    each(Kind::purchase, [this](EntryIndex index, const Entry& entry) { link_purchase(index, entry); });
    each(Kind::piece, [this](EntryIndex index, const Entry& entry) { link_piece(index, entry); });
    each(Kind::part, [this](EntryIndex index, const Entry& entry) { link_part(index, entry); });
    each(Kind::want, [this](EntryIndex index, const Entry& entry) { link_want(index, entry); });
    each(Kind::rate, [this](EntryIndex index, const Entry& entry) { link_rate(index, entry); });
    each(Kind::sale, [this](EntryIndex index, const Entry& entry) { link_sale(index, entry); });
    each(Kind::certificate, [this](EntryIndex index, const Entry& entry) { link_certificate(index, entry); });
    each(Kind::voucher, [this](EntryIndex index, const Entry& entry) {
      if (const auto purchase = purchases_.find(entry.parent); purchase != purchases_.end())
        shelf_.purchases[at(purchase->second)].vouchers.push_back(index);
    });
    shelf_.fees = read_fee_tables(shelf_.entries, out_);
    std::ranges::stable_sort(shelf_.rates, {}, &Quotation::on);
    std::ranges::stable_sort(shelf_.sales, {}, &Sale::on);
    check_size();
  }

private:
  template <class Work> void each(Kind kind, const Work& work) {
    for (std::size_t i = 0; i < shelf_.entries.entries.size(); ++i)
      if (const Entry& entry = shelf_.entries.entries[i]; entry.kind == kind && !entry.broken)
        work(EntryIndex{static_cast<std::uint32_t>(i)}, entry);
  }

  Diagnostic& report(Code code, Span place, std::string message, std::string help) {
    Diagnostic& wrong = pending_.emplace_back();
    wrong.code = code;
    wrong.place = place;
    wrong.message = std::move(message);
    wrong.help = std::move(help);
    return wrong;
  }

  // Every id names one thing on the shelf, of whatever kind: people say "lantern-3" and no more.
  void gather_ids() {
    for (std::size_t i = 0; i < shelf_.entries.entries.size(); ++i) {
      const Entry& entry = shelf_.entries.entries[i];
      if (entry.id.empty()) continue;
      const auto [first, fresh] = ids_.emplace(entry.id, EntryIndex{static_cast<std::uint32_t>(i)});
      if (!fresh)
        report(Code::duplicate_id, entry.place, fmt::format("there are two things `{}` on the shelf", entry.id),
               "give one of them another id")
            .labels.push_back({shelf_.entries[first->second].place, "first used here"});
    }
    flush();
  }

  // The thing of that kind on the shelf; its position among the things of its kind that could be read.
  template <class Index>
  std::optional<Index> on_shelf(const Entry& entry, std::string_view key, const std::map<EntryIndex, Index>& of_kind,
                                std::string_view noun) {
    const Word* word = address_in(entry, key);
    if (word == nullptr) return {};
    const auto named = ids_.find(word->text);
    if (named != ids_.end()) {
      const auto found = of_kind.find(named->second);
      if (found != of_kind.end()) return found->second;
      const Entry& other = shelf_.entries[named->second];
      if (spec_of(other.kind).name == noun) return {}; // broken, and reported already
      report(
          Code::wrong_kind, word->place,
          fmt::format("`{}` is {} and not {}", word->text, with_article(spec_of(other.kind).name), with_article(noun)),
          fmt::format("give the id of {}", with_article(noun)));
    } else {
      std::vector<std::string_view> names;
      for (const auto& [index, position] : of_kind) names.push_back(shelf_.entries[index].id);
      const auto near = near_names(word->text, names);
      report(Code::unknown_address, word->place, fmt::format("the shelf has no {} `{}`", noun, word->text),
             near.empty() ? fmt::format("add a [[{}]] with this id, or mend the id", noun) : did_you_mean(near));
    }
    flush();
    return {};
  }

  void check_size() {
    std::size_t slots = 0;
    std::map<IssueIndex, std::size_t> slots_by_issue; // many pieces are of one issue
    for (const OwnedPiece& piece : shelf_.pieces) {
      if (!piece.issue) continue;
      const auto [known, fresh] = slots_by_issue.try_emplace(*piece.issue);
      if (fresh) known->second = slots_of(kb_.issues[at(*piece.issue)]).size();
      slots += known->second;
    }
    const auto check = [this](std::size_t count, std::string_view noun, EntryIndex last) {
      if (count > most_swapped)
        report(Code::shelf_too_large, shelf_.entries[last].place,
               fmt::format("{} are more than the {} among which swaps are sought", counted(count, noun), most_swapped),
               "keep the shelf in several files");
    };
    if (!shelf_.pieces.empty()) check(slots, "slot", shelf_.pieces.back().entry);
    if (!shelf_.parts.empty()) check(shelf_.parts.size(), "part", shelf_.parts.back().entry);
    flush();
  }

  Received received(const Entry& entry) {
    return {.condition = optional_of<Condition>(entry, "condition"),
            .disclosed = words_of(entry, "disclosed"),
            .found = words_of(entry, "found"),
            .examined = day_of(entry, "examined"),
            .purchase = on_shelf(entry, "purchase", purchases_, "purchase"),
            .share = weight_of(entry, "share"),
            .certificates = {}};
  }

  void link_purchase(EntryIndex index, const Entry& entry) {
    Purchase purchase;
    purchase.entry = index;
    purchase.id = entry.id;
    purchase.seller = entry.text("seller");
    purchase.place = entry.text("place");
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < parcel_state_count; ++i) {
      purchase.days[i] = day_of(entry, name(ParcelState{static_cast<std::uint8_t>(i)}));
      if (!purchase.days[i]) continue;
      if (last && *purchase.days[i] < *purchase.days[*last]) report_days(entry, *last, i);
      last = i;
    }
    for (std::size_t i = 0; i < outlay_count; ++i)
      purchase.outlays[i] = optional_of<Money>(entry, name(Outlay{static_cast<std::uint8_t>(i)}));
    purchases_.emplace(index, PurchaseIndex{static_cast<std::uint32_t>(shelf_.purchases.size())});
    shelf_.purchases.push_back(std::move(purchase));
    flush();
  }

  void report_days(const Entry& entry, std::size_t before, std::size_t after) {
    constexpr std::array<std::string_view, parcel_state_count> happened{"was offered", "was bid for", "was won",
                                                                        "was paid",    "was sent",    "arrived"};
    const auto place = [&](std::size_t i) {
      return entry.find(name(ParcelState{static_cast<std::uint8_t>(i)}))->place;
    };
    report(Code::days_backwards, place(after),
           fmt::format("`{}` {} before it {}", entry.id, happened[after], happened[before]),
           "mend the day that is wrong")
        .labels.push_back({place(before), "the other day"});
  }

  void link_piece(EntryIndex index, const Entry& entry) {
    OwnedPiece piece;
    piece.entry = index;
    piece.id = entry.id;
    piece.issue = addresses_.find<IssueIndex>(entry, "issue", Kind::issue);
    piece.figure = addresses_.find<FigureIndex>(entry, "figure", Kind::figure);
    if (piece.issue) {
      const FigureIndex figure = kb_.issues[at(*piece.issue)].figure;
      if (piece.figure && *piece.figure != figure)
        report(Code::named_twice, address_in(entry, "figure")->place,
               fmt::format("`{}` is an issue of `{}`, and here another figure is named",
                           address_in(entry, "issue")->text, kb_.figures[at(figure)].id),
               "take `figure` out, or mend the issue");
      piece.figure = figure;
    } else if (entry.find("issue") == nullptr && entry.find("figure") == nullptr) {
      report(Code::unnamed_thing, entry.place, fmt::format("nobody says what the piece `{}` is", entry.id),
             "add issue = …, or figure = … where the issue is not known");
    }
    piece.priority = weight_of(entry, "priority");
    piece.keep = entry.flag("keep");
    if (const auto* plastic = entry.get<Numbers>("plastic")) piece.plastic = SeenColour{lab_of(*plastic), 0};
    piece.received = received(entry);
    const PieceIndex self{static_cast<std::uint32_t>(shelf_.pieces.size())};
    if (piece.received.purchase) shelf_.purchases[at(*piece.received.purchase)].pieces.push_back(self);
    pieces_.emplace(index, self);
    shelf_.pieces.push_back(std::move(piece));
    flush();
  }

  void link_part(EntryIndex index, const Entry& entry) {
    OwnedPart part;
    part.entry = index;
    part.id = entry.id;
    part.in = on_shelf(entry, "in", pieces_, "piece");
    const std::optional<SeenColour> plastic = part.in ? shelf_.pieces[at(*part.in)].plastic : std::nullopt;
    read_looks_of(part, entry, plastic);
    read_marks_of(part, entry);
    name_part(part, entry, plastic);
    part.received = received(entry);
    const PartIndex self{static_cast<std::uint32_t>(shelf_.parts.size())};
    if (part.received.purchase) shelf_.purchases[at(*part.received.purchase)].parts.push_back(self);
    place_part(part, entry, self);
    parts_.emplace(index, self);
    shelf_.parts.push_back(std::move(part));
    flush();
  }

  void read_looks_of(OwnedPart& part, const Entry& entry, const std::optional<SeenColour>& plastic) {
    for (const Word& word : words_of(entry, "seen")) {
      const auto read = read_observation(kb_, word.text, plastic);
      if (const auto* misread = std::get_if<Misread>(&read))
        report(Code::broken_look, word.place, misread->message, misread->help);
      else if (part.seen.size() < most_observations)
        part.seen.push_back(std::get<Observation>(read));
      else
        report(Code::broken_look, word.place,
               fmt::format("more than {} observations of one part are not compared", most_observations),
               "leave out what does not matter");
    }
  }

  void read_marks_of(OwnedPart& part, const Entry& entry) {
    for (const Word& word : words_of(entry, "marks")) {
      const WrittenMark written = split_mark(word.text);
      const auto mark = addresses_.find<MarkIndex>(Word{KeptText{written.mark}, word.place}, Kind::mark);
      if (!mark) continue;
      MarkReading read = read_mark(kb_, *mark, written.reading);
      if (read.trouble)
        report(read.trouble->code, word.place, std::move(read.trouble->message), std::move(read.trouble->repair));
      else if (part.marks.size() < most_marks)
        part.marks.push_back({*mark, read.reading, word.place});
      else
        report(Code::broken_look, word.place,
               fmt::format("more than {} marks of one part are not compared", most_marks),
               "leave out what does not matter");
    }
  }

  // What the part can be by what is written of it; keys that name two different things are refused.
  void name_part(OwnedPart& part, const Entry& entry, const std::optional<SeenColour>& plastic) {
    const auto run = addresses_.find<RunIndex>(entry, "run", Kind::run);
    const auto mould = addresses_.find<MouldIndex>(entry, "mould", Kind::mould);
    const auto repro = addresses_.find<ReproIndex>(entry, "repro", Kind::repro);
    const auto accessory = addresses_.find<AccessoryIndex>(entry, "accessory", Kind::accessory);
    std::vector<std::string_view> given;
    for (const std::string_view key : {"run", "repro", "mould", "accessory"})
      if (entry.find(key) != nullptr) given.push_back(key);
    part.slot = entry.text("slot");
    if (given.size() > 1) {
      report(
          Code::named_twice, entry.find(given[1])->place,
          fmt::format("`{}` is said to be {} and {} at once", entry.id, with_article(given[0]), with_article(given[1])),
          fmt::format("keep `{}`, which says the most, or mend it", given[0]))
          .labels.push_back({entry.find(given[0])->place, "said here already"});
      return;
    }
    if (given.empty() && (part.slot.empty() || part.seen.empty())) {
      report(Code::unnamed_thing, entry.place, fmt::format("nobody says what the part `{}` is", entry.id),
             "add run, mould, accessory or repro; or its slot and what was seen on it");
      return;
    }
    std::vector<Candidate> among;
    if (run)
      part.accessory = kb_.runs[at(*run)].accessory;
    else if (repro)
      part.accessory = kb_.repros[at(*repro)].accessory;
    else if (mould)
      part.accessory = kb_.moulds[at(*mould)].accessory;
    else
      part.accessory = accessory;
    if (!given.empty() && !part.accessory) return; // unknown, and reported
    const std::vector<Candidate>& all = part.accessory ? identities_.of(*part.accessory) : identities_.in(part.slot);
    for (const Candidate& candidate : all)
      if (may_be(candidate, run, mould, repro, part.seen.empty())) among.push_back(candidate);
    part.could_be = Identities::left(kb_, among, part.seen, plastic);
    if (!part.accessory) part.accessory = only_accessory(part.could_be);
  }

  // A reproduction is doubted only where looks are to tell: somebody who writes a run means it.
  [[nodiscard]] bool may_be(const Candidate& candidate, std::optional<RunIndex> run, std::optional<MouldIndex> mould,
                            std::optional<ReproIndex> repro, bool nothing_seen) const {
    if (const auto* is_run = std::get_if<RunIndex>(&candidate.what)) {
      if (repro) return false;
      if (run) return *is_run == *run;
      return !mould || kb_.runs[at(*is_run)].mould == *mould;
    }
    const ReproIndex is_repro = std::get<ReproIndex>(candidate.what);
    if (repro) return is_repro == *repro;
    if (nothing_seen) return false;
    const Repro& copy = kb_.repros[at(is_repro)];
    if (run) return copy.of_run == run || (!copy.of_run && copy.of_mould == kb_.runs[at(*run)].mould);
    return !mould || copy.of_mould == mould;
  }

  [[nodiscard]] std::optional<AccessoryIndex> only_accessory(const std::vector<PartIdentity>& identities) const {
    std::set<AccessoryIndex> accessories;
    for (const PartIdentity& identity : identities) accessories.insert(accessory_of(kb_, identity));
    if (accessories.size() != 1) return {};
    return *accessories.begin();
  }

  void place_part(OwnedPart& part, const Entry& entry, PartIndex self) {
    if (part.slot.empty() && part.accessory)
      part.slot = unwritten_slot(kb_, *part.accessory, part.in ? shelf_[*part.in].issue : std::nullopt);
    if (!part.in) return;
    OwnedPiece& piece = shelf_.pieces[at(*part.in)];
    if (!part.slot.empty())
      for (const PartIndex other : piece.parts)
        if (shelf_.parts[at(other)].slot == part.slot)
          report(Code::slot_worn_twice, entry.place,
                 fmt::format("`{}` and `{}` are both in the slot `{}` of `{}`", shelf_.parts[at(other)].id, part.id,
                             part.slot, piece.id),
                 "take `in` out of the one that lies loose, or say in which `slot` it is worn")
              .labels.push_back({shelf_.entries[shelf_.parts[at(other)].entry].place, "the other one"});
    piece.parts.push_back(self);
  }

  // Wants and sales name one of an issue, a figure, a run or an accessory.
  template <class Thing> void name_thing(Thing& thing, const Entry& entry, std::string_view noun) {
    thing.issue = addresses_.find<IssueIndex>(entry, "issue", Kind::issue);
    thing.figure = addresses_.find<FigureIndex>(entry, "figure", Kind::figure);
    thing.run = addresses_.find<RunIndex>(entry, "run", Kind::run);
    thing.accessory = addresses_.find<AccessoryIndex>(entry, "accessory", Kind::accessory);
    std::vector<std::string_view> given;
    for (const std::string_view key : {"issue", "figure", "run", "accessory"})
      if (entry.find(key) != nullptr) given.push_back(key);
    if (given.empty())
      report(Code::unnamed_thing, entry.place, fmt::format("nobody says what this {} is of", noun),
             "add issue, figure, run or accessory");
    if (given.size() > 1)
      report(Code::named_twice, entry.find(given[1])->place,
             fmt::format("this {} names {} and {}", noun, with_article(given[0]), with_article(given[1])),
             fmt::format("keep `{}`, which says the most, or mend it", given[0]));
    flush();
  }

  void link_want(EntryIndex index, const Entry& entry) {
    Want want;
    want.entry = index;
    want.id = entry.id;
    name_thing(want, entry, "want");
    want.priority = weight_of(entry, "priority");
    want.limit = optional_of<Money>(entry, "limit");
    shelf_.wants.push_back(std::move(want));
  }

  void link_rate(EntryIndex index, const Entry& entry) {
    const Currency one = *entry.get<Currency>("one");
    const Currency of = *entry.get<Currency>("of");
    if (one == of) {
      report(Code::broken_amount, entry.find("of")->place, "a currency has no rate to itself",
             "name the other currency");
      flush();
      return;
    }
    shelf_.rates.push_back({index,
                            {one, *entry.get<Decimal>("is"), of},
                            *day_of(entry, "on"),
                            std::string{entry.text("source")},
                            rounding_named(entry.text("rounding"))});
  }

  void link_sale(EntryIndex index, const Entry& entry) {
    Sale sale{.entry = index, .on = *day_of(entry, "on"), .price = *entry.get<Money>("price")};
    name_thing(sale, entry, "sale");
    sale.condition = optional_of<Condition>(entry, "condition");
    sale.complete = entry.text("complete");
    sale.place = entry.text("place");
    sale.source = entry.text("source");
    shelf_.sales.push_back(std::move(sale));
  }

  void link_certificate(EntryIndex index, const Entry& entry) {
    if (const auto piece = pieces_.find(entry.parent); piece != pieces_.end())
      shelf_.pieces[at(piece->second)].received.certificates.push_back(index);
    if (const auto part = parts_.find(entry.parent); part != parts_.end())
      shelf_.parts[at(part->second)].received.certificates.push_back(index);
  }

  void flush() {
    for (Diagnostic& wrong : pending_) out_.report(std::move(wrong));
    pending_.clear();
  }

  LinkedShelf& shelf_;
  const LinkedKb& kb_;
  Diagnostics& out_;
  std::vector<Diagnostic> pending_; // of the thing at hand, until its labels are complete
  KbAddresses addresses_;
  Identities identities_;
  std::map<std::string, EntryIndex, std::less<>> ids_;
  std::map<EntryIndex, PieceIndex> pieces_;
  std::map<EntryIndex, PartIndex> parts_;
  std::map<EntryIndex, PurchaseIndex> purchases_;
};

} // namespace

std::string_view name(ParcelState state) {
  constexpr std::array<std::string_view, parcel_state_count> names{"offered", "bid", "won", "paid", "sent", "arrived"};
  return names[static_cast<std::size_t>(state)];
}

std::string_view name(Outlay outlay) {
  constexpr std::array<std::string_view, outlay_count> names{"price", "fees", "shipping", "insurance", "duty", "tax"};
  return names[static_cast<std::size_t>(outlay)];
}

std::optional<ParcelState> Purchase::state() const {
  for (std::size_t i = parcel_state_count; i-- > 0;)
    if (days[i]) return ParcelState{static_cast<std::uint8_t>(i)};
  return {};
}

std::optional<Day> Purchase::entered() const {
  for (const ParcelState state : {ParcelState::paid, ParcelState::won, ParcelState::sent, ParcelState::arrived})
    if (const auto day = days[static_cast<std::size_t>(state)]) return day;
  return {};
}

bool Purchase::counts() const {
  const auto reached = state();
  return !reached || *reached >= ParcelState::won;
}

const std::string& unwritten_slot(const LinkedKb& kb, AccessoryIndex accessory, std::optional<IssueIndex> issue) {
  if (issue)
    for (const Takes& takes : kb.issues[at(*issue)].takes)
      if (takes.accessory == accessory) return takes.slot;
  return kb.accessories[at(accessory)].slot;
}

LinkedShelf link_shelf(EntrySet entries, const LinkedKb& kb, Diagnostics& out) {
  LinkedShelf shelf;
  shelf.entries = std::move(entries);
  ShelfLinker{shelf, kb, out}.link();
  return shelf;
}

} // namespace coeval
