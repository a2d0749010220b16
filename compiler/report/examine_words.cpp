// What the texts, the documents and the sheet about a part have in common.
#include <algorithm>
#include <bit>
#include <functional>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "examine/words.hpp"
#include "report/examine.hpp"

namespace coeval {

const std::array<std::string_view, 3>& cautions() {
  static constexpr std::array<std::string_view, 3> list{
      "Not every reproduction is known or entered: a fit is what the looks are consistent with, and does not say that "
      "a "
      "part is authentic.",
      "This is no appraisal and no certificate; those are for licensed appraisers and grading services, and what may "
      "cross a border is for customs.",
      "Old plastics and paints may hold lead, cadmium or phthalates: keep them from children and from food."};
  return list;
}

std::string candidate_words(const LinkedKb& kb, const Candidate& candidate) {
  const auto* repro = std::get_if<ReproIndex>(&candidate.what);
  if (repro == nullptr) return "run";
  const Repro& it = kb.repros[at(*repro)];
  if (it.of_run) return fmt::format("reproduction of {}", kb.runs[at(*it.of_run)].address);
  if (it.of_mould) return fmt::format("reproduction of {}", kb.moulds[at(*it.of_mould)].address);
  return "reproduction";
}

std::string stated_of(const FeatureTable& table, std::size_t candidate, const Observation& seen) {
  const Stated* stated = table.candidates[candidate].find(seen.feature);
  return stated == nullptr ? std::string{} : stated_words(*table.kb, *stated);
}

std::string_view stand_words(const Stand& stand, std::size_t observation) {
  const std::uint64_t bit = std::uint64_t{1} << observation;
  if ((stand.excludes & bit) != 0) return "excludes";
  if ((stand.agrees & bit) != 0) return "agrees";
  return (stand.undecided & bit) != 0 ? "too rough to decide" : "not stated";
}

std::vector<std::size_t> most_agreeing_first(const Outcome& outcome) {
  std::vector<std::size_t> left = outcome.left;
  std::ranges::stable_sort(left, std::greater{},
                           [&](std::size_t c) { return std::popcount(outcome.stands[c].agrees); });
  return left;
}

bool lacks_reproductions(const FeatureTable& table) {
  return std::ranges::all_of(table.candidates, [](const Candidate& candidate) { return candidate.original(); });
}

std::string how_to_look(const LinkedKb& kb, const Feature& feature) {
  const std::string_view look = kb.entries[feature.entry].text("look");
  if (!look.empty()) return std::string{look};
  switch (feature.tool) {
  case Tool::eye:
    return "By eye, in daylight.";
  case Tool::finger:
    return "By touch.";
  case Tool::ear:
    return "By ear.";
  case Tool::colour_card:
    return "With a colour card.";
  case Tool::float_glass:
    return "In a glass of water.";
  default:
    return fmt::format("With {}.", with_article(name(feature.tool)));
  }
}

} // namespace coeval
