// A SmallWorld with plants and routes between them, so that runs can fit and be misrouted as well.
#pragma once

#include "small_world.hpp"

namespace small_world {

inline std::vector<coeval::SourceFile> with_routes(const SmallWorld& world, std::uint64_t seed) {
  Dice dice{seed * 7919};
  const auto plant = [&] { return "p" + std::to_string(dice.below(3)); };
  std::vector<coeval::SourceFile> files;
  for (const coeval::SourceFile& file : world.files()) {
    std::string text{file.text()};
    for (const std::string table : {"[[mould.run]]\n", "[[issue]]\n"}) {
      const std::string key = table == "[[issue]]\n" ? "packer" : "plant";
      for (std::size_t at = text.find(table); at != std::string::npos; at = text.find(table, at)) {
        at += table.size();
        if (!dice.one_in(8)) text.insert(at, key + " = \"" + plant() + "\"\n");
      }
    }
    if (file.path() == "w.toml") {
      for (int p = 0; p < 3; ++p)
        text += "[[plant]]\nid = \"p" + std::to_string(p) +
                "\"\nname = \"P\"\nroutes-complete = " + (dice.one_in(3) ? "false" : "true") +
                "\nbasis = \"documented\"\nsource = [\"s p. 1\"]\n";
      for (int r = dice.below(4); r > 0; --r) {
        const int from = dice.below(3);
        const int first = dice.below(horizon);
        const int last = dice.between(first, horizon);
        const int start = dice.between(first, last);
        text += "[[route]]\nid = \"r" + std::to_string(r) + "\"\nfrom = \"p" + std::to_string(from) + "\"\nto = \"p" +
                std::to_string((from + dice.between(1, 2)) % 3) + "\"\nactive = { start = \"[" + iso(first) + ".." +
                iso(start) + "]\", end = \"[" + iso(dice.between(first, last)) + ".." + iso(last) +
                "]\" }\nbasis = \"documented\"\nsource = [\"s p. 1\"]\n";
      }
    }
    files.push_back({file.path(), std::move(text)});
  }
  return files;
}

} // namespace small_world
