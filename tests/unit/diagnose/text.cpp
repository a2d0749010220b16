// Is a diagnostic laid out so that one sees what is wrong, and can no text of a file disturb the terminal?
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <sstream>

#include "diagnose/render.hpp"

using namespace coeval;

namespace {

const FileIndex first_file{0};

SourceSet set_of(std::string text, std::string path = "figures/keeper-maren.toml") {
  SourceSet set;
  set.root = "kb";
  set.files.emplace_back(std::move(path), std::move(text));
  return set;
}

// The span of the first occurrence of a piece of text.
Span span_of(const SourceSet& set, std::string_view piece) {
  const std::size_t begin = set.files[0].text().find(piece);
  REQUIRE(begin != std::string_view::npos);
  return {first_file, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(begin + piece.size())};
}

Diagnostic wrong(Span place, std::string message, Code code = Code::unknown_key) {
  Diagnostic diagnostic;
  diagnostic.code = code;
  diagnostic.place = place;
  diagnostic.message = std::move(message);
  return diagnostic;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream in{text};
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

// Columns of a line of ASCII and of the few letters that the tests use, told by their bytes.
std::size_t width_of(std::string_view line) {
  std::size_t width = 0;
  for (const char c : line) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte & 0xC0U) != 0x80U) ++width;      // one for each code point …
    if (byte >= 0xE4 && byte <= 0xE9) ++width; // … CJK ideographs take two
    if (byte >= 0xF0) ++width;                 // … and so do the pictures of the astral planes
    if (byte == 0xCC) --width;                 // … and accents, U+0300 to U+033F, none
  }
  return width;
}

} // namespace

TEST_CASE("a diagnostic shows its place, its line, the repair and the totals") {
  const SourceSet set = set_of("[figure]\nid = \"keeper-maren\"\nnmae = \"Keeper Maren\"\n");
  Diagnostic diagnostic = wrong(span_of(set, "nmae"), "[figure] has no key `nmae`");
  diagnostic.help = "did you mean `name`?";
  diagnostic.fix = Fix{diagnostic.place, "name", false};
  CHECK(render_text({diagnostic}, set, {}) == R"(error[unknown-key] figures/keeper-maren.toml:3:1
  [figure] has no key `nmae`

  3 | nmae = "Keeper Maren"
    | ^^^^
  help: did you mean `name`?
  fix, if that was meant:
  3 | name = "Keeper Maren"
    | ++++

1 error
)");
  CHECK(render_text({}, set, {}).empty());
}

TEST_CASE("labels are further snippets, and all share one gutter") {
  std::string text = "[issue]\n";
  for (int i = 0; i < 8; ++i) text += "\n";
  const SourceSet set = set_of(text + "[second]\n");
  Diagnostic diagnostic = wrong(span_of(set, "[second]"), "there are two", Code::duplicate_id);
  diagnostic.labels.push_back({span_of(set, "[issue]"), "first used here"});
  diagnostic.labels.push_back({{}, "and in a letter"});
  CHECK(render_text({diagnostic}, set, {}) == R"(error[duplicate-id] figures/keeper-maren.toml:10:1
  there are two

  10 | [second]
     | ^^^^^^^^
  first used here (figures/keeper-maren.toml:1:1)
   1 | [issue]
     | -------
  and in a letter

1 error
)");
}

TEST_CASE("reasons are numbered, with basis, sources and place, and the weakest is marked") {
  const SourceSet set = set_of("[[mould]]\n");
  const std::vector<Reason> reasons{
      {.statement = "ring-top was in the press until 1981-01 or later",
       .place = span_of(set, "mould"),
       .basis = Basis::documented,
       .sources = {"trade-catalogue-1981 p. 9", "press-log f. 2"}},
      {.statement = "plain-top came after ring-top was retired", .basis = Basis::observed, .weakest = true},
      {.statement = "plain-top did not end before it began", .definition = true}};
  CHECK(render_reasons(reasons, set, {}) == R"(  1. ring-top was in the press until 1981-01 or later
     documented: trade-catalogue-1981 p. 9; press-log f. 2 (figures/keeper-maren.toml:1:3)
  2. plain-top came after ring-top was retired
     observed
     <- doubt this one first
  3. plain-top did not end before it began
     by definition
)");
  CHECK(render_reasons({}, set, {}).empty());
  const std::vector<Reason> many(10, reasons[2]);
  CHECK(lines_of(render_reasons(many, set, {}))[0] == "   1. plain-top did not end before it began");
  CHECK(lines_of(render_reasons(many, set, {}))[18] == "  10. plain-top did not end before it began");
}

