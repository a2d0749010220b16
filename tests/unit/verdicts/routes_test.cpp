// Could parts of a run reach the packer of an issue, and when is it surely not so?
#include <catch2/catch.hpp>

#include "verdicts/route.hpp"
#include "world.hpp"

using namespace coeval;
using world::Said;
using world::verdict;
using world::World;
using Lines = std::vector<std::string>;

namespace {

const std::string documented = "basis = \"documented\"\nsource = [\"log p. 7\"]\n";

std::string plant(const std::string& id, bool complete, const std::string& backing = documented) {
  return "[[plant]]\nid = \"" + id + "\"\nname = \"" + id + "\"\n" + (complete ? "routes-complete = true\n" : "") +
         backing;
}
std::string route(const std::string& from, const std::string& to, const std::string& keys = "",
                  const std::string& backing = documented) {
  return "[[route]]\nid = \"" + from + "-" + to + "\"\nfrom = \"" + from + "\"\nto = \"" + to + "\"\n" + keys + backing;
}

// Made at Porto, packed at Cork; both times of the run and the issue are open enough to fit.
World apart(const std::string& plants) {
  World it;
  it.run_plant = "plant = \"porto\"\n";
  it.plants = plants;
  return it;
}

} // namespace

TEST_CASE("silence is not a no") {
  const Said said{apart(plant("cork", false) + plant("porto", true))};
  CHECK(said.verdict() == "open");
  CHECK(said.ground(Ground::route) == "undecided");
  CHECK(said.judgement.would_settle == Lines{"whether porto ever supplied cork"});
}

TEST_CASE("misrouted: every route into the packer is entered, and none comes from there") {
  const Said said{apart(plant("cork", true) + plant("porto", false))};
  CHECK(said.verdict() == "misrouted on documented");
  CHECK(said.proof(Ground::route) == Lines{"lantern/ring/brass was made at porto", "maren/first was packed at cork",
                                           "every route into cork is entered"});
}

TEST_CASE("misrouted on the basis of the weakest of what it rests on") {
  CHECK(verdict(apart(plant("cork", true, "") + plant("porto", false))) == "misrouted on conjectured");
  World it = apart(plant("cork", true) + plant("porto", false));
  it.run_plant += "basis = \"observed\"\nsource = [\"log p. 3\"]\n";
  CHECK(verdict(it) == "misrouted on observed");
}

TEST_CASE("that routes are complete counts on its own basis only") {
  const World it = apart(plant("cork", true, "") + plant("porto", false));
  CHECK(verdict(it, Basis::reported) == "open");
}

TEST_CASE("a route that was always open carries it") {
  const Said said{apart(plant("cork", true) + plant("porto", false) +
                        route("porto", "cork", "active = \"1970-01-01/1985-12-31\"\n"))};
  CHECK(said.verdict() == "fits on documented");
  CHECK(said.words(Ground::route) == "went from porto to cork");
}

TEST_CASE("a route without dates may have carried it") {
  const Said said{apart(plant("cork", true) + plant("porto", false) + route("porto", "cork"))};
  CHECK(said.verdict() == "open");
  CHECK(said.judgement.would_settle == Lines{"when parts went from porto to cork"});
}

TEST_CASE("a route that was closed before, or opened after, carried nothing") {
  const auto with = [](const std::string& active) {
    return verdict(
        apart(plant("cork", true) + plant("porto", false) + route("porto", "cork", "active = \"" + active + "\"\n")));
  };
  CHECK(with("1970-01-01/1976-07-31") == "misrouted on documented"); // closed a day before the first was made
  CHECK(with("1970-01-01/1976-08-01") == "fits on documented");
  CHECK(with("1980-01-01/1985-12-31") == "misrouted on documented"); // opened a day after the last was packed
  CHECK(with("1979-03-31/1985-12-31") == "fits on documented");      // the last made had waited for exactly 90 days
  CHECK(with("1979-04-01/1985-12-31") == "misrouted on documented"); // a day longer than stock was kept
}

TEST_CASE("a route carries only what it is said to") {
  const auto with = [](const std::string& carries) {
    World it = apart(plant("cork", true) + plant("porto", false) +
                     route("porto", "cork", "active = \"1970-01-01/1985-12-31\"\n" + carries));
    it.more = "[accessory]\nid = \"horn\"\nname = \"Horn\"\nslot = \"hand\"\n";
    return verdict(it);
  };
  CHECK(with("carries = [\"horn\"]\n") == "misrouted on documented");
  CHECK(with("carries = [\"horn\", \"lantern\"]\n") == "fits on documented");
}

