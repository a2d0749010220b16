// Small random knowledge bases in two versions, and every version between them, the same for the same seed everywhere.
//
// A version is a choice of one variant for each item; an item is one key of an entry, an entry without an address, or a
// whole run, so that an item that differs is one edit. Any choice can be written as a text, so that what a set of edits
// would make of the old version is known without the code that is tested.
#pragma once

#include <array>
#include <random>
#include <string>
#include <vector>

#include "drift/drift.hpp"
#include "in_memory_kb.hpp"

namespace two_versions {

using namespace coeval;

class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  std::size_t below(std::size_t limit) { return static_cast<std::size_t>(engine_() % limit); }
  bool one_in(std::size_t count) { return below(count) == 0; }

private:
  std::mt19937_64 engine_;
};

struct Item {
  std::string label;                 // of the edit that it makes: see label_of
  std::string table;                 // the head that its text stands below; empty: it is a table itself
  std::vector<std::string> variants; // texts; an empty one is left out
};

// "address key" for a key, "address table run" for an entry without address; as Item::label.
inline std::string label_of(const Edit& edit) {
  if (!edit.key.empty()) return edit.address + " " + edit.key;
  std::string label = edit.address + " " + std::string{spec_of(edit.table).name};
  for (const std::string run : {"a/m0/r0", "a/m1/r0", "a/m0/r1"})
    if ((edit.was + edit.is).find(run) != std::string::npos) return label + " " + run;
  return label;
}

class TwoVersions {
public:
  explicit TwoVersions(std::uint64_t seed) : dice_(seed) {
    const std::string weak = "basis = \"observed\"\nsource = [\"s p. 2\"]\n";
    const std::string strong = "basis = \"documented\"\nsource = [\"s p. 1\"]\n";
    key("[[mould]]\nid = \"m0\"\n", "a/m0", "used", {"1976-01/1978", "1976-06/1979-06", "1977~/1979?"}, true);
    key("[[mould]]\nid = \"m0\"\n", "a/m0", "basis", {"documented", "observed", "reported"}, false);
    key("[[mould]]\nid = \"m0\"\n", "a/m0", "notes", {"seen", "not seen"}, true);
    key("[[mould.run]]\nid = \"r0\"\n", "a/m0/r0", "made", {"1976/1977", "1978-02-01/1978-09", "1976-06/1978"}, true);
    key("[[mould.run]]\nid = \"r0\"\n", "a/m0/r0", "plant", {"p", "q"}, true);
    table("a/m0/r0 exclusive", "[[mould.run.exclusive]]\n", {"to = [\"f/i0\"]\n" + strong, "to = [\"f/i1\"]\n" + weak});
    table("a/m0/r1 run", "[[mould.run]]\nid = \"r1\"\n", {"made = \"1977-03/1977-09\"\nplant = \"p\"\n"});
    key("[[mould]]\nid = \"m1\"\n", "a/m1", "replaces", {"m0"}, true);
    key("[[mould]]\nid = \"m1\"\n", "a/m1", "used", {"1979/1983", "1981/1984"}, true);
    fixed("[[mould]]\nid = \"m1\"\n", strong);
    table("a/m1 timing", "[[mould.timing]]\n",
          {"this = \"start\"\nafter = \"m0.end\"\nat-least = \"P1M\"\n" + weak,
           "this = \"start\"\nafter = \"m0.end\"\nat-least = \"P1Y\"\n" + strong});
    key("[[mould.run]]\nid = \"r0\"\n# of m1\n", "a/m1/r0", "plant", {"p", "q"}, true);
    for (const std::string issue : {"i0", "i1"}) {
      const std::string head = "[[issue]]\nid = \"" + issue + "\"\n";
      fixed(head, strong);
      key(head, "f/" + issue, "packed", {"1976-10/1979-03", "1980/1982", "1977-06/1978-03~"}, true);
      key(head, "f/" + issue, "packer", {"p", "q"}, true);
      table("f/" + issue + " takes", "[[issue.takes]]\n", {"accessory = \"a\"\n"}, 4);
      for (const std::string run : {"a/m0/r0", "a/m1/r0", "a/m0/r1"})
        table("f/" + issue + " pairing " + run, "[[issue.pairing]]\nrun = \"" + run + "\"\n",
              {strong, weak, "refuted = true\n" + strong, "disputed = true\n" + weak}, 1, 6);
    }
    table("line/l leftover", "[line.leftover]\n", {"at-most = \"P2M\"\n" + strong, "at-most = \"P1Y\"\n" + weak}, 2);
    key("[[plant]]\nid = \"q\"\nname = \"Q\"\n", "plant/q", "routes-complete", {"true"}, true);
    fixed("[[plant]]\nid = \"q\"\nname = \"Q\"\n", strong);
    key("[[route]]\nid = \"pq\"\nfrom = \"p\"\nto = \"q\"\nsource = [\"s p. 3\"]\n", "route/pq", "basis",
        {"documented", "conjectured"}, false);
    key("[[claim]]\nid = \"c\"\nsays = \"they came together\"\n", "claim/c", "standing", {"open", "refuted"}, false);
    table("claim/c pairing a/m1/r0", "[[claim.pairing]]\nissue = \"f/i0\"\n", {"run = \"a/m1/r0\"\n"}, 2);
    choose();
  }

