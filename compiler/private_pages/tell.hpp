// private_pages/tell.hpp: how are a piece, a part and an entry of the reference named on a private page?
//
// Private to this room.
#pragma once

#include "private_pages/private_pages.hpp"

namespace coeval {

class PrivateTeller {
public:
  explicit PrivateTeller(const PrivatePagesInput& input) : input_(input) {}

  [[nodiscard]] const LinkedKb& kb() const { return input_.report.kb; }
  // The address of an entry, set as code; a link where the reference has an address and the entry a page.
  [[nodiscard]] Piece entry(EntryIndex index) const;
  // "maren-1, keeper-maren/painted-buttons": a piece with what it is.
  [[nodiscard]] Text piece(PieceIndex index) const;
  // "lantern-1, signal-lantern/ring-top/brass".
  [[nodiscard]] Text part(PartIndex index) const;

private:
  const PrivatePagesInput& input_;
};

[[nodiscard]] Piece words(std::string text);
[[nodiscard]] Piece coded(std::string text);
// A sentence of a terminal, its ids in backticks set as code.
[[nodiscard]] Text with_ids(std::string_view told);
// Adds a section to the slot `list`; one without blocks is left out.
void add_to_list(Page& page, std::string_view title, std::vector<Block> blocks, std::string anchor = {});

[[nodiscard]] Page audit_page(const PrivatePagesInput& input);
[[nodiscard]] Page swap_page(const PrivatePagesInput& input);
[[nodiscard]] Page wants_page(const PrivatePagesInput& input);
[[nodiscard]] Page owned_checklist_page(const PrivatePagesInput& input);
[[nodiscard]] Page ledger_page(const PrivatePagesInput& input);

} // namespace coeval
