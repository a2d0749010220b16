// html/parts.hpp: which pieces of a page does a designer shape, and how does a page get a copy of one?
//
// Private to this room.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include <pugixml.hpp>

#include "html/one_file_frame.hpp"
#include "html/skeleton.hpp"
#include "html/template.hpp"
#include "verdicts/verdict.hpp"

namespace coeval {

using Node = pugi::xml_node;

// In the order of `part_specs`, which ends in one sign for each verdict.
enum class Part : std::uint8_t {
  section,
  details,
  caution,
  evidence,
  span,
  point,
  bound,
  verdict,
  verdict_short,
  ground,
  step,
  plate,
  picture,
  drawing,
  table,
  couplet,
  checker,
  search,
  first_sign,
};
inline constexpr std::size_t part_count = static_cast<std::size_t>(Part::first_sign) + verdict_count;
[[nodiscard]] constexpr Part sign_of(Verdict verdict) {
  return static_cast<Part>(static_cast<std::size_t>(Part::first_sign) + static_cast<std::size_t>(verdict));
}

// A part as it is kept: ready to be copied into a page.
struct PartNode {
  struct Attribute {
    std::string name;
    std::string value;
    bool site_path = false;
  };
  std::string element; // empty for text and slots
  std::string text;
  std::string slot;       // its name
  bool if_filled = false; // leave it out unless a slot inside is filled
  std::vector<Attribute> attributes;
  std::vector<PartNode> inside;
};

struct Templates {
  Skeleton layout;
  OneFileFrame one_file;
  std::vector<Skeleton> pages; // by PageKind
  std::array<std::vector<PartNode>, part_count> parts;
  std::vector<std::pair<std::string, std::string>> files; // to publish
};

// A part as it stands in parts.html, inside its <template>.
[[nodiscard]] std::vector<PartNode> part_of(pugi::xml_node tree);

// Fills a slot by appending to the node; one to which nothing was appended shows its own content.
// What it refers to must outlive it; it is made for the length of a call.
class FillSlot {
public:
  template <class Fill>
  FillSlot(const Fill& fill) // NOLINT(google-explicit-constructor): so that a lambda can be passed
      : fill_(&fill),
        call_([](const void* to, std::string_view slot, Node into) { (*static_cast<const Fill*>(to))(slot, into); }) {}
  void operator()(std::string_view slot, Node into) const { call_(fill_, slot, into); }

private:
  const void* fill_;
  void (*call_)(const void* to, std::string_view slot, Node into);
};
// Appends a copy; `root` is put before paths. Its first element.
Node append_part(const Templates& templates, Part part, Node into, const std::string& root, const FillSlot& fill);

} // namespace coeval
