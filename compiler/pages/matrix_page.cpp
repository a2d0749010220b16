#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/matrices.hpp"
#include "pages/paths.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_matrix_columns = 24;

} // namespace

void build_matrix(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const AccessoryIndex index{kb.position[at(planned.entry)]};
  const std::string& name = kb.accessories[at(index)].name;
  const std::vector<IssueIndex>& taking = site.backlinks().taking[at(index)];
  page.eyebrow = "Matrix of verdicts";
  page.summary = fmt::format("{}: {} that take it against {}, a verdict for each pair.", name,
                             counted(taking.size(), Kind::issue), counted(runs_of(kb, index).size(), Kind::run));
  add_section(
      page, "intro", {},
      {Paragraphs{{{plain("Every issue that takes the part, against every run of it. Find the issue on the left "
                          "and the run above; the sign where they meet is the verdict, and leads to its proof. "
                          "An issue that is not listed takes no "),
                    link_to(kb, planned.entry), plain(", or what it was sold with is not entered.")}}},
       Legend{}});
  Judge judge{kb, site.dates(), Basis::conjectured};
  std::vector<Block> blocks;
  for (Table& table : verdict_matrices(site, judge, index, taking, most_matrix_columns))
    blocks.emplace_back(std::move(table));
  if (taking.empty())
    blocks.emplace_back(paragraphs("No issue on record takes this accessory."));
  else if (blocks.empty())
    blocks.emplace_back(paragraphs("No run of it is entered."));
  add_section(page, "matrix", "Issues against runs", std::move(blocks));
  add_section(page, "more", "See also",
              {List{{{{},
                      {},
                      {{{link_to(kb, planned.entry)}, {plain("its moulds, runs and reproductions")}},
                       {{{"Identification key", path_of_key(kb, index), false}}, {plain("which run is it?")}},
                       {{{"Checker", "checker.html", false}}, {plain("choose an issue and a part")}}}}}}});
}

} // namespace coeval
