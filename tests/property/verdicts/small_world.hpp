// Small random knowledge bases whose days can all be tried, the same for the same seed on every machine.
//
// A SmallWorld is both the text of a knowledge base and a list of predicates on its days, each written down here from
// the meaning of the words and not from the compiler. Every span has documented dates within a few days, by its own
// dates or by what holds it, so that trying every placement of the ends in those days tries everything.
#pragma once

#include <array>
#include <functional>
#include <random>
#include <string>
#include <vector>

#include "in_memory_kb.hpp"

namespace small_world {

// Not std::uniform_int_distribution: what that makes of an engine is up to each standard library.
class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  int below(int limit) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(limit)); }
  int between(int least, int most) { return least + below(most - least + 1); }
  bool one_in(int count) { return below(count) == 0; }

private:
  std::mt19937_64 engine_;
};

struct Days {
  int start = 0;
  int end = 0;
};
using Placement = std::vector<Days>; // of each span

// Must hold of any placement on bases as weak as `basis` or weaker (0 documented .. 3 conjectured).
struct Statement {
  int basis = 0;
  std::size_t last_span = 0; // can be judged once this span and all before it are placed
  std::function<bool(const Placement&)> holds;
};

struct Span {
  std::string address;
  std::string head;        // its table and what belongs to it
  int first = 0, last = 0; // documented: it lies within these days
};

constexpr int horizon = 5; // days 0 .. 5; day 0 is 1979-03-01
inline std::string iso(int day) { return coeval::iso(coeval::day_number({1979, 3, 1}) + day); }

class SmallWorld {
public:
  explicit SmallWorld(std::uint64_t seed) : dice_(seed), careless_(dice_.one_in(3)) {
    make_accessory();
    make_issues();
    const int timings = dice_.below(careless_ ? 7 : 3);
    for (int i = 0; i < timings; ++i) add_timing(dice_.below(static_cast<int>(spans.size())));
    if (dice_.one_in(2)) add_leftover();
    const int pairings = dice_.below(careless_ ? 4 : 2);
    for (int i = 0; i < pairings; ++i) add_pairing();
  }

  std::vector<Span> spans; // moulds, then runs, then issues
  std::vector<std::size_t> runs, issues;
  std::vector<Statement> statements;
  std::optional<int> leftover; // days
  int leftover_basis = 0;

  [[nodiscard]] std::vector<coeval::SourceFile> files() const {
    std::string accessory = "[accessory]\nid = \"a\"\nname = \"A\"\nslot = \"hand\"\n";
    std::string figure = "[figure]\nid = \"f\"\nname = \"F\"\n";
    for (std::size_t i = 0; i < spans.size(); ++i) (i < issues.front() ? accessory : figure) += spans[i].head;
    std::string world = "[line]\nid = \"l\"\nname = \"L\"\n";
    if (leftover)
      world += "[line.leftover]\nat-most = \"P" + std::to_string(*leftover) + "D\"\n" + backing(leftover_basis);
    return {{"a.toml", accessory}, {"f.toml", figure}, {"w.toml", world + source}};
  }

  // Calls `found` with every placement, and with the number of the strongest basis on which some statement fails in it:
  // 0 never occurs, 4 where all hold. In other words it is a placement on all bases before that number.
  void try_all(const std::function<void(const Placement&, int)>& found) const {
    Placement placement(spans.size());
    place(0, 4, placement, found);
  }

private:
  inline static const std::string source = "[[source]]\nid = \"s\"\ntitle = \"S\"\nkind = \"book\"\n";
  static std::string backing(int basis) {
    static constexpr std::array<std::string_view, 4> names{"documented", "observed", "reported", "conjectured"};
    return "basis = \"" + std::string{names[static_cast<std::size_t>(basis)]} + "\"\nsource = [\"s p. 1\"]\n";
  }

  // One day, or one of several, never beyond `first` .. `last`.
  std::string some_day(int first, int last) {
    return first == last ? iso(first) : "[" + iso(first) + ".." + iso(last) + "]";
  }

