// Is a shelf changed where it should be, and left as its owner wrote it everywhere else?
#include <catch2/catch.hpp>

#include "drawer.hpp"
#include "shelf/apply_swap.hpp"
#include "shelf/edit.hpp"

using namespace coeval;

namespace {

struct Shelf {
  SourceSet sources;
  EntrySet entries;

  Shelf(std::string path, std::string text) {
    sources.files.emplace_back(std::move(path), std::move(text));
    Diagnostics out;
    entries = read_entries(sources, {}, out, Language::shelf);
    REQUIRE_FALSE(out.has_errors());
  }
  [[nodiscard]] EntryIndex find(std::string_view id) const {
    for (std::size_t i = 0; i < entries.entries.size(); ++i)
      if (entries.entries[i].id == id) return EntryIndex{static_cast<std::uint32_t>(i)};
    throw std::logic_error("no such thing");
  }
};

template <class Change> std::string edited(const std::string& path, const std::string& text, Change change) {
  const Shelf shelf{path, text};
  ShelfEdit edit{shelf.sources, shelf.entries};
  change(edit, shelf);
  Diagnostics out;
  const std::optional<std::string> result = edit.text(out);
  const std::vector<Diagnostic> wrong = out.sorted();
  CHECK(result.has_value() == wrong.empty());
  if (result) return *result;
  CHECK(wrong.front().code == Code::fixed_table);
  return "refused at `" + std::string{shelf.sources.text(wrong.front().place)} + "`: " + wrong.front().message;
}

const std::string toml = R"(# my drawer
[[piece]]
id    = "a"   # the first
issue = "x/y"

[[part]]
  id = "lantern"
  in   =   "a"      # at the fair
  found = [
    "chip", # small
  ]

[[part]]
id = "cap"
# the end)";

} // namespace

TEST_CASE("a value is replaced, and comments, order and blanks stay") {
  std::string wanted = toml;
  wanted.replace(wanted.find("\"a\"      # at"), 3, "\"b\"");
  CHECK(edited("shelf.toml", toml + "\n[[piece]]\nid = \"b\"\n", [](ShelfEdit& edit, const Shelf& shelf) {
          edit.set(shelf.find("lantern"), "in", "b");
        }) == wanted + "\n[[piece]]\nid = \"b\"\n");
}

