// The page of the checker: choose an issue and a part, and read the verdict.
#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {

void build_checker(const Site& site, const PlannedPage&, Page& page) {
  const LinkedKb& kb = site.kb();
  page.title = "Checker";
  page.eyebrow = "Does this part belong?";
  page.summary = "Choose an issue and a part: the verdict, and the statements that prove it.";
  add_section(page, "intro", {},
              {Paragraphs{{{plain("Choose a figure's issue and a production run of an accessory. The answer is one of "
                                  "the "),
                            {"verdicts", "verdicts.html", false},
                            plain(", with every statement that it rests on.")},
                           {plain("It is about whether the two belong together, and not about the part in hand: that "
                                  "a part is the run it seems to be, and no reproduction, is for the identification "
                                  "keys and for the eye.")}}}});
  add_section(page, "checker", {}, {Checker{}});
  List matrices{{{}}};
  for (std::size_t i = 0; i < kb.accessories.size(); ++i) {
    const AccessoryIndex accessory{static_cast<std::uint32_t>(i)};
    matrices.groups.front().items.push_back(
        {{{name_of(kb, kb.accessories[i].entry), path_of_matrix(kb, accessory), false}},
         {plain(counted(site.backlinks().taking[i].size(), Kind::issue))}});
  }
  std::vector<Block> without{Paragraphs{
      {{plain("The same answers stand on pages of their own: a matrix for each accessory, its runs against the issues "
              "that take it. Each sign leads to its proof on the page of the issue.")}}}};
  if (!kb.accessories.empty()) without.emplace_back(std::move(matrices));
  add_section(page, "more", "Without the checker", std::move(without), "matrices");
}

} // namespace coeval
