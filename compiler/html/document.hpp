// html/document.hpp: what stands in the slots of the document around a page?
//
// Private to this room.
#pragma once

#include <string>
#include <string_view>

#include <pugixml.hpp>

#include "html/composition.hpp"
#include "html/serialise.hpp"

namespace coeval {

// The text of trees: one document serves one page, and is emptied between its slots.
class Printer {
public:
  template <class Build> void print(const Build& build, std::string& out) {
    tree_.reset();
    build(static_cast<Node>(tree_));
    serialise_children(tree_, out);
  }

private:
  pugi::xml_document tree_;
};

// The page's sections in the arrangement of its kind: what fills the slot `main`. It comes first, so that it is known
// which shapes the page needs.
[[nodiscard]] std::string render_main(Composition& page, Printer& printer);

// The other `document_slots` but `head`. Slots that are not filled show their own content.
[[nodiscard]] bool fills_document_slot(const Composition& page, std::string_view slot);
void fill_document_slot(Composition& page, std::string_view slot, Node into);

void add_meta(Node head, const char* name, std::string_view content);

// JSON that cannot end its script element, whatever its strings hold.
[[nodiscard]] std::string json_in_script(std::string_view json);

} // namespace coeval