TEST_CASE("a key is taken out with its line, and one is added below the last, aligned as its table is") {
  const std::string text = edited("shelf.toml", toml, [](ShelfEdit& edit, const Shelf& shelf) {
    edit.remove(shelf.find("lantern"), "found");
    edit.remove(shelf.find("lantern"), "slot"); // is not there
    edit.set(shelf.find("a"), "keep", "true");
    edit.set(shelf.find("cap"), "in", "a");
    edit.set(shelf.find("cap"), "notes", "a \"b\"\\\nc");
  });
  CHECK(text == R"(# my drawer
[[piece]]
id    = "a"   # the first
issue = "x/y"
keep  = true

[[part]]
  id = "lantern"
  in   =   "a"      # at the fair

[[part]]
id = "cap"
in = "a"
notes = """
a \"b\"\\
c"""
# the end)");
}

TEST_CASE("items added to a list go behind its last, and remarks between items stay") {
  const std::string text = edited("shelf.toml", toml, [](ShelfEdit& edit, const Shelf& shelf) {
    edit.set(shelf.find("lantern"), "found", "chip\na \"b\"\nrust");
  });
  CHECK(text.find("    \"chip\", \"a \\\"b\\\"\", \"rust\", # small\n  ]\n") != std::string::npos);
  CHECK(edited("shelf.toml", "[[part]]\nid = \"a\"\nfound = [\"one\", \"two\"]\n",
               [](ShelfEdit& edit, const Shelf& shelf) { edit.set(shelf.find("a"), "found", "onetwo\ntwo"); }) ==
        "[[part]]\nid = \"a\"\nfound = [\"onetwo\", \"two\"]\n");
}

TEST_CASE("a value that is as it was is no change, and the last value of a key counts") {
  CHECK(edited("shelf.toml", toml, [](ShelfEdit& edit, const Shelf& shelf) {
          CHECK(*edit.value(shelf.find("lantern"), "in") == "a");
          CHECK(edit.value(shelf.find("lantern"), "slot") == nullptr);
          edit.set(shelf.find("lantern"), "in", "b");
          edit.set(shelf.find("cap"), "slot", "hand");
          CHECK(edit.changes());
          edit.set(shelf.find("lantern"), "in", "a");
          edit.remove(shelf.find("cap"), "slot");
          CHECK_FALSE(edit.changes());
        }) == toml);
}

TEST_CASE("row ends stay as they are") {
  CHECK(edited("shelf.toml", "[[part]]\r\nid = \"a\"\r\n", [](ShelfEdit& edit, const Shelf& shelf) {
          edit.set(shelf.find("a"), "slot", "hand");
        }) == "[[part]]\r\nid = \"a\"\r\nslot = \"hand\"\r\n");
  CHECK(edited("shelf.toml", "[[part]]\nid = \"a\"", [](ShelfEdit& edit, const Shelf& shelf) {
          edit.set(shelf.find("a"), "slot", "hand");
        }) == "[[part]]\nid = \"a\"\nslot = \"hand\"\n");
}

TEST_CASE("what cannot be changed in place is refused and not written wrongly") {
  const auto slot = [](ShelfEdit& edit, const Shelf& shelf) { edit.set(shelf.find("a"), "slot", "hand"); };
  CHECK(edited("shelf.toml", "part = [{ id = \"a\" }]\n", slot) ==
        "refused at `\"a\"`: this table has no line of its own for each key, so it cannot be changed in its place");
  CHECK(edited("shelf.toml", "part = [{ id = \"a\", slot = \"head\" }]\n", slot) ==
        "part = [{ id = \"a\", slot = \"hand\" }]\n");
  CHECK(edited("shelf.toml", "part = [{ id = \"a\", slot = \"head\" }]\n",
               [](ShelfEdit& edit, const Shelf& shelf) { edit.remove(shelf.find("a"), "slot"); }) ==
        "refused at `slot`: this table has no line of its own for each key, so it cannot be changed in its place");
  CHECK(edited("shelf.toml", "[[part]]\nid = \"a\"\n", [](ShelfEdit& edit, const Shelf& shelf) {
          edit.set(shelf.find("a"), "condition", "mint");
        }) == "refused at ``: the changed file would not be read back as it is meant");
  CHECK_THROWS_AS(edited("shelf.toml", "[[part]]\nid = \"a\"\n",
                         [](ShelfEdit& edit, const Shelf& shelf) { edit.set(shelf.find("a"), "paid", "2026-05-02"); }),
                  std::logic_error);
}

TEST_CASE("a cell of a table is replaced or filled, and a column that is missing is added to the head") {
  const std::string table = "table;id;in;notes\r\npiece;a;;\"x;\r\ny\"\r\npart;lantern;a\r\n";
  CHECK(edited("shelf.csv", table, [](ShelfEdit& edit, const Shelf& shelf) {
          edit.remove(shelf.find("lantern"), "in");
        }) == "table;id;in;notes\r\npiece;a;;\"x;\r\ny\"\r\npart;lantern;\r\n");
  CHECK(edited("shelf.csv", table, [](ShelfEdit& edit, const Shelf& shelf) {
          edit.set(shelf.find("lantern"), "slot", "hand");
          edit.set(shelf.find("lantern"), "notes", "p;q");
        }) == "table;id;in;notes;slot\r\npiece;a;;\"x;\r\ny\";\r\npart;lantern;a;\"p;q\";hand\r\n");
  CHECK(edited("shelf.csv", "id,table\na,part\n", [](ShelfEdit& edit, const Shelf& shelf) {
          edit.set(shelf.find("a"), "notes", "=1");
          edit.set(shelf.find("a"), "found", "x\n\"y\"");
        }) == "id,table,found,notes\na,part,\"x\n\"\"y\"\"\",'=1\n");
}

TEST_CASE("moves that would change what a part can be are not written down") {
  // The part is known by what was seen in its slot alone: in another slot it would be something else.
  const std::string text = "[[piece]]\nid = \"p\"\nissue = \"maren/painted\"\n[[part]]\nid = \"a\"\nslot = "
                           "\"hand\"\nseen = [\"top=ring\"]\n";
  const drawer::Drawer drawer{text};
  REQUIRE_FALSE(drawer.out.has_errors());
  ShelfSwap swap;
  swap.moves.push_back({.part = PartIndex{0}, .to = WornPlace{PieceIndex{0}, "body"}});
  Diagnostics out;
  CHECK_FALSE(apply_swap(drawer.kb.kb, drawer.sources, drawer.shelf, swap, out));
  CHECK(in_memory::codes_of(out.sorted()) == std::vector<std::string>{"fixed-table"});
  swap.moves.front().to->slot = "hand";
  CHECK(apply_swap(drawer.kb.kb, drawer.sources, drawer.shelf, swap, out) == text + "in = \"p\"\n");
}

TEST_CASE("a part goes where its accessory is worn without saying so, and where that is not so it says so") {
  const std::string text = "[[piece]]\nid = \"p\"\nissue = \"maren/painted\"\n[[part]]\nid = \"a\"\nrun = "
                           "\"lantern/ring/brass\"\nin = \"p\"  # since May\n[[part]]\nid = \"b\"\nrun = "
                           "\"lantern/ring/copper\"\n";
  const drawer::Drawer drawer{text};
  REQUIRE_FALSE(drawer.out.has_errors());
  ShelfSwap swap;
  swap.moves.push_back({.part = PartIndex{0}, .from = WornPlace{PieceIndex{0}, "hand"}});
  swap.moves.push_back({.part = PartIndex{1}, .to = WornPlace{PieceIndex{0}, "hand"}});
  swap.moves.push_back({.part = PartIndex{0}, .to = WornPlace{PieceIndex{0}, "body"}});
  Diagnostics out;
  CHECK(apply_swap(drawer.kb.kb, drawer.sources, drawer.shelf, swap, out) ==
        "[[piece]]\nid = \"p\"\nissue = \"maren/painted\"\n[[part]]\nid = \"a\"\nrun = "
        "\"lantern/ring/brass\"\nin = \"p\"  # since May\nslot = \"body\"\n[[part]]\nid = \"b\"\nrun = "
        "\"lantern/ring/copper\"\nin = \"p\"\n");
}
