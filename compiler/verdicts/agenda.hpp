// verdicts/agenda.hpp: which unknown day, pinned down, would settle most open verdicts, and which way?
//
// A verdict that is open for want of dates hangs on when its run was made, when its issue was packed, when a route was
// open, and so on everything that dates those: a mould, a card, a period. For each end that is not known exactly, every
// day it can have been is tried on the verdicts within its reach (verdicts/pinned.hpp tells how): on some days a
// verdict becomes fits, on some it is ruled out, on some it stays open.
//
// With p ends not known, r points in the reach of one, and q open verdicts that ask about a point, this takes of the
// order of p r (log r + q) steps. Ends with good dates of their own have little within reach.
#pragma once

#include "verdicts/finds.hpp"

namespace coeval {

// On these days, both included; without a bound, on every earlier or later day too.
struct AgendaDays {
  std::optional<Day> from;
  std::optional<Day> to;
};

struct AgendaPair {
  struct Settled {
    AgendaDays days;
    Verdict verdict{};
    bool by_bound =
        false; // the end being no later than the last of these days, or no earlier than the first, is enough
  };
  RunIndex run{};
  IssueIndex issue{};
  std::vector<Settled> settled; // on which days it becomes what; on all others it stays open
  bool always = false;          // whatever the day turns out to be, the verdict is settled
};

// A stretch of days that all settle the same verdicts in the same way.
struct AgendaStep {
  AgendaDays days;
  std::array<std::size_t, verdict_count> become{}; // how many open verdicts become each; `open` stays zero
  std::size_t settled = 0;
  bool no_later = false;   // all of that follows already from the end being no later than the last of these days
  bool no_earlier = false; // or from its being no earlier than the first
};

struct AgendaItem {
  SpanPoint end{};
  DayBounds known;
  std::vector<AgendaPair> pairs; // open verdicts that it can settle, in the order of issues
  std::vector<AgendaStep> steps; // every day that it can have been, the earliest first
  std::size_t always = 0;        // verdicts settled whatever the day
  std::size_t least = 0;         // verdicts settled on the day that settles fewest
  std::size_t most = 0;          // and on the one that settles most
};

// What a verdict becomes on the days of a step of the same item; nothing where it stays open.
[[nodiscard]] std::optional<Verdict> verdict_in(const AgendaPair& pair, const AgendaStep& step);

// "14 verdicts, whatever the day"; "up to 9 verdicts, depending on the day".
[[nodiscard]] std::string settles_words(const AgendaItem& item);
// Some of the days that an end can have been on, as the only thing still to be found out: "by 1979-06-11", "from
// 1979-06-12 to 1979-07-31", "on 1979-08-01 or later", "whatever the day".
[[nodiscard]] std::string days_words(const AgendaItem& item, const AgendaDays& days);
// "9 verdicts become fits, 3 anachronistic, 2 stay open".
[[nodiscard]] std::string become_words(const AgendaItem& item, const AgendaStep& step);

// A find that would show the day to lie in a step, or beyond it on the same side, and so settle all that the step does.
struct AgendaFind {
  std::size_t step = 0; // its place
  Find find;
};
// For the step of either side that settles most by one bound, and of equals the one that leaves most days.
[[nodiscard]] std::vector<AgendaFind> finds_for(const LinkedKb& kb, const Chronology& chronology,
                                                const AgendaItem& item, Basis weakest);

// A run or an issue whose plant is not known, and how many open verdicts wait for it.
struct UnknownPlant {
  EntryIndex entry{};
  std::size_t waiting = 0;
};

struct Agenda {
  std::vector<AgendaItem> items;     // those that settle most whatever the day first, then those that can settle most
  std::vector<UnknownPlant> plants;  // the most awaited first
  std::size_t open = 0;              // verdicts that are open
  std::size_t undecided_in_time = 0; // of them: the time is what is undecided, alone or with something else
};

// Over every issue and every run of the accessories that it takes.
[[nodiscard]] Agenda agenda_of(const LinkedKb& kb, const Chronology& chronology, Basis weakest);

} // namespace coeval