TEST_CASE("a trouble with a whole file has its path and no snippet") {
  Diagnostic diagnostic = wrong({}, "this file could not be read", Code::unreadable_file);
  diagnostic.path = "figures/gone.toml";
  CHECK(render_text({diagnostic}, SourceSet{}, {}) ==
        "error[unreadable-file] figures/gone.toml\n  this file could not be read\n\n1 error\n");
}

TEST_CASE("the totals count each severity") {
  const SourceSet set = set_of("x\n");
  const Diagnostic error = wrong({first_file, 0, 1}, "e");
  const Diagnostic warning = wrong({first_file, 0, 1}, "w", Code::no_outfit);
  const auto last = [&](const std::vector<Diagnostic>& list) { return lines_of(render_text(list, set, {})).back(); };
  CHECK(last({error, warning, error}) == "2 errors, 1 warning");
  CHECK(last({warning, warning}) == "2 warnings");
}

TEST_CASE("marks stand under what they mean, whatever stands before it") {
  const auto marks = [](const std::string& text, std::string_view piece) {
    const SourceSet set = set_of(text);
    const auto lines = lines_of(render_text({wrong(span_of(set, piece), "m")}, set, {}));
    REQUIRE(lines.size() > 4);
    return std::pair{lines[3], lines[4]};
  };
  SECTION("wide letters take two columns") {
    const auto [line, mark] = marks("n = \"\xE7\x81\xAF\xE7\xAC\xBC\" # bad\n", "bad");
    CHECK(mark == "    |" + std::string(14, ' ') + "^^^");
    CHECK(line == "  1 | n = \"\xE7\x81\xAF\xE7\xAC\xBC\" # bad");
  }
  SECTION("a wide letter is marked with two columns") {
    CHECK(marks("a\xE7\x81\xAF\n", "\xE7\x81\xAF").second == "    |  ^^");
  }
  SECTION("an accent takes none") { CHECK(marks("e\xCC\x81 bad\n", "bad").second == "    |   ^^^"); }
  SECTION("tabs reach to the next multiple of four") {
    const auto [line, mark] = marks("\tid\t= 1\n", "=");
    CHECK(line == "  1 |     id  = 1");
    CHECK(mark == "    |         ^");
  }
  SECTION("a byte order mark takes none") { CHECK(marks("\xEF\xBB\xBFid = 1\n", "id").second == "    | ^^"); }
  SECTION("what is spelt out takes its spelling") {
    const auto [line, mark] = marks("a\xE2\x80\xAE"
                                    "b bad\n",
                                    "bad");
    CHECK(line == "  1 | a<U+202E>b bad");
    CHECK(mark == "    |            ^^^");
  }
}

TEST_CASE("odd spans are marked too") {
  const SourceSet set = set_of("one\r\ntwo three\n\nend");
  const auto shown = [&](std::uint32_t begin, std::uint32_t end) {
    const auto lines = lines_of(render_text({wrong({first_file, begin, end}, "m")}, set, {}));
    std::string text;
    for (std::size_t i = 3; i < lines.size() && !lines[i].empty(); ++i) text += lines[i] + "\n";
    return text;
  };
  CHECK(shown(1, 1) == "  1 | one\n    |  ^\n");   // empty: between two bytes
  CHECK(shown(3, 5) == "  1 | one\n    |    ^\n"); // the line break
  CHECK(shown(5, 8) == "  2 | two three\n    | ^^^\n");
  CHECK(shown(9, 18) == "  2 | two three\n    |     ^^^^^\n    | \xE2\x80\xA6 to line 4\n");
  CHECK(shown(15, 15) == "  3 |\n    | ^\n");                                    // an empty line
  CHECK(shown(19, 19) == "  4 | end\n    |    ^\n");                             // the end of the file
  CHECK(shown(500, 900) == "  4 | end\n    |    ^\n");                           // past it
  CHECK(shown(8, 2) == "  2 | two three\n    |    ^\n");                         // turned round
  const auto nowhere = render_text({wrong({FileIndex{9}, 0, 1}, "m")}, set, {}); // no such file
  CHECK(nowhere == "error[unknown-key]\n  m\n\n1 error\n");
}

