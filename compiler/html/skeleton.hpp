// html/skeleton.hpp: which text of a template stands between its slots?
//
// Private to this room. The document and the arrangement of each kind of page are the same text on every page but for
// their slots, so they are serialised once, when the template is read, and cut there.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <pugixml.hpp>

namespace coeval {

struct Skeleton {
  struct Piece {
    enum class Role {
      text,      // as it is
      root,      // the way to the root of the site, before a path
      slot,      // what fills `slot`; or else the pieces up to `end`, its own content
      if_filled, // the pieces up to `end` are left out unless one of `slots` is filled
      current    // in a link to `text`: says so where that is the page itself
    };
    Role role = Role::text;
    std::string text;
    std::size_t slot = 0;
    std::size_t end = 0;
    std::vector<std::size_t> slots;
  };
  std::vector<Piece> pieces;
};

// `names`: of the slots, whose position is the number of a slot. Every slot in the tree is one of them.
[[nodiscard]] Skeleton cut_at_slots(pugi::xml_node tree, std::span<const std::string_view> names);

// Whether an attribute of a template holds a path of the site, to which the way from a page is put before.
[[nodiscard]] bool holds_site_path(std::string_view attribute, std::string_view value);

// White space as it is worth keeping: line breaks with their indentation become one line break.
[[nodiscard]] std::string squeezed(std::string_view text);

// `filled(slot)` says whether there is something for it, `fill(slot, out)` writes that.
template <class Filled, class Fill>
void write_skeleton(const Skeleton& skeleton, std::string_view root, std::string_view page, const Filled& filled,
                    const Fill& fill, std::string& out) {
  using Role = Skeleton::Piece::Role;
  for (std::size_t i = 0; i < skeleton.pieces.size();) {
    const Skeleton::Piece& piece = skeleton.pieces[i];
    ++i;
    switch (piece.role) {
    case Role::text:
      out += piece.text;
      break;
    case Role::root:
      out += root;
      break;
    case Role::slot:
      if (!filled(piece.slot)) break;
      fill(piece.slot, out);
      i = piece.end;
      break;
    case Role::if_filled: {
      bool any = false;
      for (const std::size_t inner : piece.slots) any = any || filled(inner);
      if (!any) i = piece.end;
      break;
    }
    case Role::current:
      if (piece.text == page) out += " aria-current=\"page\"";
      break;
    }
  }
}

} // namespace coeval