  std::vector<Item> items;
  std::vector<std::size_t> before, after; // of each item: its variant
  std::vector<std::size_t> differing;     // items

  // The old version with these of the differing items (bits) as in the new one. The new version as a whole is laid out
  // otherwise, which must not matter.
  [[nodiscard]] std::vector<SourceFile> files(std::uint32_t made, bool other_layout = false) const {
    std::vector<std::size_t> chosen = before;
    for (std::size_t i = 0; i < differing.size(); ++i)
      if ((made >> i & 1U) != 0) chosen[differing[i]] = after[differing[i]];
    return write(chosen, other_layout);
  }

private:
  void key(std::string head, const std::string& address, const std::string& name, std::vector<std::string> values,
           bool optional) {
    Item item{address + " " + name, std::move(head), {}};
    if (optional) item.variants.emplace_back();
    for (const std::string& value : values)
      item.variants.push_back(name + " = " + (value == "true" ? value : "\"" + value + "\"") + "\n");
    items.push_back(std::move(item));
  }
  void fixed(std::string head, std::string text) { items.push_back({"", std::move(head), {std::move(text)}}); }
  // `there`: how many times as likely each text is as it would be were it there once, beside `absent` times none.
  void table(std::string label, const std::string& head, const std::vector<std::string>& rests, int there = 1,
             std::size_t absent = 1) {
    Item item{std::move(label), {}, std::vector<std::string>(absent)};
    for (int i = 0; i < there; ++i)
      for (const std::string& rest : rests) item.variants.push_back(head + rest);
    items.push_back(std::move(item));
  }

  void choose() {
    for (const Item& item : items) before.push_back(dice_.below(item.variants.size()));
    after = before;
    const std::size_t edits = 1 + dice_.below(8);
    for (std::size_t i = 0; i < edits; ++i) {
      const std::size_t item = dice_.below(items.size());
      after[item] = dice_.below(items[item].variants.size());
    }
    for (std::size_t i = 0; i < items.size(); ++i)
      if (items[i].variants[before[i]] != items[i].variants[after[i]]) differing.push_back(i);
  }

  // Keys below their head, then the tables that follow it, in the order of the items.
  std::vector<SourceFile> write(const std::vector<std::size_t>& chosen, bool other_layout) const {
    std::string accessory = "[accessory]\nid = \"a\"\nname = \"A\"\nslot = \"hand\"\n";
    std::string figure = "[figure]\nid = \"f\"\nname = \"F\"\n";
    std::string world = "[line]\nid = \"l\"\nname = \"L\"\n";
    std::string rest = "[[source]]\nid = \"s\"\ntitle = \"S\"\nkind = \"book\"\n[[plant]]\nid = \"p\"\nname = \"P\"\n";
    std::string head;
    for (std::size_t i = 0; i < items.size(); ++i) {
      const Item& item = items[i];
      const std::string& text = item.variants[chosen[i]];
      const std::string& start = item.table.empty() ? text : item.table;
      std::string& file = start.starts_with("[[mould")   ? accessory
                          : start.starts_with("[[issue") ? figure
                          : start.starts_with("[line")   ? world
                                                         : rest;
      if (!item.table.empty() && item.table != head) {
        if (other_layout) file += "\n\n# another layout\n";
        file += item.table;
      }
      if (!item.table.empty()) head = item.table;
      file += text;
    }
    if (other_layout) return {{"z/a.toml", "# moved\n" + accessory}, {"b.toml", figure}, {"c.toml", rest + world}};
    return {{"a.toml", accessory}, {"f.toml", figure}, {"r.toml", rest}, {"w.toml", world}};
  }

  Dice dice_;
};

} // namespace two_versions
