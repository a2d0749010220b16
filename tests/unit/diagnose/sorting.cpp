// In which order are diagnostics shown, and which are the same?
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "diagnose/diagnostic.hpp"

using namespace coeval;

namespace {

Diagnostic at(std::uint32_t file, std::uint32_t byte, Code code, std::string message = "m") {
  Diagnostic diagnostic;
  diagnostic.code = code;
  diagnostic.place = {FileIndex{file}, byte, byte + 1};
  diagnostic.message = std::move(message);
  return diagnostic;
}

Diagnostic whole(std::string path) {
  Diagnostic diagnostic;
  diagnostic.code = Code::unreadable_file;
  diagnostic.path = std::move(path);
  return diagnostic;
}

} // namespace

TEST_CASE("diagnostics come by file, byte and code, files as a whole first, whatever the order of reports") {
  const std::vector<Diagnostic> expected{whole("a.toml"),
                                         whole("b.toml"),
                                         at(0, 3, Code::wrong_type),
                                         at(0, 7, Code::unknown_key),
                                         at(0, 7, Code::contradiction, "a"),
                                         at(0, 7, Code::contradiction, "b"),
                                         at(1, 0, Code::broken_toml)};
  std::vector<Diagnostic> reports = expected;
  std::mt19937 random{7};
  for (int round = 0; round < 20; ++round) {
    std::ranges::shuffle(reports, random);
    Diagnostics first;
    Diagnostics second;
    for (std::size_t i = 0; i < reports.size(); ++i) (i % 2 == 0 ? first : second).report(reports[i]);
    first.merge(std::move(second));
    const auto sorted = first.sorted();
    REQUIRE(sorted.size() == expected.size());
    for (std::size_t i = 0; i < sorted.size(); ++i) {
      CHECK(sorted[i].code == expected[i].code);
      CHECK(sorted[i].place == expected[i].place);
      CHECK(sorted[i].path == expected[i].path);
      CHECK(sorted[i].message == expected[i].message);
    }
  }
}

TEST_CASE("only exact repeats are dropped") {
  Diagnostics out;
  CHECK(out.sorted().empty());
  CHECK_FALSE(out.has_errors());
  out.report(at(0, 3, Code::no_outfit));
  out.report(at(0, 3, Code::no_outfit));
  CHECK(out.sorted().size() == 1);
  CHECK(out.count(Severity::warning) == 1);
  CHECK_FALSE(out.has_errors());
  Diagnostic labelled = at(0, 3, Code::no_outfit);
  labelled.labels.push_back({{FileIndex{0}, 1, 2}, "the issue"});
  out.report(labelled);
  Diagnostic reasoned = at(0, 3, Code::no_outfit);
  reasoned.reasons.push_back({.statement = "it was so"});
  out.report(reasoned);
  reasoned.reasons.front().weakest = true;
  out.report(reasoned);
  Diagnostic fixed = at(0, 3, Code::no_outfit);
  fixed.fix = Fix{fixed.place, "x", false};
  out.report(fixed);
  CHECK(out.sorted().size() == 5);
  CHECK(out.count(Severity::warning) == 5);
  CHECK(out.count(Severity::error) == 0);
  out.report(at(0, 3, Code::unknown_key));
  CHECK(out.has_errors());
  CHECK(out.count(Severity::error) == 1);
}

TEST_CASE("bases are named and ordered from the strongest") {
  CHECK(name(Basis::documented) == "documented");
  CHECK(name(Basis::observed) == "observed");
  CHECK(name(Basis::reported) == "reported");
  CHECK(name(Basis::conjectured) == "conjectured");
  CHECK(std::ranges::is_sorted(all_bases));
}
