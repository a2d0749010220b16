// tests/unit/shelf/drawer.hpp: a knowledge base of two figures and a lantern, coat and cap, and shelves beside it.
#pragma once

#include "../../in_memory_kb.hpp"
#include "shelf/audit.hpp"

namespace drawer {

// painted takes a lantern and a coat, plain a lantern only, bare nothing. Of the lanterns brass is attested on painted,
// copper fits it, grey came after it and fits plain; recast copies brass. Nothing is entered of the cap's runs.
inline constexpr std::string_view text = R"(
[line]
id = "patrol"
name = "Patrol"
[line.leftover]
at-most = "P90D"
basis = "documented"
source = ["log p. 9"]
[[source]]
id = "log"
title = "Log"
kind = "book"
[[plant]]
id = "cork"
name = "Cork"
[[feature]]
id = "top"
name = "Top"
kind = "choice"
values = ["ring", "plain"]
[[feature]]
id = "seam"
name = "Seam"
kind = "choice"
values = ["sharp", "none"]
)";
inline constexpr std::string_view lantern = R"(
[accessory]
id = "lantern"
name = "Lantern"
slot = "hand"
[[mould]]
id = "ring"
features = { top = "ring", seam = "sharp" }
basis = "documented"
source = ["log p. 2"]
[[mould.run]]
id = "brass"
made = "1976-08-01/1978-12-31"
plant = "cork"
[[mould.run]]
id = "copper"
made = "1977-01-01/1978-06-30"
plant = "cork"
[[mould]]
id = "plain"
features = { top = "plain", seam = "sharp" }
basis = "documented"
source = ["log p. 3"]
[[mould.run]]
id = "grey"
made = "1981-02-01/1983-06-30"
plant = "cork"
[[repro]]
id = "recast"
of = "ring/brass"
features = { top = "ring", seam = "none" }
basis = "observed"
source = ["log p. 30"]
)";
inline constexpr std::string_view coat = R"(
[accessory]
id = "coat"
name = "Coat"
slot = "body"
[[mould]]
id = "long"
basis = "documented"
source = ["log p. 4"]
[[mould.run]]
id = "yellow"
made = "1976-06-01/1979-12-31"
plant = "cork"
)";
inline constexpr std::string_view cap = "[accessory]\nid = \"cap\"\nname = \"Cap\"\nslot = \"head\"\n";
inline constexpr std::string_view maren = R"(
[figure]
id = "maren"
name = "Maren"
[[issue]]
id = "painted"
packed = "1976-10-01/1979-12-31"
packer = "cork"
basis = "documented"
source = ["log p. 6"]
[[issue.takes]]
accessory = "lantern"
[[issue.takes]]
accessory = "coat"
[[issue.pairing]]
run = "lantern/ring/brass"
basis = "observed"
source = ["log p. 6"]
[[issue]]
id = "plain"
packed = "1981-04-01/1984-12-31"
packer = "cork"
basis = "documented"
source = ["log p. 7"]
[[issue.takes]]
accessory = "lantern"
[[issue]]
id = "bare"
packed = "1979"
packer = "cork"
bare = true
basis = "documented"
source = ["log p. 7"]
)";

inline std::vector<coeval::SourceFile> files() {
  return {{"cap.toml", std::string{cap}},
          {"coat.toml", std::string{coat}},
          {"lantern.toml", std::string{lantern}},
          {"line.toml", std::string{text}},
          {"maren.toml", std::string{maren}}};
}

// A shelf beside that knowledge base; never moved, because the judge refers to it.
struct Drawer {
  explicit Drawer(std::string shelf_text, coeval::Basis weakest = coeval::Basis::conjectured,
                  std::string path = "shelf.toml")
      : kb(files()), sources(in_memory::sources_of({{std::move(path), std::move(shelf_text)}})),
        shelf(coeval::link_shelf(coeval::read_entries(sources, {}, out, coeval::Language::shelf), kb.kb, out)),
        judge(kb.kb, kb.dates, shelf, weakest) {
    if (!kb.codes().empty()) throw std::logic_error("the test's knowledge base is not sound:\n" + kb.troubles());
  }
  Drawer(const Drawer&) = delete;
  Drawer& operator=(const Drawer&) = delete;
  Drawer(Drawer&&) = delete;
  Drawer& operator=(Drawer&&) = delete;
  ~Drawer() = default;

  [[nodiscard]] coeval::Audit audit() { return coeval::audit_shelf(kb.kb, shelf, judge); }

  in_memory::Kb kb;
  coeval::SourceSet sources;
  coeval::Diagnostics out; // of the shelf
  coeval::LinkedShelf shelf;
  coeval::PartJudge judge;
};

} // namespace drawer
