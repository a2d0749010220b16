// Any bytes as a shelf beside a small knowledge base: it is read and linked, what is wrong is told with every place
// inside the file, and where nothing is, the audit counts every slot once, and the wants and the checklist agree with
// it.
#include <cstdlib>
#include <string>

#include "../unit/shelf/drawer.hpp"
#include "shelf/checklist.hpp"
#include "shelf/wants.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace coeval;
  static const in_memory::Kb kb{drawer::files()};
  SourceSet sources;
  sources.files.emplace_back("shelf.toml", std::string(reinterpret_cast<const char*>(data), size));
  if (first_bad_byte(sources.files.front().text())) return 0; // such files are never handed to the reader
  Diagnostics out;
  const LinkedShelf shelf = link_shelf(read_entries(sources, {}, out, Language::shelf), kb.kb, out);
  for (const Diagnostic& diagnostic : out.sorted()) {
    require(!diagnostic.message.empty());
    require(diagnostic.place.begin <= diagnostic.place.end && diagnostic.place.end <= size);
  }
  if (out.has_errors()) return 0; // nothing is answered
  PartJudge judge{kb.kb, kb.dates, shelf, Basis::conjectured};
  const Audit audit = audit_shelf(kb.kb, shelf, judge);
  require(audit.pieces.size() + audit.offered.size() == shelf.pieces.size());
  std::size_t slots = 0;
  for (const PieceAudit& piece : audit.pieces)
    if (const auto issue = shelf[piece.piece].issue) slots += judge.slots(*issue).size();
  std::size_t counted = 0;
  for (std::size_t state = 0; state < slot_state_count; ++state)
    counted += audit.count(SlotState{static_cast<std::uint8_t>(state)});
  require(slots == counted);
  std::vector<FigureIndex> figures;
  for (std::size_t i = 0; i < kb.kb.figures.size(); ++i) figures.push_back(FigureIndex{static_cast<std::uint32_t>(i)});
  const OwnedChecklist list = make_checklist(kb.kb, shelf, judge, audit, figures);
  require(list.complete().done <= list.owned().done);
  const ShelfSwap after = plan_swap(kb.kb, shelf, judge, {.with_parcels = true});
  const std::vector<Wanted> wanted = find_wanted(kb.kb, shelf, judge, after, Basis::conjectured);
  require(std::ranges::is_sorted(wanted, std::greater{}, &Wanted::priority));
  return 0;
}
