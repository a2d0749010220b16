// Any bytes as a shelf, as TOML and as a table, beside a small knowledge base: it is read and linked, what is wrong is
// told with every place inside the file, and where nothing is, the audit counts every slot once, the wants and the
// checklist agree with it, it is the same after it has been written as TOML, and its best swap can be written into it
// or is refused.
#include <cstdlib>
#include <string>

#include "../unit/shelf/drawer.hpp"
#include "entries/rows.hpp"
#include "shelf/apply_swap.hpp"
#include "shelf/checklist.hpp"
#include "shelf/edit.hpp"
#include "shelf/wants.hpp"

namespace {

using namespace coeval;

void require(bool holds) {
  if (!holds) std::abort();
}

const in_memory::Kb& knowledge_base() {
  static const in_memory::Kb kb{drawer::files()};
  return kb;
}

void ask(const LinkedShelf& shelf) {
  const in_memory::Kb& kb = knowledge_base();
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
}

// Every part goes through its notes: added, or taken out.
void edit(const SourceSet& sources, const LinkedShelf& shelf) {
  ShelfEdit edit{sources, shelf.entries};
  for (const OwnedPart& part : shelf.parts)
    if (edit.value(part.entry, "notes") == nullptr)
      edit.set(part.entry, "notes", "a \"small\" chip");
    else
      edit.remove(part.entry, "notes");
  Diagnostics out;
  const auto text = edit.text(out);
  require(text.has_value() != out.has_errors());
  PartJudge judge{knowledge_base().kb, knowledge_base().dates, shelf, Basis::conjectured};
  const ShelfSwap swap = plan_swap(knowledge_base().kb, shelf, judge, {});
  Diagnostics refused;
  const auto applied = apply_swap(knowledge_base().kb, sources, shelf, swap, refused);
  require(applied.has_value() != refused.has_errors());
  if (applied && swap.moves.empty()) require(*applied == sources.files.front().text());
}

void look(std::string path, std::string text) {
  SourceSet sources;
  sources.files.emplace_back(std::move(path), std::move(text));
  const std::string_view bytes = sources.files.front().text();
  if (first_bad_byte(bytes)) return; // such files are never handed to the reader
  Diagnostics out;
  const LinkedShelf shelf = link_shelf(read_entries(sources, {}, out, Language::shelf), knowledge_base().kb, out);
  for (const Diagnostic& diagnostic : out.sorted()) {
    require(!diagnostic.message.empty());
    require(diagnostic.place.begin <= diagnostic.place.end && diagnostic.place.end <= bytes.size());
  }
  if (out.has_errors()) return; // nothing is answered
  ask(shelf);
  edit(sources, shelf);
  const std::vector<EntryRow> rows = rows_of(shelf.entries);
  SourceSet again;
  again.files.emplace_back("again.toml", toml_of(rows).text);
  Diagnostics wrong;
  require(rows_of(read_entries(again, {}, wrong, Language::shelf)) == rows && !wrong.has_errors());
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  look("shelf.toml", text);
  look("shelf.csv", text);
  return 0;
}
