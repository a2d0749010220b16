#include <catch2/catch.hpp>

#include "drawings/text.hpp"

using namespace coeval;

TEST_CASE("a text that goes on a line is left as it is") {
  CHECK(wrap("Ring top", Style::label, 200, 3) == std::vector<std::string>{"Ring top"});
  CHECK(wrap("", Style::label, 200, 3) == std::vector<std::string>{""});
}

TEST_CASE("a longer text is broken at its spaces") {
  const auto lines = wrap("signal red with the long handle", Style::label, 120, 9);
  REQUIRE(lines.size() >= 2);
  std::string joined;
  for (const std::string& line : lines) {
    CHECK(text_width(line, Style::label) <= 120);
    joined += (joined.empty() ? "" : " ") + line;
  }
  CHECK(joined == "signal red with the long handle");
}

TEST_CASE("what does not go on the lines that there are ends in an ellipsis, within the width") {
  for (const double width : {30.0, 57.0, 120.0, 333.0})
    for (const std::size_t most : {1U, 2U, 3U})
      for (const std::string& text :
           {std::string(10'000, 'W'), std::string("one two three four five six seven eight nine "
                                                  "ten eleven twelve thirteen fourteen fifteen")}) {
        const auto lines = wrap(text, Style::label_strong, width, most);
        REQUIRE(lines.size() <= most);
        for (const std::string& line : lines) CHECK(text_width(line, Style::label_strong) <= width);
        if (text.size() == 10'000) CHECK(lines.back().ends_with("…"));
      }
}

TEST_CASE("a word is not cut inside a character") {
  // A letter with two accents, a family of three joined figures, a flag of two letters.
  const std::string accented = "e\u0301\u0323";
  const std::string family = "👨\u200d👩\u200d👧";
  std::string text;
  for (int i = 0; i < 40; ++i) text += accented + family + "🇬🇧";
  for (double width = 20; width < 300; width += 7) {
    std::string line = shorten(text, Style::label, width);
    REQUIRE(line.ends_with("…"));
    line.resize(line.size() - std::string_view{"…"}.size());
    while (!line.empty()) {
      const bool whole = line.starts_with(accented) || line.starts_with(family) || line.starts_with("🇬🇧");
      REQUIRE(whole);
      line.erase(0, line.starts_with(accented) ? accented.size() : line.starts_with(family) ? family.size() : 8);
    }
  }
}

TEST_CASE("characters that control are spaces, and bytes that are no text show as such") {
  CHECK(one_line("a\nb\t\u202Ec\u2066 ") == "a b c");
  CHECK(wrap("a\nb", Style::label, 200, 1) == std::vector<std::string>{"a b"});
  CHECK(one_line("a\xFF"
                 "b") == "a\uFFFDb");
}

TEST_CASE("letters of other scripts take room") {
  CHECK(text_width("漢字", Style::label) > text_width("ab", Style::label));
  CHECK(text_width("e\u0301", Style::label) == text_width("e", Style::label));
  CHECK(text_width("WWW", Style::label) > 2 * text_width("iii", Style::label));
  CHECK(text_width("Ring", Style::label_strong) > text_width("Ring", Style::label));
}
