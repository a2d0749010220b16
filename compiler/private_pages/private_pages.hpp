// private_pages/private_pages.hpp: which pages does a collector's own shelf get, and what does each say?
//
// They are told in the vocabulary of every page, and are no part of a site: no index lists them, no feed tells of them,
// nothing on them asks the network for anything. Links lead to a published reference where its address is given.
#pragma once

#include "pages/page.hpp"
#include "report/audit.hpp"
#include "shelf/checklist.hpp"
#include "shelf/ledger.hpp"
#include "shelf/swap_plan.hpp"
#include "shelf/wants.hpp"

namespace coeval {

struct PrivatePagesInput {
  const ReportInput& report;
  const LinkedShelf& shelf;
  PartJudge& judge;
  const AuditReport& audit;
  const ShelfSwap& swap;
  const std::vector<Wanted>& wanted; // after the swap
  const OwnedChecklist& checklist;
  const Ledger& ledger;
  std::string reference; // http(s) address of the published reference, with a slash at its end; empty: no links
};

// The audit (index.html), the swap, what is wanted, the checklist and the ledger, in this order.
[[nodiscard]] std::vector<Page> private_pages(const PrivatePagesInput& input);

} // namespace coeval