  // The keys that date a span, and the predicate of what they say.
  std::string dates(std::size_t index, std::string_view key, int earliest = 0, int latest = horizon) {
    Span& span = spans[index];
    span.first = dice_.between(earliest, latest);
    span.last = dice_.between(span.first, std::min(latest, span.first + 2));
    const int start_last = dice_.between(span.first, span.last);
    const int end_first = dice_.between(span.first, span.last);
    const int first = span.first;
    const int last = span.last;
    statements.push_back({0, index, [=](const Placement& at) {
                            return at[index].start >= first && at[index].start <= start_last &&
                                   at[index].end >= end_first && at[index].end <= last;
                          }});
    return std::string{key} + " = { start = \"" + some_day(first, start_last) + "\", end = \"" +
           some_day(end_first, last) + "\" }\n" + backing(0);
  }

  std::size_t new_span(std::string address, std::string head) {
    spans.push_back({std::move(address), std::move(head), 0, horizon});
    return spans.size() - 1;
  }

  void make_accessory() {
    const int moulds = dice_.one_in(3) ? 2 : 1; // few spans, as every one multiplies the placements
    for (int m = 0; m < moulds; ++m) {
      const std::string id = "m" + std::to_string(m);
      const std::size_t mould = new_span("a/" + id, "[[mould]]\nid = \"" + id + "\"\n");
      std::string keys = dates(mould, "used", m == 0 || careless_ ? 0 : spans[mould_spans_.front()].last);
      if (m > 0 && dice_.one_in(2)) {
        const bool clean = dice_.one_in(2);
        keys += std::string{"replaces = \"m0\"\n"} + (clean ? "clean = true\n" : "");
        const std::size_t old = mould_spans_.front();
        statements.push_back({0, mould, [=](const Placement& at) {
                                return at[mould].start > at[old].start && at[mould].end >= at[old].end &&
                                       (!clean || at[mould].start > at[old].end);
                              }});
      }
      spans[mould].head += keys;
      mould_spans_.push_back(mould);
      const int count = moulds > 1 || dice_.one_in(2) ? 1 : 2;
      for (int r = 0; r < count; ++r) {
        const std::string run_id = "r" + std::to_string(r);
        const std::size_t run = new_span("a/" + id + "/" + run_id, "[[mould.run]]\nid = \"" + run_id + "\"\n");
        if (dice_.one_in(2))
          spans[run].head +=
              dates(run, "made", careless_ ? 0 : spans[mould].first, careless_ ? horizon : spans[mould].last);
        else
          std::tie(spans[run].first, spans[run].last) = std::tie(spans[mould].first, spans[mould].last);
        statements.push_back({0, run, [=](const Placement& at) {
                                return at[run].start >= at[mould].start && at[run].end <= at[mould].end;
                              }});
        runs.push_back(run);
      }
    }
  }

  void make_issues() {
    const int count = mould_spans_.size() > 1 || dice_.one_in(2) ? 1 : 2;
    for (int i = 0; i < count; ++i) {
      const std::string id = "i" + std::to_string(i);
      const std::size_t issue = new_span("f/" + id, "[[issue]]\nid = \"" + id + "\"\n");
      spans[issue].head += dates(issue, "packed") + "[[issue.takes]]\naccessory = \"a\"\n";
      issues.push_back(issue);
    }
  }