TEST_CASE("a repair may take out, or run over several lines") {
  const SourceSet set = set_of("market = [\"gb\", \"ie\", \"gb\"]\nnext = 1\n");
  Diagnostic diagnostic = wrong(span_of(set, ", \"gb\"]"), "m");
  const auto fixed = [&](std::string replacement, bool certain) {
    diagnostic.fix =
        Fix{{first_file, diagnostic.place.begin, diagnostic.place.end - 1}, std::move(replacement), certain};
    const std::string text = render_text({diagnostic}, set, {});
    return text.substr(text.find("  fix"));
  };
  CHECK(fixed("", true) == "  fix:\n  1 | market = [\"gb\", \"ie\"]\n    |                     +\n\n1 error\n");
  CHECK(
      fixed(",\n \"hk\"", true) ==
      "  fix:\n  1 | market = [\"gb\", \"ie\",\n    |                     +\n  2 |  \"hk\"]\n    | +++++\n\n1 error\n");
  diagnostic.fix = Fix{{first_file, 0, 34}, "all = 2", false}; // a span over two lines
  const std::string text = render_text({diagnostic}, set, {});
  CHECK(text.substr(text.find("  fix")) == "  fix, if that was meant:\n  1 | all = 2 1\n    | +++++++\n\n1 error\n");
}

TEST_CASE("long lines are cut around the mark") {
  const std::string filler(300, 'x');
  const SourceSet set = set_of("a = \"" + filler + "\" # bad \"" + filler + "\"\n");
  const auto drawn = [&](Span place, int width) {
    const auto lines = lines_of(render_text({wrong(place, "m")}, set, {.width = width}));
    REQUIRE(lines.size() > 4);
    return std::pair{lines[3], lines[4]};
  };
  for (const int width : {40, 41, 60, 100, 101}) {
    INFO(width);
    const auto [line, mark] = drawn(span_of(set, "bad"), width);
    CHECK(width_of(line) <= static_cast<std::size_t>(width));
    CHECK(width_of(line) + 4 >= static_cast<std::size_t>(width)); // the room is used
    CHECK(line.starts_with("  1 | \xE2\x80\xA6x"));
    CHECK(line.ends_with("x\xE2\x80\xA6"));
    const std::size_t at = line.find("bad");
    REQUIRE(at != std::string::npos);
    CHECK(width_of(line.substr(0, at)) == mark.find('^')); // the marks are ASCII up to there
    CHECK(mark.ends_with("^^^"));
  }
  const auto [start, under_start] = drawn({first_file, 0, 1}, 40);
  CHECK(start.starts_with("  1 | a = \"xxx"));
  CHECK(start.ends_with("\xE2\x80\xA6"));
  CHECK(under_start == "    | ^");
  const std::uint32_t size = static_cast<std::uint32_t>(set.files[0].text().size());
  const auto [end, under_end] = drawn({first_file, size - 2, size - 1}, 40);
  CHECK(end.ends_with("x\""));
  CHECK(width_of(end) == width_of(under_end));
  const auto [wide, under_wide] = drawn({first_file, 2, size - 2}, 40); // wider than the terminal itself
  CHECK(width_of(wide) <= 40);
  CHECK(width_of(under_wide) <= 40);
}

