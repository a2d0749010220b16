// Where does a byte stand, and which byte stands at a place?
#include <catch2/catch.hpp>

#include <random>

#include "source/text.hpp"

using namespace coeval;

namespace {

void same(LineColumn place, std::uint32_t line, std::uint32_t column) {
  CHECK(place.line == line);
  CHECK(place.column == column);
}

} // namespace

TEST_CASE("lines and columns count from 1") {
  const SourceFile file{"a.toml", "id = 1\nname\n"};
  same(file.position(0), 1, 1);
  same(file.position(5), 1, 6);
  same(file.position(6), 1, 7); // the line break itself
  same(file.position(7), 2, 1);
  same(file.position(12), 3, 1); // the end: an empty last line
  same(file.position(9999), 3, 1);
  CHECK(file.line_count() == 3);
  CHECK(file.line(1) == "id = 1");
  CHECK(file.line(2) == "name");
  CHECK(file.line(3).empty());
  CHECK(file.line(0).empty());
  CHECK(file.line(4).empty());
}

TEST_CASE("a file may end without a line break, or be empty") {
  const SourceFile file{"a.toml", "one\ntwo"};
  CHECK(file.line_count() == 2);
  CHECK(file.line(2) == "two");
  same(file.position(7), 2, 4);
  const SourceFile empty{"b.toml", ""};
  CHECK(empty.line_count() == 1);
  CHECK(empty.line(1).empty());
  same(empty.position(0), 1, 1);
  same(empty.position(7), 1, 1);
  CHECK(empty.byte({1, 1}) == 0);
  CHECK(empty.byte({9, 9}) == 0);
}

TEST_CASE("CRLF ends a line and is not part of it; CR alone is") {
  const SourceFile file{"a.toml", "one\r\ntwo\rthree\r\n\r\nx\r"};
  CHECK(file.line_count() == 4);
  CHECK(file.line(1) == "one");
  CHECK(file.line(2) == "two\rthree");
  CHECK(file.line(3).empty());
  CHECK(file.line(4) == "x\r");
  same(file.position(5), 2, 1);
  same(file.position(9), 2, 5);
  CHECK(file.byte({1, 4}) == 3);
  CHECK(file.byte({1, 5}) == 3); // past the line's end is its end, before the CR
  CHECK(file.byte({3, 2}) == 16);
}

TEST_CASE("columns count code points, not bytes") {
  const SourceFile file{"a.toml", "h\xC3\xB6he = \"\xF0\x9F\x8F\xAE\"\n"};
  same(file.position(1), 1, 2);
  same(file.position(2), 1, 2); // inside the code point: its first byte
  same(file.position(3), 1, 3);
  same(file.position(9), 1, 9);
  same(file.position(12), 1, 9);
  same(file.position(13), 1, 10);
  CHECK(file.byte({1, 2}) == 1);
  CHECK(file.byte({1, 3}) == 3);
  CHECK(file.byte({1, 10}) == 13);
  CHECK(file.byte({1, 99}) == 14);
}

TEST_CASE("a byte order mark belongs to no column") {
  const SourceFile file{"a.toml", "\xEF\xBB\xBFid = 1\nx"};
  same(file.position(0), 1, 1);
  same(file.position(2), 1, 1);
  same(file.position(3), 1, 1);
  same(file.position(4), 1, 2);
  CHECK(file.byte({1, 1}) == 3);
  CHECK(file.byte({0, 1}) == 3);
  CHECK(file.byte({1, 3}) == 5);
  CHECK(file.line(1) == "id = 1");
  CHECK(file.line(2) == "x");
  const SourceFile only{"b.toml", "\xEF\xBB\xBF"};
  CHECK(only.line_count() == 1);
  CHECK(only.line(1).empty());
  same(only.position(3), 1, 1);
}

