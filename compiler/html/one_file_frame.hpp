// html/one_file_frame.hpp: which part of the layout stands once in the single-file edition, and which for every page?
//
// Private to this room.
#pragma once

#include <array>
#include <string_view>

#include <pugixml.hpp>

#include "html/skeleton.hpp"

namespace coeval {

struct OneFileFrame {
  Skeleton document; // its slots are `one_file_slots`
  Skeleton article;  // what <main> holds; its slots are `document_slots`
};

// `main` takes the articles, `tail` the shapes, the index and the script.
inline constexpr std::array<std::string_view, 5> one_file_slots{"head", "site-name", "main", "edition", "tail"};

// From the tree of layout.html, whose slots were checked. What would load a file is left out.
[[nodiscard]] OneFileFrame cut_one_file(const pugi::xml_document& layout);

} // namespace coeval
