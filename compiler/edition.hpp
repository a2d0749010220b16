// edition.hpp: what does a knowledge base look like as a site?
//
// An edition is every file of the site: pages, style sheet, scripts, pictures, data, feeds. They are handed to a sink
// one by one and in no order, by several threads, so that no more than a few are in memory. The same knowledge base and
// template give the same bytes, whatever the machine, its locale or its clock.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "html/template.hpp"
#include "pipeline.hpp"
#include "publish/recipes.hpp"

namespace coeval {

// An earlier version, to say what changed since.
struct EditionSince {
  std::string name; // as readers are told it
  std::string day;  // ISO 8601, of a revision; empty for none
  const Compiled* compiled = nullptr;
};

struct EditionOptions {
  std::string base_url; // ends in a slash; empty: no canonical links, no sitemap
  std::string date;     // ISO 8601 day that is shown; empty: that of the last change
  std::vector<EditionSince> since;
  unsigned threads = 0; // 0: as many as the machine runs at once
  bool one_file = true; // with the single-file edition, unless there are too many pages for that
  std::string maker;    // tells the program and the template; empty: pages have no recipe
  // Where the page of this recipe lies in its place already: what its content is. It is not made then, and does not
  // come to the sink. Asked by what the page is made from, and again with what it is to say. Called from several
  // threads; empty: every page is made.
  std::function<std::optional<ContentHash>(std::string_view path, const FileRecipe& recipe)> keep;
  // What an earlier edition gave to `keep_parts`, and what takes them of this one: they spare work that makes no page.
  std::string parts;
  std::function<void(std::string bytes)> keep_parts;
  // The bytes of a file that an earlier edition left, whatever became of them; empty where there are none. Of use only
  // with `parts`.
  std::function<std::string(std::string_view path)> earlier;
};

// Pages beyond which the single-file edition is left out: a phone would not open it.
inline constexpr std::size_t most_pages_in_one_file = 4000;

struct EditionFile {
  std::string_view path;
  std::string_view bytes;
  FileRecipe recipe; // of a page; see EditionOptions::keep
};
// Called from several threads. A path never comes twice.
using EditionSink = std::function<void(const EditionFile& file)>;
// How far it is: files done, of how many. Called from several threads.
using EditionProgress = std::function<void(std::size_t done, std::size_t of)>;

// What an edition is made from, as a short text: the same text, the same edition. It is published as `edition_file`, so
// that an edition that is there already need not be made again.
inline constexpr std::string_view edition_file = "edition.txt";
[[nodiscard]] std::string edition_mark(const Compiled& compiled, const EditionOptions& options, Diagnostics& out);

// `compiled` is without errors, and compiled deep enough to publish. Pictures that cannot be read any more are
// reported; their text stands in their place.
void make_edition(const Compiled& compiled, const Templates& templates, const EditionOptions& options,
                  const EditionSink& sink, const EditionProgress& progress, Diagnostics& out);

} // namespace coeval