TEST_CASE("a line of four megabytes is drawn at once") {
  const SourceSet set = set_of(std::string(std::size_t{4} << 20, 'x'));
  const std::uint32_t middle = 2 << 20;
  const auto lines =
      lines_of(render_text(std::vector<Diagnostic>(2000, wrong({first_file, middle, middle + 1}, "m")), set, {}));
  CHECK(lines[3].size() < 120);
  CHECK(lines[4].back() == '^');
}

TEST_CASE("text is wrapped at spaces to the width, and never below 40") {
  const std::string text = "the plain top was in the press when the ring top had been retired for more than a year";
  for (const int width : {-3, 0, 40, 47, 60, 200}) {
    const auto lines = lines_of(wrap(text, 4, {.width = width}));
    std::string joined;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      CHECK(lines[i].size() + (i == 0 ? 4 : 0) <= static_cast<std::size_t>(std::max(40, width)));
      if (i > 0) CHECK(lines[i].starts_with("    "));
      joined += (i == 0 ? "" : " ") + lines[i].substr(i == 0 ? 0 : 4);
    }
    CHECK(joined == text);
    CHECK((lines.size() > 1) == (width < 90));
  }
  CHECK(columns({.width = -3}) == 40);
  CHECK(columns({.width = 40}) == 40);
  CHECK(columns({.width = 41}) == 41);
  CHECK(wrap("", 2, {}).empty());
  CHECK(wrap("  two   words ", 2, {}) == "two words");
  const auto cut = lines_of(wrap(std::string(100, 'a') + " b", 0, {.width = 40})); // a word wider than a line
  CHECK(cut == std::vector<std::string>{std::string(40, 'a'), std::string(40, 'a'), std::string(20, 'a') + " b"});
  const auto wide =
      lines_of(wrap("\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF"
                    "\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF"
                    "\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF\xE7\x81\xAF",
                    0, {.width = 40}));
  CHECK(wide.size() == 2); // 21 letters of two columns
}

TEST_CASE("what could disturb a terminal is replaced or spelt out") {
  CHECK(printable("plain text, h\xC3\xB6he \xE7\x81\xAF") == "plain text, h\xC3\xB6he \xE7\x81\xAF");
  CHECK(printable("a\tb\nc\r\nd") == "a b c d");
  CHECK(printable("\x1b[31mred\x07") == "\xEF\xBF\xBD[31mred\xEF\xBF\xBD");
  CHECK(printable(std::string_view{"\0", 1}) == "\xEF\xBF\xBD");
  CHECK(printable("a\rb") == "a\xEF\xBF\xBD"
                             "b");
  CHECK(printable("\xC2\x9B"
                  "31m") == "\xEF\xBF\xBD"
                            "31m"); // the one-byte CSI of C1
  CHECK(printable("\x7F") == "\xEF\xBF\xBD");
  CHECK(printable("\xFFz") == "\xEF\xBF\xBDz");
  CHECK(printable("\xE2\x80\xAE"
                  "abc") == "<U+202E>abc"); // right-to-left override
  CHECK(printable("\xE2\x81\xA6"
                  "abc") == "<U+2066>abc");                       // isolate
  CHECK(printable("ring\xE2\x80\x8B-top") == "ring<U+200B>-top"); // zero width space
  CHECK(printable("\xEF\xBB\xBF") == "<U+FEFF>");                 // byte order mark inside a text
  CHECK(printable("a\xE2\x80\xA8"
                  "b") == "a<U+2028>b");               // line separator
  CHECK(printable("\xE3\x85\xA4") == "<U+3164>");      // Hangul filler
  CHECK(printable("\xEF\xB8\x8F") == "<U+FE0F>");      // variation selector
  CHECK(printable("\xF3\xA0\x81\x81") == "<U+E0041>"); // tag letter
  CHECK(printable("\xEE\x80\x80") == "<U+E000>");      // private use
  CHECK(printable("e\xCC\x81") == "e\xCC\x81");
  std::string pile = "e";
  for (int i = 0; i < 6; ++i) pile += "\xCC\x81";
  CHECK(printable(pile) == "e\xCC\x81\xCC\x81\xCC\x81\xCC\x81<U+0301>\xCC\x81");
}

