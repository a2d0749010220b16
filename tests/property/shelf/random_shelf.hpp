// tests/property/shelf/random_shelf.hpp: the text of a shelf on which anything can lie anywhere.
#pragma once

#include <random>
#include <set>

#include "unit/shelf/drawer.hpp"

inline std::string random_shelf(std::mt19937& random, int pieces, int parts) {
  const auto pick = [&](const auto& list) { return std::string{list[random() % std::size(list)]}; };
  constexpr std::string_view figures[]{"issue = \"maren/painted\"", "issue = \"maren/plain\"", "issue = \"maren/bare\"",
                                       "figure = \"maren\""};
  constexpr std::string_view things[]{"run = \"lantern/ring/brass\"",
                                      "run = \"lantern/ring/copper\"",
                                      "run = \"lantern/plain/grey\"",
                                      "run = \"coat/long/yellow\"",
                                      "repro = \"lantern/recast\"",
                                      "mould = \"lantern/ring\"",
                                      "accessory = \"lantern\"",
                                      "accessory = \"cap\"",
                                      "accessory = \"lantern\"\nseen = [\"top=ring\"]",
                                      "accessory = \"lantern\"\nseen = [\"top=plain\", \"seam=none\"]"};
  constexpr std::string_view slots[]{"hand", "body", "head"};
  std::string text = "[[purchase]]\nid = \"come\"\narrived = \"2026-05-02\"\n[[purchase]]\nid = \"offer\"\n"
                     "offered = \"2026-05-02\"\n";
  const auto bought = [&] { return std::string{random() % 5 == 0 ? "purchase = \"come\"\n" : ""}; };
  for (int i = 0; i < pieces; ++i)
    text += "[[piece]]\nid = \"p" + std::to_string(i) + "\"\n" + pick(figures) + "\n" + bought();
  std::set<std::pair<int, std::string>> worn;
  for (int i = 0; i < parts; ++i) {
    text += "[[part]]\nid = \"a" + std::to_string(i) + "\"\n" + pick(things) + "\n" + bought();
    const std::string slot = pick(slots);
    const int piece = pieces == 0 ? 0 : static_cast<int>(random() % static_cast<unsigned>(pieces));
    if (pieces > 0 && random() % 3 != 0 && worn.emplace(piece, slot).second)
      text += "in = \"p" + std::to_string(piece) + "\"\nslot = \"" + slot + "\"\n";
  }
  return text;
}