  void add_timing(int which) {
    const auto self = static_cast<std::size_t>(which);
    const auto other = static_cast<std::size_t>(dice_.below(static_cast<int>(spans.size())));
    const int basis = dice_.below(4);
    const bool own_start = dice_.one_in(2);
    const bool other_start = dice_.one_in(2);
    const std::string point = spans[other].address + (other_start ? ".start" : ".end");
    std::string keys;
    std::function<bool(const Days&, const Days&)> holds;
    const auto own = [=](const Days& days) { return own_start ? days.start : days.end; };
    const auto there = [=](const Days& days) { return other_start ? days.start : days.end; };
    const std::string this_end = std::string{"this = \""} + (own_start ? "start" : "end") + "\"\n";
    const int form = self == other ? 0 : dice_.below(5);
    if (form == 0) {
      const int first = dice_.between(spans[self].first, spans[self].last);
      const int last = dice_.between(first, spans[self].last);
      keys = this_end + "on = \"" + some_day(first, last) + "\"\n";
      holds = [=](const Days& a, const Days&) { return own(a) >= first && own(a) <= last; };
    } else if (form == 1) {
      const int least = dice_.below(3);
      const int most = least + dice_.below(3);
      keys = this_end + "after = \"" + point + "\"\nat-least = \"P" + std::to_string(least) + "D\"\nat-most = \"P" +
             std::to_string(most) + "D\"\n";
      holds = [=](const Days& a, const Days& b) { return own(a) - there(b) >= least && own(a) - there(b) <= most; };
    } else if (form == 2) {
      keys = this_end + "before = \"" + point + "\"\n";
      holds = [=](const Days& a, const Days& b) { return own(a) < there(b); };
    } else if (form == 3) {
      keys = this_end + "same-day-as = \"" + point + "\"\n";
      holds = [=](const Days& a, const Days& b) { return own(a) == there(b); };
    } else {
      const bool during = dice_.one_in(2);
      keys = std::string{"relation = \""} + (during ? "during" : "overlaps") + "\"\nspan = \"" + spans[other].address +
             "\"\n";
      holds = [=](const Days& a, const Days& b) {
        return during ? a.start > b.start && a.end < b.end : a.start < b.start && b.start < a.end && a.end < b.end;
      };
    }
    const std::string kind = self < issues.front() ? (is_mould(self) ? "mould" : "mould.run") : "issue";
    const std::string disputed = dice_.one_in(8) ? "disputed = true\n" : "";
    spans[self].head += "[[" + kind + ".timing]]\n" + keys + backing(basis) + disputed;
    if (disputed.empty())
      statements.push_back(
          {basis, std::max(self, other), [=](const Placement& at) { return holds(at[self], at[other]); }});
  }

  [[nodiscard]] bool is_mould(std::size_t span) const {
    return std::ranges::find(mould_spans_, span) != mould_spans_.end();
  }

  void add_leftover() {
    leftover = dice_.below(3);
    leftover_basis = dice_.below(4);
  }

  // There were days on which the run was made, the issue packed, and the first put into the second. Where the policy on
  // stock is the weaker statement, only the order of the two counts until its basis is reached.
  void add_pairing() {
    const std::size_t run = runs[static_cast<std::size_t>(dice_.below(static_cast<int>(runs.size())))];
    const std::size_t issue = issues[static_cast<std::size_t>(dice_.below(static_cast<int>(issues.size())))];
    const int basis = dice_.below(4);
    const int how = dice_.below(8);
    paired.push_back({run, issue, basis, how});
    spans[issue].head += "[[issue.pairing]]\nrun = \"" + spans[run].address + "\"\n" + backing(basis) +
                         (how == 0   ? "disputed = true\n"
                          : how == 1 ? "refuted = true\n"
                                     : "");
    if (how <= 1) return;
    statements.push_back({basis, issue, [=](const Placement& at) { return can_meet(at[run], at[issue], {}); }});
    if (leftover)
      statements.push_back({std::max(basis, leftover_basis), issue, [=, stock = leftover](const Placement& at) {
                              return can_meet(at[run], at[issue], stock);
                            }});
  }

  void place(std::size_t span, int failing, Placement& placement,
             const std::function<void(const Placement&, int)>& found) const {
    if (span == spans.size()) return found(placement, failing);
    for (int start = spans[span].first; start <= spans[span].last; ++start)
      for (int end = start; end <= spans[span].last; ++end) {
        placement[span] = {start, end};
        int now = failing;
        for (const Statement& statement : statements)
          if (statement.last_span == span && statement.basis < now && !statement.holds(placement))
            now = statement.basis;
        if (now > 0) place(span + 1, now, placement, found);
      }
  }

public:
  struct Pair {
    std::size_t run = 0, issue = 0;
    int basis = 0;
    int how = 0; // 0 disputed, 1 refuted, else attested
  };
  std::vector<Pair> paired;

  // Is there a day m in the run and a day p in the issue with 0 <= p - m <= leftover?
  static bool can_meet(const Days& run, const Days& issue, std::optional<int> stock) {
    for (int made = run.start; made <= run.end; ++made)
      for (int packed = issue.start; packed <= issue.end; ++packed)
        if (packed >= made && (!stock || packed - made <= *stock)) return true;
    return false;
  }

private:
  Dice dice_;
  bool careless_; // nothing is done to keep its statements from contradicting each other, several times over
  std::vector<std::size_t> mould_spans_;
};

} // namespace small_world
