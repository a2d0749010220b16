// What a seller is asked, in which order, and why.
#include <catch2/catch.hpp>

#include "examine/ask.hpp"
#include "part.hpp"

using namespace coeval;
using examining::lantern;
using examining::Names;
using examining::Part;

namespace {

const std::string offered = R"(
[[mould]]
id = "ring"
features = { top = "ring", vents = 4, height-mm = 21.5, flash = false }
[[mould.run]]
id = "brass"
[[mould]]
id = "plain"
features = { top = "plain", vents = 4, height-mm = 19.6, flash = false }
[[mould.run]]
id = "grey"
[[repro]]
id = "cast"
of = "ring/brass"
features = { height-mm = 20.8, melts = true }
[[repro]]
id = "trimmed"
of = "ring/brass"
features = { flash = true }
[[repro]]
id = "perfect"
of = "ring/brass"
)";

Names ids(const Part& part, const std::vector<Request>& requests) {
  Names names;
  for (const Request& request : requests) names.push_back(part.table.feature(at(request.feature)).id);
  return names;
}

} // namespace

TEST_CASE("a seller is asked for what decides, the rest waits for the part in the hand") {
  const Part part{lantern + offered};
  const Requests requests = what_to_ask(part.table, {}, part.find("ring/brass"));
  CHECK(part.addresses(requests.others) == Names{"plain/grey", "cast", "trimmed", "perfect"});
  // The top rules one of four out in one minute, the height two in two; that tells more a minute.
  CHECK(ids(part, requests.of_seller) == Names{"height-mm"});
  CHECK(part.addresses(requests.of_seller.at(0).rules_out) == Names{"plain/grey", "cast"});
  CHECK(ids(part, requests.in_hand) == Names{"flash"}); // never whether it melts
  CHECK(part.addresses(requests.in_hand.at(0).rules_out) == Names{"trimmed"});
  CHECK(part.addresses(requests.after_all) == Names{"perfect"});
}

TEST_CASE("what is known is not asked again") {
  const Part part{lantern + offered};
  const Requests requests = what_to_ask(part.table, {part.seen("height-mm=21.5±0.1")}, part.find("ring/brass"));
  CHECK(part.addresses(requests.others) == Names{"trimmed", "perfect"});
  CHECK(requests.of_seller.empty());
  CHECK(ids(part, requests.in_hand) == Names{"flash"});
}

TEST_CASE("nothing is asked about what is ruled out already, or cannot be anything else") {
  const Part part{lantern + offered};
  const Requests ruled_out = what_to_ask(part.table, {part.seen("top=plain")}, part.find("ring/brass"));
  CHECK(ruled_out.others.empty());
  CHECK(ruled_out.of_seller.empty());
  const Part only{lantern + "[[mould]]\nid = \"m\"\nfeatures = { top = \"ring\" }\n[[mould.run]]\nid = \"a\"\n"};
  const Requests nothing = what_to_ask(only.table, {}, 0);
  CHECK(nothing.others.empty());
  CHECK(nothing.of_seller.empty());
  CHECK(nothing.in_hand.empty());
}

TEST_CASE("a look that rules out only if the part shows it clearly says so") {
  const Part part{lantern + "[[mould]]\nid = \"m\"\nfeatures = { vents = [4, 6] }\n[[mould.run]]\nid = \"a\"\n"
                            "[[repro]]\nid = \"r\"\nof = \"m/a\"\nfeatures = { vents = 6 }\n"};
  const Requests requests = what_to_ask(part.table, {}, 0);
  REQUIRE(requests.of_seller.size() == 1);
  CHECK(requests.of_seller[0].rules_out.empty());
  CHECK(part.addresses(requests.of_seller[0].may_rule_out) == Names{"r"});
  CHECK(part.addresses(requests.after_all) == Names{"r"});
}
