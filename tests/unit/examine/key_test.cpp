// The decision tree that a key is.
#include <catch2/catch.hpp>

#include "examine/key.hpp"
#include "part.hpp"

using namespace coeval;
using examining::lantern;
using examining::Names;
using examining::Part;

namespace {

// A run of one mould, stating these features.
std::string run(const std::string& id, const std::string& stated) {
  return "[[mould.run]]\nid = \"" + id + "\"\nfeatures = { " + stated + " }\n";
}

const std::string mould = lantern + "[[mould]]\nid = \"m\"\n";

// "top: ring -> (vents: 4 -> m/a, 6 -> m/b), plain -> m/c"
std::string shown(const Part& part, const Key& key, std::size_t node = 0) {
  const KeyNode& at_node = key.nodes[node];
  std::string text;
  if (!at_node.look) {
    for (const std::size_t candidate : at_node.candidates) text += (text.empty() ? "" : "+") + part.address(candidate);
    return text;
  }
  for (const KeyBranch& branch : at_node.branches) {
    const std::string next = shown(part, key, branch.node);
    text +=
        (text.empty() ? "" : ", ") + branch.words + " -> " + (key.nodes[branch.node].look ? "(" + next + ")" : next);
  }
  return part.table.feature(at(*at_node.look)).id + ": " + text;
}

} // namespace

TEST_CASE("a key asks what tells most for its effort, and no more than it takes") {
  const Part part{mould + run("a", "top = \"ring\", vents = 4") + run("b", "top = \"ring\", vents = 6") +
                  run("c", "top = \"plain\", vents = 6")};
  const Key key = make_key(part.table);
  CHECK(shown(part, key) == "top: ring -> (vents: 4 -> m/a, 6 -> m/b), plain -> m/c");
  CHECK(key.optimal);
  CHECK(key.complete);
  CHECK(key.expected_steps == Approx(5.0 / 3));
  CHECK(key.expected_minutes == Approx(5.0 / 3));
  CHECK(key.least_steps == Approx(std::log2(3.0)));
}

TEST_CASE("a cheap look before a dear one") {
  // The height tells all three at once, but takes 2 minutes; top and vents take 1 each.
  const Part part{mould + run("a", "top = \"ring\", height-mm = 10") + run("b", "top = \"ring\", height-mm = 12") +
                  run("c", "top = \"plain\", height-mm = 14") + run("d", "top = \"notch\", height-mm = 16")};
  const Key key = make_key(part.table);
  CHECK(shown(part, key) ==
        "top: ring -> (height-mm: 9.7 to 10.3 mm -> m/a, 11.7 to 12.3 mm -> m/b), plain -> m/c, notch -> m/d");
  CHECK(key.expected_minutes == Approx(2)); // 1 for all, 2 more for two of four
  CHECK(key.expected_steps == Approx(1.5));
}

TEST_CASE("candidates that no look tells apart share a leaf") {
  const Part part{mould + run("a", "top = \"ring\", melts = true") + run("b", "top = \"ring\", melts = false") +
                  run("c", "top = \"plain\"")};
  CHECK(shown(part, make_key(part.table)) == "top: ring -> m/a+m/b, plain -> m/c");
  const Part same{mould + run("a", "top = \"ring\"") + run("b", "top = \"ring\"")};
  CHECK(shown(same, make_key(same.table)) == "m/a+m/b");
  CHECK(make_key(same.table).expected_steps == 0);
}

TEST_CASE("a candidate with several values, or none, goes down every branch that it can show") {
  const Part several{mould + run("a", "top = [\"ring\", \"notch\"]") + run("b", "top = \"plain\"") +
                     run("c", "top = \"notch\"")};
  CHECK(shown(several, make_key(several.table)) == "top: ring -> m/a, notch -> m/a+m/c, plain -> m/b");
  const Part silent{mould + run("a", "top = \"ring\"") + run("b", "top = \"plain\"") + run("c", "vents = 4")};
  CHECK(shown(silent, make_key(silent.table)) == "top: ring -> m/a+m/c, plain -> m/b+m/c, anything else -> m/c");
}

TEST_CASE("stretches of a scale overlap where tolerances do") {
  const Part part{mould + run("a", "height-mm = 20") + run("b", "height-mm = 20.4") + run("c", "height-mm = 25")};
  CHECK(shown(part, make_key(part.table)) == "height-mm: 19.7 to 20.1 mm -> m/a, 20.1 to 20.3 mm -> m/a+m/b, "
                                             "20.3 to 20.7 mm -> m/b, 24.7 to 25.3 mm -> m/c");
}

TEST_CASE("values that lead to the same candidates are one branch") {
  const Part part{mould + run("a", "top = [\"ring\", \"notch\"]") + run("b", "top = \"plain\"")};
  CHECK(shown(part, make_key(part.table)) == "top: ring or notch -> m/a, plain -> m/b");
}

TEST_CASE("beyond the size that is searched, the key says that it is not") {
  std::string many = mould;
  for (int i = 0; i < 20; ++i) many += run("r" + std::to_string(i), "vents = " + std::to_string(i));
  const Part part{many};
  const Key key = make_key(part.table);
  CHECK_FALSE(key.optimal);
  CHECK(key.nodes.size() == 21);
  CHECK(key.expected_steps == 1);
  CHECK(key.least_steps == Approx(1));
  // Alike candidates count once: 20 runs of one kind are searched.
  std::string alike = mould;
  for (int i = 0; i < 20; ++i) alike += run("r" + std::to_string(i), "vents = " + std::to_string(i % 3));
  const Part of_three{alike};
  CHECK(make_key(of_three.table).optimal);
}

TEST_CASE("a key of nothing has no node") {
  const Part part{lantern + "[[mould]]\nid = \"m\"\n"};
  CHECK(make_key(part.table).nodes.empty());
}
