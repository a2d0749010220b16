// The page of a market: the issues sold in one country.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/spans.hpp"

namespace coeval {

void build_market(const Site& site, const PlannedPage& planned, Page& page) {
  const std::vector<IssueIndex>& issues = site.backlinks().sold.at(planned.topic);
  const std::string code = country_words(planned.topic);
  page.title = "Sold in " + code;
  page.eyebrow = "Market";
  page.summary = fmt::format("{} sold in {}, with when each was packed.", counted(issues.size(), Kind::issue), code);
  Facts facts;
  add_fact(facts, "ISO 3166 code", {plain(code)});
  add_fact(facts, "Holds", {plain(counted(issues.size(), Kind::issue))});
  add_section(page, "about", {}, {std::move(facts)});
  add_section(page, "issues", "Issues sold there", {list_of_issues(site, issues)}, "issues");
}

} // namespace coeval
