// What no look can tell apart, and the guarded decisions behind it.
#include <catch2/catch.hpp>

#include <cmath>

#include "examine/looks.hpp"
#include "part.hpp"

using namespace coeval;
using examining::lantern;
using examining::Names;
using examining::Part;

namespace {

std::string run(const std::string& id, const std::string& stated) {
  return "[[mould.run]]\nid = \"" + id + "\"\nfeatures = { " + stated + " }\n";
}
const std::string mould = lantern + "[[mould]]\nid = \"m\"\n";

bool apart(const std::string& one, const std::string& other) {
  const Part part{mould + run("a", one) + run("b", other)};
  CHECK(told_apart(part.table, 0, 1) == told_apart(part.table, 1, 0));
  return told_apart(part.table, 0, 1);
}

} // namespace

TEST_CASE("two candidates are told apart where they state values that have nothing in common") {
  CHECK(apart("top = \"ring\"", "top = \"plain\""));
  CHECK_FALSE(apart("top = \"ring\"", "top = \"ring\""));
  CHECK_FALSE(apart("top = \"ring\"", "top = [\"ring\", \"plain\"]"));
  CHECK(apart("top = \"notch\"", "top = [\"ring\", \"plain\"]"));
  CHECK_FALSE(apart("top = \"ring\"", "vents = 4")); // neither says it of the other
  CHECK(apart("height-mm = 20", "height-mm = 20.7"));
  CHECK_FALSE(apart("height-mm = 20", "height-mm = 20.5"));
  CHECK_FALSE(apart("height-mm = 20", "height-mm = 20.6")); // both can measure 20.3
  CHECK(apart("stamp = \"KT\"", "stamp = \"HK\""));
  CHECK_FALSE(apart("stamp = \"Made  in KT\"", "stamp = \"MADE IN kt\"")); // letters are read, not capitals
  CHECK(apart("body-colour = { lab = [50, 0, 0] }", "body-colour = { lab = [80, 0, 0] }"));
  CHECK_FALSE(apart("body-colour = { lab = [50, 0, 0] }", "body-colour = { lab = [53, 0, 0] }"));
  CHECK(apart("body-colour = \"same-as-figure\"", "body-colour = { lab = [53, 0, 0] }"));
  CHECK_FALSE(apart("melts = true", "melts = false")); // nobody is told to try
  CHECK_FALSE(apart("weight-g = 1", "weight-g = 9"));  // without a tolerance nobody can say
}

TEST_CASE("sets of which no two can be told apart") {
  const Part part{mould + run("a", "top = \"ring\"") + run("b", "top = \"ring\"") + run("c", "top = \"plain\"") +
                  run("d", "vents = 4")};
  std::vector<Names> sets;
  for (const auto& set : alike_sets(part.table)) sets.push_back(part.addresses(set));
  CHECK(sets == std::vector<Names>{{"m/a", "m/b", "m/d"}, {"m/c", "m/d"}});
  const Part distinct{mould + run("a", "top = \"ring\"") + run("b", "top = \"plain\"")};
  CHECK(alike_sets(distinct.table).empty());
}

TEST_CASE("no more sets are looked for than asked") {
  std::string many = mould;
  for (int i = 0; i < 12; ++i)
    many += run("r" + std::to_string(i), (i % 2 == 0 ? "vents = " : "height-mm = ") + std::to_string(1 + i / 2 * 2));
  const Part part{many};
  CHECK(alike_sets(part.table).size() == 36); // each height with each count
  CHECK(alike_sets(part.table, 5).size() == 5);
}

TEST_CASE("the limits of a tolerance belong to it") {
  CHECK(guarded({9.9, 9.9}, {9.9, 10.1}) == Fit::inside);
  CHECK(guarded({9.8, 9.9}, {9.9, 10.1}) == Fit::undecided);
  CHECK(guarded({9.8, 9.8999}, {9.9, 10.1}) == Fit::outside);
  CHECK(guarded({9.8, 10.2}, {9.9, 10.1}) == Fit::undecided);
  CHECK(guarded(around(0.3, 0.0), around(0.2, 0.1)) == Fit::inside); // 0.2 + 0.1 is not 0.3 in binary
  CHECK(guarded_difference(3, 1, 4) == Fit::inside);
  CHECK(guarded_difference(3.5, 1, 4) == Fit::undecided);
  CHECK(guarded_difference(5.5, 1, 4) == Fit::outside);
  CHECK(guarded_difference(0.5, 1, 4) == Fit::inside);
}

TEST_CASE("a look tells nothing of what is silent") {
  // Two of four state the top, and differ: half the time the look tells which of the two.
  const Part part{mould + run("a", "top = \"ring\"") + run("b", "top = \"plain\"") + run("c", "vents = 4") +
                  run("d", "vents = 4")};
  const std::size_t top = at(part.it.kb.find_feature("top").value());
  CHECK(bits_told(part.table.columns[top], {0, 1, 2, 3}, {}) == Approx(0.5));
  CHECK(bits_told(part.table.columns[top], {0, 1}, {}) == Approx(1));
  CHECK(bits_told(part.table.columns[top], {0, 2}, {}) == 0);
  // Whether it is a: as likely as the three others together, and c and d show what a and b do.
  CHECK(bits_told(part.table.columns[top], {0, 1, 2, 3}, Classes::claimed_or_not(4, 0, 4)) > 0.1);
  CHECK(bits_told(part.table.columns[top], {0, 1, 2, 3}, Classes::claimed_or_not(4, 2, 4)) == 0);
}

TEST_CASE("so many colours and measures that they are counted by cells and joined stretches still tell") {
  std::string many = mould;
  std::vector<std::size_t> all;
  for (int i = 0; i < 600; ++i) {
    // Apart by 10 or more in some coordinate, which is more than a cell is wide; and a millimetre apart.
    const std::string lab = std::to_string(5 + i % 9 * 10) + ", " + std::to_string(i / 9 % 9 * 10 - 40) + ", " +
                            std::to_string(i / 81 * 10 - 40);
    many += run("r" + std::to_string(i),
                "height-mm = " + std::to_string(10 + i) + ", body-colour = { lab = [" + lab + "] }");
    all.push_back(static_cast<std::size_t>(i));
  }
  const Part part{many};
  const double bits = std::log2(600.0);
  const double by_colour = bits_told(part.table.columns[at(part.it.kb.find_feature("body-colour").value())], all, {});
  CHECK(by_colour == Approx(bits).margin(1e-6));
  // Joined stretches cannot tell some neighbours apart, and never tell more than there is to know.
  const double by_height = bits_told(part.table.columns[at(part.it.kb.find_feature("height-mm").value())], all, {});
  CHECK(by_height <= bits + 1e-9);
  CHECK(by_height > bits - 1.5);
  CHECK(part.left({"height-mm=309±0.2"}) == Names{"m/r299"});
}
