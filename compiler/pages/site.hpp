// pages/site.hpp: which pages are there, and what does each say?
//
// A Site is planned once; its pages are then built one by one, in any order and by several threads, so that no more
// than a few are in memory at a time. Everything said comes from the knowledge base, the chronology and the verdicts.
#pragma once

#include <map>
#include <memory>
#include <set>

#include "chronology/chronology.hpp"
#include "pages/page.hpp"
#include "source/text.hpp"
#include "verdicts/claims.hpp"

namespace coeval {

struct SiteOptions {
  std::string base_url; // "https://example.org/reference/", ends in a slash; empty: canonical links are left out
  std::string date;     // ISO 8601 day that the edition is dated; empty for none
  std::string changes;  // the text of the knowledge base's CHANGES.md; empty for none
};

// What a page is of.
struct PlannedPage {
  PageKind kind{};
  std::string path;
  EntryIndex entry = no_entry; // for kinds that are of one entry
  std::string topic;           // for index_of: the name of the kind; for market: the country's code
};

struct SiteInput {
  const LinkedKb& kb;
  const Chronology& dates;
  const SourceSet& sources;
  SiteOptions options;
};

// What has a line, in order.
struct OfLine {
  std::vector<TimeSpanIndex> periods;
  std::vector<CardIndex> cards;
  std::vector<FigureIndex> figures;
  std::vector<IssueIndex> issues;
};

// What rests on what, the other way round than entries say it. Built once.
struct Backlinks {
  std::vector<std::vector<EntryIndex>> children; // of each entry: the tables inside it or beside it, in order
  std::vector<std::vector<EntryIndex>> citing;   // of each source (SourceIndex): the entries that cite it
  std::vector<std::vector<EntryIndex>> stating;  // of each feature (FeatureIndex): the entries whose features name it
  std::vector<std::vector<EntryIndex>> carrying; // of each mark (MarkIndex)
  std::vector<std::vector<IssueIndex>> taking;   // of each accessory: the issues that take it
  std::vector<std::vector<ReproIndex>> copies;   // of each run: its reproductions, and those of its mould as a whole
  std::map<std::string, std::vector<IssueIndex>> sold; // of each market's code
  std::map<EntryIndex, std::vector<std::pair<ClaimIndex, EntryIndex>>>
      claimed;                                          // of each run and issue: claims about it
  std::vector<std::optional<TimeSpanIndex>> span;       // of each entry that lasts
  std::vector<std::vector<EntryIndex>> dating;          // of each span: tables and successors that are dated by it
  std::vector<std::vector<IssueIndex>> sealed;          // of each card: the issues known on it
  std::vector<std::vector<EntryIndex>> found_on;        // of each card: the pairings that were found on it
  std::vector<std::vector<RunIndex>> moulded;           // of each plant
  std::vector<std::vector<IssueIndex>> packed;          // of each plant
  std::vector<std::vector<RouteIndex>> routes;          // of each plant: out of it and into it
  std::vector<std::vector<RouteIndex>> carried;         // of each accessory: the routes that carry it and not all
  std::map<EntryIndex, const Timing*> timing;           // of each timing table, those of claims too
  std::map<EntryIndex, const Pairing*> pairing;         // of each pairing table
  std::map<EntryIndex, std::vector<EntryIndex>> paired; // of each run and issue: its pairing tables
  std::vector<std::vector<TimeSpanIndex>> bands;        // of each line: its periods that follow each other
  std::vector<OfLine> of_line;                          // of each line, and at the end what is of none
  std::optional<FeatureIndex> plastic;                  // the feature that a [colour] states
};

class Site {
public:
  explicit Site(SiteInput input); // `kb`, `dates` and `sources` must outlive it
  ~Site();

  [[nodiscard]] const std::vector<PlannedPage>& pages() const { return pages_; } // the home page first, then by path
  [[nodiscard]] Page page(const PlannedPage& planned) const;                     // safe to call from several threads

  [[nodiscard]] const LinkedKb& kb() const { return input_.kb; }
  [[nodiscard]] const Chronology& dates() const { return input_.dates; }
  [[nodiscard]] const SourceSet& sources() const { return input_.sources; }
  [[nodiscard]] const SiteOptions& options() const { return input_.options; }
  [[nodiscard]] const Backlinks& backlinks() const { return backlinks_; }
  // What the evidence says of a claim. All are found when one is first asked for, as each by itself takes a pass over
  // all constraints: publishing 10,000 runs took 67 s of processor time then, and 43 s now.
  [[nodiscard]] const ClaimReport& claim_report(ClaimIndex claim) const;

private:
  struct ClaimReports;
  SiteInput input_;
  Backlinks backlinks_;
  std::vector<PlannedPage> pages_;
  std::unique_ptr<ClaimReports> claims_;
};

} // namespace coeval
