// verdicts/agenda.hpp: which unknown day, pinned down, would settle most open verdicts?
//
// An open verdict whose time is undecided hangs on four days: when the run was first and last made, and when the issue
// was first and last packed. For each of them that is not known exactly, every day it can have been is tried: on some
// the run is in time, on some it is not, on some nothing is decided yet. As the days of one end change only one
// distance, the days that decide nothing are an interval that follows from the distances of five points.
#pragma once

#include "verdicts/judge.hpp"

namespace coeval {

struct AgendaPair {
  RunIndex run{};
  IssueIndex issue{};
  bool always = false; // whatever the day turns out to be, the verdict is settled; else on some days only
};

struct AgendaItem {
  SpanPoint end{};
  DayBounds known;
  std::vector<AgendaPair> pairs; // open verdicts that it can settle, in the order of issues
  std::size_t always = 0;        // how many of them whatever the day
};

// A run or an issue whose plant is not known, and how many open verdicts wait for it.
struct UnknownPlant {
  EntryIndex entry{};
  std::size_t waiting = 0;
};

struct Agenda {
  std::vector<AgendaItem> items;     // those that can settle most first, then those that surely settle most
  std::vector<UnknownPlant> plants;  // the most awaited first
  std::size_t open = 0;              // verdicts that are open
  std::size_t undecided_in_time = 0; // of them: the time is what is undecided, alone or with something else
};

// Over every issue and every run of the accessories that it takes.
[[nodiscard]] Agenda agenda_of(const LinkedKb& kb, const Chronology& chronology, Basis weakest);

} // namespace coeval
