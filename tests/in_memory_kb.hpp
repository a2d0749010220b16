// tests/in_memory_kb.hpp: what does the compiler make of these texts, without a disk?
//
// The stages up to the chronology, once, over texts given in the test. Neither copied nor moved: the chronology points
// into the linked knowledge base.
#pragma once

#include <algorithm>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "chronology/chronology.hpp"
#include "entries/read.hpp"
#include "links/find.hpp"
#include "links/link.hpp"

namespace in_memory {

// Files in the order of their paths, as a SourceSet demands.
inline coeval::SourceSet sources_of(std::vector<coeval::SourceFile> files) {
  coeval::SourceSet sources;
  sources.files = std::move(files);
  std::ranges::sort(sources.files, {}, &coeval::SourceFile::path);
  return sources;
}

inline std::vector<std::string> codes_of(const std::vector<coeval::Diagnostic>& list) {
  std::vector<std::string> codes;
  for (const coeval::Diagnostic& diagnostic : list) codes.emplace_back(coeval::row(diagnostic.code).name);
  return codes;
}

// "code `bytes it points at`: message (help)", one line each, for the message of a failed check.
inline std::string shown(const coeval::SourceSet& sources, const std::vector<coeval::Diagnostic>& list) {
  std::string text;
  for (const coeval::Diagnostic& diagnostic : list)
    text += std::string{coeval::row(diagnostic.code).name} + " at `" + std::string{sources.text(diagnostic.place)} +
            "`: " + diagnostic.message + " (" + diagnostic.help + ")\n";
  return text;
}

class Kb {
public:
  explicit Kb(std::vector<coeval::SourceFile> files, bool complete = true)
      : sources(sources_of(std::move(files))), kb(coeval::link_entries(read(), complete, out)),
        dates(coeval::solve_chronology(kb)) {}
  explicit Kb(std::string text) : Kb(std::vector{coeval::SourceFile{"kb.toml", std::move(text)}}) {}
  Kb(const Kb&) = delete;
  Kb& operator=(const Kb&) = delete;
  Kb(Kb&&) = delete;
  Kb& operator=(Kb&&) = delete;
  ~Kb() = default;

  coeval::SourceSet sources;
  coeval::Diagnostics out; // of the entries and the links; later stages of a test may add theirs
  coeval::LinkedKb kb;
  coeval::Chronology dates;

  [[nodiscard]] std::vector<std::string> codes() const { return codes_of(out.sorted()); }
  [[nodiscard]] std::string troubles() const { return shown(sources, out.sorted()); }

  [[nodiscard]] coeval::EntryIndex entry(std::string_view address) const {
    const auto found = kb.addresses.find(address);
    return !found ? coeval::no_entry : *found;
  }
  [[nodiscard]] coeval::RunIndex run(std::string_view address) const {
    return find<coeval::RunIndex>(kb.runs, address);
  }
  [[nodiscard]] coeval::IssueIndex issue(std::string_view address) const {
    return find<coeval::IssueIndex>(kb.issues, address);
  }
  [[nodiscard]] coeval::TimeSpanIndex span(std::string_view address) const {
    return find<coeval::TimeSpanIndex>(kb.spans, address);
  }

private:
  coeval::EntrySet read() { return coeval::read_entries(sources, {}, out); }

  // An address that is not there is a slip of the test.
  template <class Index, class Item> static Index find(const std::vector<Item>& list, std::string_view address) {
    const auto found = std::ranges::find(list, address, &Item::address);
    if (found == list.end()) throw std::out_of_range("the test's knowledge base has no " + std::string{address});
    return Index{static_cast<std::uint32_t>(found - list.begin())};
  }
};

} // namespace in_memory
