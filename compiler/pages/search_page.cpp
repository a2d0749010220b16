// The page of the search.
#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {

void build_search(const Site&, const PlannedPage&, Page& page) {
  page.title = "Search";
  page.eyebrow = "Find a name, a mark, a feature";
  page.summary = "Search names, ids, features and marks of everything in this reference.";
  add_section(page, "intro", {},
              {Paragraphs{{{plain("Names, ids, features and marks of figures, issues, accessories, moulds, runs and "
                                  "everything else. Several words narrow the search.")}}}});
  add_section(page, "search", {}, {Search{}});
  List lists{{{}}};
  auto& items = lists.groups.front().items;
  items.push_back({{{"Names from A to Z", "names.html", false}}, {plain("everything on one page")}});
  for (const Kind kind : {Kind::figure, Kind::accessory, Kind::mark, Kind::feature, Kind::source})
    items.push_back({{{plural_of(kind), path_of_index(kind), false}}, {}});
  add_section(page, "more", "Without the search", {std::move(lists)}, "lists");
}

} // namespace coeval
