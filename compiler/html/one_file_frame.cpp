#include "html/one_file_frame.hpp"

#include <algorithm>
#include <vector>

#include "html/template.hpp"

namespace coeval {
namespace {

pugi::xml_node find_slot(pugi::xml_node tree, std::string_view slot) {
  return tree.find_node([&](pugi::xml_node node) {
    return std::string_view{node.name()} == "slot" && node.attribute("name").value() == slot;
  });
}

void collect(pugi::xml_node tree, std::vector<pugi::xml_node>& nodes) {
  for (const pugi::xml_node child : tree.children()) {
    nodes.push_back(child);
    collect(child, nodes);
  }
}

bool loads_a_file(pugi::xml_node node) {
  const std::string_view name = node.name();
  return name == "link" || (name == "script" && node.attribute("src"));
}

// What belongs to a page inside of the document's frame is about no page: it goes, with what is there for it alone.
void drop(pugi::xml_node slot) {
  pugi::xml_node node = slot;
  for (pugi::xml_node around = slot.parent(); around; around = around.parent())
    if (around.attribute("data-if-filled")) node = around;
  node.parent().remove_child(node);
}

} // namespace

OneFileFrame cut_one_file(const pugi::xml_document& layout) {
  pugi::xml_document tree;
  tree.reset(layout);
  std::vector<pugi::xml_node> nodes;
  collect(tree, nodes);
  for (pugi::xml_node node : nodes)
    if (loads_a_file(node)) node.parent().remove_child(node);
  if (pugi::xml_node signs = find_slot(tree, "signs")) signs.parent().remove_child(signs);

  pugi::xml_document article;
  pugi::xml_node main = tree.find_node([](pugi::xml_node node) { return std::string_view{node.name()} == "main"; });
  if (main && find_slot(main, "title") && find_slot(main, "main")) {
    while (pugi::xml_node child = main.first_child()) article.append_copy(child), main.remove_child(child);
    main.append_child("slot").append_attribute("name") = "main";
  } else { // a heading that stands elsewhere is about one page at a time
    article.append_child("h1").append_child("slot").append_attribute("name") = "title";
    article.append_child("slot").append_attribute("name") = "main";
  }
  for (const char* slot : {"crumbs", "eyebrow", "title", "summary"})
    if (pugi::xml_node left = find_slot(tree, slot)) drop(left);
  pugi::xml_node body = tree.document_element().child("body");
  (body ? body : tree.document_element()).append_child("slot").append_attribute("name") = "tail";

  std::vector<std::string_view> names;
  for (const SlotSpec& slot : document_slots()) names.push_back(slot.name);
  return {cut_at_slots(tree, one_file_slots), cut_at_slots(article, names)};
}

} // namespace coeval
