// A page of every kind of block, so that each is seen by some test. The line is invented; so is what is said of it.
#pragma once

#include "html/render.hpp"

namespace coeval {

// Sections of every block, spread over the slots of `kind`.
[[nodiscard]] Page sample_page(PageKind kind);

// The same with `text` in every place that a knowledge base can fill, and as the target of every link.
[[nodiscard]] Page hostile_page(const std::string& text);

// The template that is part of the program; stops the test where it is broken.
[[nodiscard]] std::shared_ptr<const Templates> sample_templates();

} // namespace coeval