TEST_CASE("no bytes of a file, path or message reach the terminal as controls, and no line grows too wide") {
  std::mt19937 random{11};
  const std::vector<std::string> pieces{"\x1b[2J",
                                        "\r",
                                        "\xC2\x9B",
                                        "\xE2\x80\xAE",
                                        "\xE2\x81\xA9",
                                        "\xE2\x80\x8F",
                                        "\xFF",
                                        "\xED\xA0\x80",
                                        "\x08",
                                        "\x7F",
                                        "\t",
                                        "word ",
                                        "`id`",
                                        "\xC3\xB6",
                                        "\xE7\x81\xAF",
                                        "\xE2\x80\x8B",
                                        " ",
                                        "\xF0\x9F\x8F\xAE",
                                        "e\xCC\x81",
                                        std::string(60, 'w')};
  const auto text_of = [&](std::size_t length) {
    std::string text;
    for (std::size_t i = 0; i < length; ++i) text += pieces[random() % pieces.size()];
    return text;
  };
  for (int round = 0; round < 200; ++round) {
    SourceSet set = set_of(text_of(20) + "\n" + text_of(30) + "\n" + text_of(5), "f" + text_of(2));
    const auto size = static_cast<std::uint32_t>(set.files[0].text().size());
    const std::uint32_t begin = static_cast<std::uint32_t>(random() % (size + 1));
    Diagnostic diagnostic = wrong({first_file, begin, begin + static_cast<std::uint32_t>(random() % 40)}, text_of(12));
    diagnostic.help = text_of(12);
    diagnostic.labels.push_back({{first_file, size / 2, size / 2 + 3}, text_of(8)});
    diagnostic.reasons.push_back({.statement = text_of(9), .place = diagnostic.place, .sources = {text_of(9)}});
    diagnostic.fix = Fix{{first_file, begin, begin + 2}, text_of(4) + "\n" + text_of(1), false};
    const int width = 40 + static_cast<int>(random() % 60);
    const std::string text = render_text({diagnostic}, set, {.width = width});
    bool clean = true;
    for (std::size_t i = 0; i < text.size(); ++i) {
      const auto byte = static_cast<unsigned char>(text[i]);
      const std::string_view rest = std::string_view{text}.substr(i, 3);
      if ((byte < 0x20 && byte != '\n') || byte == 0x7F || byte == 0xFF) clean = false;
      if (rest.size() > 1 && byte == 0xC2 && static_cast<unsigned char>(rest[1]) < 0xA0) clean = false;
      if (rest == "\xE2\x80\xAE" || rest == "\xE2\x81\xA9" || rest == "\xE2\x80\x8F" || rest == "\xE2\x80\x8B")
        clean = false;
    }
    INFO(text);
    CHECK(clean);
    const auto lines = lines_of(text);
    std::size_t widest = 0;
    for (std::size_t i = 1; i < lines.size(); ++i) widest = std::max(widest, width_of(lines[i]));
    CHECK(widest <= static_cast<std::size_t>(width));
  }
}

TEST_CASE("colour is used only where it is asked for, and changes no letter") {
  const SourceSet set = set_of("nmae = 1\n");
  Diagnostic diagnostic = wrong(span_of(set, "nmae"), "m");
  diagnostic.help = "h";
  diagnostic.labels.push_back({span_of(set, "1"), "l"});
  diagnostic.reasons.push_back({.statement = "s", .weakest = true});
  diagnostic.fix = Fix{diagnostic.place, "name", true};
  const std::string plain = render_text({diagnostic}, set, {});
  std::string coloured = render_text({diagnostic}, set, {.colour = true});
  CHECK(plain.find('\x1b') == std::string::npos);
  CHECK(coloured.find("\x1b[1;31merror[unknown-key]\x1b[0m") == 0);
  CHECK(std::ranges::count(coloured, '\x1b') % 2 == 0);
  for (std::size_t escape = coloured.find('\x1b'); escape != std::string::npos; escape = coloured.find('\x1b'))
    coloured.erase(escape, coloured.find('m', escape) - escape + 1);
  CHECK(coloured == plain);
}