TEST_CASE("several hops, each open when the one before could feed it") {
  const auto with = [](const std::string& first, const std::string& second) {
    return Said{apart(plant("cork", true) + plant("porto", false) + plant("turku", true) + plant("hal", true) +
                      route("porto", "turku", "active = \"" + first + "\"\n") +
                      route("turku", "cork", "active = \"" + second + "\"\n") +
                      route("hal", "turku", "active = \"1970-01-01/1985-12-31\"\n"))};
  };
  const Said open = with("1977-01-01/1978-12-31", "1978-06-01/1979-06-30");
  CHECK(open.verdict() == "fits on documented");
  CHECK(open.words(Ground::route) == "went from porto to turku to cork");
  const Lines proof = open.proof(Ground::route);
  CHECK(std::ranges::count(proof, "porto supplied turku") == 1);
  CHECK(std::ranges::count(proof, "turku supplied cork") == 1);
  // The second had closed before the first opened.
  CHECK(with("1978-01-01/1979-12-31", "1976-08-01/1977-12-31").verdict() == "misrouted on documented");
  // Longer between the two than stock was kept.
  CHECK(with("1977-01-01/1977-12-31", "1978-06-01/1979-06-30").verdict() == "misrouted on documented");
}

TEST_CASE("every hop must be open when the run was made, not only the first") {
  const auto made = [](const std::string& dates) {
    World it = apart(plant("cork", true) + plant("porto", false) + plant("turku", true) +
                     route("porto", "turku", "active = \"1977-01-01/1979-12-31\"\n") +
                     route("turku", "cork", "active = \"1977-01-01/1977-12-31\"\n"));
    it.made = "made = \"" + dates + "\"\n";
    return verdict(it);
  };
  CHECK(made("1977-12-31/1978-12-31") == "fits on documented");
  CHECK(made("1978-01-01/1978-12-31") == "misrouted on documented");
}

TEST_CASE("a no needs complete routes into every plant on the way") {
  const auto with = [](bool turku, bool hal) {
    return verdict(apart(plant("cork", true) + plant("porto", false) + plant("turku", turku) + plant("hal", hal) +
                         route("turku", "cork") + route("hal", "turku")));
  };
  CHECK(with(true, true) == "misrouted on documented");
  CHECK(with(false, true) == "open");
  CHECK(with(true, false) == "open");
  // A plant whose own way to Cork is closed cannot have passed anything on.
  CHECK(verdict(apart(plant("cork", true) + plant("porto", false) + plant("turku", false) +
                      route("turku", "cork", "active = \"1985-01-01/1985-12-31\"\n"))) == "misrouted on documented");
}

TEST_CASE("chains longer than are followed are not a no") {
  std::string plants = plant("cork", true) + plant("porto", true);
  std::string last = "cork";
  for (int hop = 1; hop <= most_hops; ++hop) {
    const std::string next = "p" + std::to_string(hop);
    plants += plant(next, true) + route(next, last);
    last = next;
  }
  CHECK(verdict(apart(plants)) == "open");
  CHECK(verdict(apart(plants + route("porto", last, "active = \"1970-01-01/1985-12-31\"\n"))) == "open");
}

TEST_CASE("routes in a circle end the search") {
  CHECK(verdict(apart(plant("cork", true) + plant("porto", false) + plant("turku", true) + route("turku", "cork") +
                      route("cork", "turku") + "[[route]]\nid = \"round\"\nfrom = \"turku\"\nto = \"turku\"\n")) ==
        "misrouted on documented");
}

TEST_CASE("a route on weaker evidence than asked for is no yes, and no reason for a no") {
  const World it = apart(plant("cork", true) + plant("porto", false) +
                         route("porto", "cork", "active = \"1970-01-01/1985-12-31\"\n", ""));
  CHECK(verdict(it) == "fits on conjectured");
  CHECK(verdict(it, Basis::reported) == "open");
}

TEST_CASE("of several ways the one on the strongest evidence is told") {
  const std::string always = "active = \"1970-01-01/1985-12-31\"\n";
  const Said said{apart(plant("cork", true) + plant("porto", false) + plant("turku", true) +
                        route("porto", "cork", always, "") + route("porto", "turku", always) +
                        route("turku", "cork", always))};
  CHECK(said.verdict() == "fits on documented");
  CHECK(said.words(Ground::route) == "went from porto to turku to cork");
}

TEST_CASE("without a plant or a packer the route is open") {
  World it;
  it.run_plant = "";
  CHECK(Said{it}.judgement.would_settle == Lines{"which plant made lantern/ring/brass"});
  it = World{};
  it.packer = "";
  CHECK(Said{it}.judgement.would_settle == Lines{"which plant packed maren/first"});
}