TEST_CASE("every byte that is not UTF-8 is one code point") {
  // a lone continuation, an overlong slash, a surrogate, a cut-off sequence, a byte that never occurs
  const SourceFile file{"a.toml", "\x80|\xC0\xAF|\xED\xA0\x80|\xE2\x82|\xFF"};
  same(file.position(1), 1, 2);
  same(file.position(4), 1, 5);
  same(file.position(8), 1, 9);
  same(file.position(11), 1, 12);
  same(file.position(12), 1, 13);
  CHECK(file.byte({1, 12}) == 11);
  CHECK(first_bad_byte("fine \xC3\xB6") == std::nullopt);
  CHECK(first_bad_byte("\xF4\x8F\xBF\xBF") == std::nullopt); // U+10FFFF
  CHECK(first_bad_byte("ab\xC3\xB6\x80") == 4U);
  CHECK(first_bad_byte("\xC0\xAF") == 0U);
  CHECK(first_bad_byte("x\xED\xA0\x80") == 1U);
  CHECK(first_bad_byte("x\xF4\x90\x80\x80") == 1U); // past U+10FFFF
  CHECK(first_bad_byte("x\xE2\x82") == 1U);
  CHECK(first_bad_byte("") == std::nullopt);
}

TEST_CASE("places past the end give the end, whatever their size") {
  const SourceFile file{"a.toml", "one\ntwo"};
  CHECK(file.byte({1, 0xffffffffU}) == 3);
  CHECK(file.byte({2, 0xffffffffU}) == 7);
  CHECK(file.byte({0xffffffffU, 1}) == 7);
  CHECK(file.byte({2, 0}) == 4);
  same(file.position(0xffffffffU), 2, 4);
}

TEST_CASE("bytes and places agree in any text, long lines too") {
  std::mt19937 random{20};
  for (int round = 0; round < 60; ++round) {
    std::string text = round % 3 == 0 ? "\xEF\xBB\xBF" : "";
    const std::size_t length = random() % 4000;
    while (text.size() < length) {
      switch (random() % 8) {
      case 0:
        text += "\xC3\xB6";
        break;
      case 1:
        text += "\xE2\x82\xAC";
        break;
      case 2:
        text += "\xF0\x9F\x8F\xAE";
        break;
      case 3:
        text += static_cast<char>(0x80 + random() % 0x80);
        break;
      case 4:
        text += random() % 40 == 0 ? "\n" : random() % 20 == 0 ? "\r\n" : "\r";
        break;
      default:
        text += "a";
        break;
      }
    }
    const SourceFile file{"a.toml", text};
    // The same count, made the slow way: walk through every code point from the start.
    const std::size_t mark = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    std::uint32_t line = 1;
    std::uint32_t column = 1;
    bool agree = true;
    for (std::size_t byte = mark; byte < text.size();) {
      const std::size_t size = code_point_size(std::string_view{text}.substr(byte));
      for (std::size_t inside = byte; inside < byte + size; ++inside) {
        const LineColumn place = file.position(static_cast<std::uint32_t>(inside));
        agree = agree && place.line == line && place.column == column;
      }
      const bool in_line = text[byte] != '\n' && (text[byte] != '\r' || text.substr(byte + 1, 1) != "\n");
      if (in_line) agree = agree && file.byte({line, column}) == byte;
      ++column;
      if (text[byte] == '\n') {
        ++line;
        column = 1;
      }
      byte += size;
    }
    INFO("round " << round);
    CHECK(agree);
    CHECK(file.line_count() == line);
  }
}

TEST_CASE("a span gives its bytes and never more than there are") {
  SourceSet set;
  set.files.emplace_back("a.toml", "id = 1");
  const FileIndex a{0};
  CHECK(set[a].path() == "a.toml");
  CHECK(set.text({a, 0, 2}) == "id");
  CHECK(set.text({a, 5, 99}) == "1");
  CHECK(set.text({a, 99, 120}).empty());
  CHECK(set.text({a, 4, 2}).empty());
  CHECK(set.text(Span{}).empty());
  CHECK_FALSE(Span{}.known());
}
