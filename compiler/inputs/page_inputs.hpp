// inputs/page_inputs.hpp: what does a page follow from, told without putting the page together?
//
// A hash of everything that a page can say: while it stays the same, so does the page. It may change where the page
// does not, never the other way round, so it is taken of whole files rather than of what a page shows of them:
//
//   near      the file of the page's entry, the files of figures and accessories that this refers to, and all files
//             that refer to it: every byte, as a line added at the top moves all that stands below;
//   labels    of whatever these refer to elsewhere: what it is called, and its days on every basis;
//   time      every statement that hangs together with their spans, other than through the calendar. A proof runs
//             through the statements around its two ends and, at most once, through the calendar, where only days
//             count;
//   grounds   of marks, plants with all routes that connect them, the line with its periods, all features: their files.
//
// Of an entry that others refer to (a card, a plant, a route, a mark, a feature, a source) it is the files of all these
// with what they refer to; of a slot, those of all that goes into it. Pages that list much of the knowledge base have
// none: the lists, periods, lines, markets, the agenda …
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "pages/site.hpp"
#include "publish/hash.hpp"

namespace coeval {

// How a picture, by its file, comes to be shown: where it is published, and its size.
using PictureWords = std::function<std::string(const std::string& file)>;

class PageInputs {
public:
  // One pass over entries, references and statements. `site` must outlive it.
  PageInputs(const Site& site, const PictureWords& picture_words);

  // Of all that the page shows, but not of how pages are rendered. Safe to call from several threads.
  [[nodiscard]] std::optional<ContentHash> of(const PlannedPage& page) const;

private:
  const LinkedKb& kb_;
  std::vector<std::optional<ContentHash>> by_file_; // of pages whose entry stands in the file
  std::vector<ContentHash> by_claim_;
  std::vector<std::optional<ContentHash>> by_entry_; // of pages that list what refers to their entry
  std::map<std::string, ContentHash, std::less<>> by_slot_;
};

} // namespace coeval
