// The page for addresses that lead nowhere.
#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {

void build_not_found(const Site&, const PlannedPage&, Page& page) {
  page.title = "No such page";
  page.eyebrow = "Not found";
  page.summary = "There is no page at this address.";
  List ways{{{}}};
  auto& items = ways.groups.front().items;
  items.push_back({{{"Home", "index.html", false}}, {}});
  items.push_back({{{"Names from A to Z", "names.html", false}}, {plain("figures, accessories and all the rest")}});
  items.push_back({{{"Search", "search.html", false}}, {}});
  items.push_back({{{plural_of(Kind::figure), path_of_index(Kind::figure), false}}, {}});
  items.push_back({{{plural_of(Kind::accessory), path_of_index(Kind::accessory), false}}, {}});
  items.push_back({{{"Changes", "changes.html", false}}, {plain("what was renamed or taken out")}});
  add_section(page, "intro", {},
              {Paragraphs{{{plain("There is no page at this address. An entry may have been renamed or taken out since "
                                  "the link was made.")}}},
               std::move(ways)});
}

} // namespace coeval
