// Is a generated knowledge base what it is meant to be: sound, the same every time, and wrong exactly where asked for?
//
// Benchmarks and tests of size rest on it. Seeds are fixed and printed.
#include <filesystem>
#include <map>
#include <random>
#include <string>

#include <catch2/catch.hpp>

#include "generate/folder.hpp"
#include "pipeline.hpp"

using namespace coeval;

namespace {

// A folder of its own, gone with the test.
class Scratch {
public:
  Scratch()
      : path_(std::filesystem::temp_directory_path() / ("coeval-scale-" + std::to_string(std::random_device{}()))) {}
  ~Scratch() { std::filesystem::remove_all(path_); }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
  std::filesystem::path path_;
};

std::map<std::string, std::string> files_of(const generated::Plan& plan) {
  std::map<std::string, std::string> files;
  generated::write_history(plan, [&](const std::string& path, const std::string& text) {
    CHECK(files.emplace(path, text).second); // no two files of one name
  });
  return files;
}

Compiled compiled(const generated::Plan& plan) {
  const Scratch folder;
  generated::write_folder(plan, folder.path());
  return compile(folder.path(), Depth::in_full);
}

} // namespace

TEST_CASE("a generated knowledge base has nothing wrong with it") {
  const auto [seed, links, runs_per_line] =
      GENERATE(table<std::uint64_t, std::uint32_t, std::uint32_t>({{1976, 15, 5'000}, {2, 0, 400}, {3, 50, 250}}));
  CAPTURE(seed, links, runs_per_line);
  const Compiled kb = compiled({.runs = 1'000, .seed = seed, .links = links, .runs_per_line = runs_per_line});
  for (const Diagnostic& diagnostic : kb.diagnostics)
    UNSCOPED_INFO(row(diagnostic.code).name << ": " << diagnostic.message);
  CHECK(kb.diagnostics.empty());
  CHECK(kb.kb->runs.size() >= 1'000);
  CHECK(kb.kb->runs.size() < 1'020);
  CHECK(kb.kb->lines.size() == std::max(1U, 1'000 / runs_per_line));
  CHECK((links == 0) == kb.kb->timings.empty());
}

TEST_CASE("as many contradictions are found as were planted, each by its planted statement") {
  const auto [seed, count] = GENERATE(table<std::uint64_t, std::uint32_t>({{1976, 1}, {4, 20}, {5, 50}}));
  CAPTURE(seed, count);
  const Compiled kb = compiled({.runs = 1'000, .seed = seed, .contradictions = count});
  std::uint32_t contradictions = 0;
  for (const Diagnostic& diagnostic : kb.diagnostics) {
    INFO(diagnostic.message);
    REQUIRE(diagnostic.code == Code::contradiction);
    ++contradictions;
    bool planted = false; // nothing else is conjectured
    for (const Reason& reason : diagnostic.reasons)
      planted = planted || (reason.weakest && reason.basis == Basis::conjectured);
    CHECK(planted);
  }
  CHECK(contradictions == count);
}

TEST_CASE("the same plan gives the same bytes, another seed others") {
  const generated::Plan plan{.runs = 1'000, .seed = 7, .links = 50, .contradictions = 3, .runs_per_line = 300};
  const auto files = files_of(plan);
  CHECK(files.size() > 300);
  CHECK(files == files_of(plan));
  generated::Plan other = plan;
  other.seed = 8;
  CHECK(files != files_of(other));
}
