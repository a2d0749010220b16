// pages/changes.hpp: what changed in the knowledge base, and when?
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace coeval {

struct ChangeDay {
  std::string title;              // as written: "2026-11-25"
  std::string date;               // ISO 8601 day; empty where the title does not begin with one
  std::vector<std::string> items; // plain text, one paragraph each
};

// Reads the text of a CHANGES.md: `## TITLE` heads and `- ` items, each with the indented lines that go on from it.
// Anything before the first head is left out, and so is what is neither. The order is kept: the newest first.
[[nodiscard]] std::vector<ChangeDay> parse_changes(std::string_view text);

} // namespace coeval
