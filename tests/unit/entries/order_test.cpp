// Does what is read depend on nothing but the text?
#include <catch2/catch.hpp>

#include "reading.hpp"

using namespace coeval;

namespace {

std::string place_of(Span place) { return std::to_string(place.begin) + "-" + std::to_string(place.end); }

// Everything about the entries of one file but the number of the file and of the entries before it.
std::string told(const EntrySet& set, FileIndex file) {
  std::string text;
  std::size_t first = 0;
  while (first < set.entries.size() && set.entries[first].place.file != file) ++first;
  for (std::size_t i = first; i < set.entries.size() && set.entries[i].place.file == file; ++i) {
    const Entry& entry = set.entries[i];
    text += std::string{spec_of(entry.kind).name} + " " + entry.id + " " + place_of(entry.place);
    text += entry.parent == no_entry ? " top" : " in " + std::to_string(static_cast<std::size_t>(entry.parent) - first);
    text += entry.broken ? " broken" : "";
    for (const Field& field : entry.fields)
      text += "; " + std::string{field.spec->name} + " " + place_of(field.key_place()) + " " + place_of(field.place);
    text += "\n";
  }
  return text;
}

std::vector<SourceFile> many_files() {
  std::vector<SourceFile> files;
  for (int i = 10; i < 50; ++i) {
    const std::string n = std::to_string(i);
    files.emplace_back("f" + n + ".toml", "[[mould]]\nid = \"m" + n + "\"\nused = \"" + (i % 7 == 0 ? "soon" : "1979") +
                                              "\"\n[[mould.run]]\nid = \"r\"\n[[mould.run]]\nid = \"s\"\n"
                                              "[accessory]\nid = \"a" +
                                              n + "\"\nname = \"A\"\nslot = \"hand\"\n" +
                                              (i % 5 == 0 ? "wrong = 1\n" : ""));
  }
  return files;
}

} // namespace

TEST_CASE("tables come in the order of the text, parents before what belongs to them") {
  const reading::Read result = reading::read("[[mould]]\nid = \"z\"\n"
                                             "[[mould.timing]]\nthis = \"start\"\n"
                                             "[[mould.run]]\nid = \"b\"\n"
                                             "[[mould.run]]\nid = \"a\"\n"
                                             "[[mould]]\nid = \"y\"\n"
                                             "[accessory]\nname = \"Lantern\"\nslot = \"hand\"\nid = \"lantern\"\n"
                                             "[[repro]]\nid = \"x\"\nof = \"z\"\n");
  REQUIRE(result.troubles() == "");
  std::vector<std::string> order;
  for (const Entry& entry : result.entries.entries)
    order.push_back(std::string{spec_of(entry.kind).name} + " " + entry.id + " in " +
                    (entry.parent == no_entry ? "-" : std::string{result.entries[entry.parent].id}));
  CHECK(order == std::vector<std::string>{"accessory lantern in -", "mould z in lantern", "timing  in z", "run b in z",
                                          "run a in z", "mould y in lantern", "repro x in lantern"});
}

TEST_CASE("fields come in the order of the text, however they are indented") {
  const reading::Read result = reading::read("[[plant]]\n    name = \"Cork\"\nplace = \"Cork\"\n  id = \"cork\"\n");
  REQUIRE(result.troubles() == "");
  std::vector<std::string_view> order;
  for (const Field& field : result.first(Kind::plant).fields) order.push_back(field.spec->name);
  CHECK(order == std::vector<std::string_view>{"name", "place", "id"});
}

// A file alone is read by one thread, forty by as many as the machine has.
TEST_CASE("a file is read the same alone and among others") {
  const reading::Read all = reading::read(many_files());
  std::vector<std::string> codes;
  for (std::uint32_t i = 0; i < all.sources.files.size(); ++i) {
    const reading::Read one = reading::read({many_files()[i]});
    const std::string alone = told(one.entries, FileIndex{0});
    CHECK_FALSE(alone.empty());
    CHECK(told(all.entries, FileIndex{i}) == alone);
    for (const std::string& code : one.codes()) codes.push_back(code);
  }
  CHECK(all.codes() == codes);
  CHECK(codes.size() == 6 + 8);
  for (int again = 0; again < 20; ++again) {
    const reading::Read next = reading::read(many_files());
    REQUIRE(next.troubles() == all.troubles());
    REQUIRE(next.entries.entries.size() == all.entries.entries.size());
  }
}

TEST_CASE("files to skip are left out") {
  SourceSet sources = in_memory::sources_of(
      {SourceFile{"a.toml", "not TOML"}, SourceFile{"b.toml", "[[plant]]\nid = \"cork\"\nname = \"Cork\"\n"}});
  Diagnostics out;
  const std::vector<FileIndex> skip{FileIndex{0}};
  const EntrySet entries = read_entries(sources, skip, out);
  CHECK(out.sorted().empty());
  REQUIRE(entries.entries.size() == 1);
  CHECK(entries.entries[0].place.file == FileIndex{1});
}
