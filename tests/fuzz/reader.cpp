// Any bytes as a file of a knowledge base: they are read, linked, checked and solved, and what is wrong is told,
// without a crash, and with every place inside the file.
#include <cstdlib>
#include <string>

#include "chronology/chronology.hpp"
#include "diagnose/render.hpp"
#include "entries/read.hpp"
#include "links/link.hpp"
#include "rules/rules.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace coeval;
  SourceSet sources;
  sources.files.emplace_back("fuzz.toml", std::string(reinterpret_cast<const char*>(data), size));
  if (first_bad_byte(sources.files.front().text())) return 0; // such files are never handed to the reader
  Diagnostics out;
  EntrySet entries = read_entries(sources, {}, out);
  for (const Entry& entry : entries.entries) {
    require(entry.place.begin <= entry.place.end && entry.place.end <= size);
    for (const Field& field : entry.fields) require(field.place.begin <= field.place.end && field.place.end <= size);
  }
  const LinkedKb kb = link_entries(std::move(entries), true, out);
  const RuleInput input{kb, sources, true};
  check_data(input, out);
  if (kb.spans.size() > 200) return 0; // solving large sets has a target of its own
  const Chronology dates = solve_chronology(kb);
  check_consistency(input, dates, out);
  check_answers(input, dates, out);
  for (const Diagnostic& diagnostic : out.sorted()) {
    require(!diagnostic.message.empty());
    require(diagnostic.place.begin <= diagnostic.place.end && diagnostic.place.end <= size);
  }
  require(!render_json(out.sorted(), sources).empty());
  (void)render_text(out.sorted(), sources, {true, 60});
  return 0;
}
