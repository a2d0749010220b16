// pages/builders.hpp: which function builds which kind of page?
//
// Private to this room. Each builder gets a page with kind, path, title and crumbs set, and adds summary and sections.
// To add a page: its kind with its slots (page_kinds.cpp), its builder here, its template in site-template/pages.
#pragma once

#include "pages/site.hpp"

namespace coeval {

void build_home(const Site& site, const PlannedPage& planned, Page& page);
void build_line(const Site& site, const PlannedPage& planned, Page& page);
void build_index(const Site& site, const PlannedPage& planned, Page& page);
void build_figure(const Site& site, const PlannedPage& planned, Page& page);
void build_issue(const Site& site, const PlannedPage& planned, Page& page);
void build_accessory(const Site& site, const PlannedPage& planned, Page& page);
void build_run(const Site& site, const PlannedPage& planned, Page& page);
void build_repro(const Site& site, const PlannedPage& planned, Page& page);
void build_period(const Site& site, const PlannedPage& planned, Page& page);
void build_card(const Site& site, const PlannedPage& planned, Page& page);
void build_plant(const Site& site, const PlannedPage& planned, Page& page);
void build_route(const Site& site, const PlannedPage& planned, Page& page);
void build_market(const Site& site, const PlannedPage& planned, Page& page);
void build_mark(const Site& site, const PlannedPage& planned, Page& page);
void build_feature(const Site& site, const PlannedPage& planned, Page& page);
void build_claim(const Site& site, const PlannedPage& planned, Page& page);
void build_source(const Site& site, const PlannedPage& planned, Page& page);
void build_matrix(const Site& site, const PlannedPage& planned, Page& page);
void build_checklist(const Site& site, const PlannedPage& planned, Page& page);
void build_key(const Site& site, const PlannedPage& planned, Page& page);
void build_disputes(const Site& site, const PlannedPage& planned, Page& page);
void build_agenda(const Site& site, const PlannedPage& planned, Page& page);
void build_changes(const Site& site, const PlannedPage& planned, Page& page);
void build_schema(const Site& site, const PlannedPage& planned, Page& page);
void build_checker(const Site& site, const PlannedPage& planned, Page& page);
void build_search(const Site& site, const PlannedPage& planned, Page& page);
void build_names(const Site& site, const PlannedPage& planned, Page& page);
void build_verdicts(const Site& site, const PlannedPage& planned, Page& page);
void build_data(const Site& site, const PlannedPage& planned, Page& page);
void build_not_found(const Site& site, const PlannedPage& planned, Page& page);

// The JSON-LD of a page whose other members are set: schema.org terms, as one JSON document.
[[nodiscard]] std::string json_ld_of(const Site& site, const PlannedPage& planned, const Page& page);

} // namespace coeval
