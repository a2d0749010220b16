// shelf/audit.hpp: what on the shelf is right, what is wrong or missing, and what waits for its owner?
//
// Every slot of a piece whose issue is known is exactly one of right, open, wrong, a reproduction or empty. The answer
// is what is entered and seen; nothing here says that a part is authentic.
#pragma once

#include <array>

#include "shelf/part_fit.hpp"

namespace coeval {

// Worst first: an audit lists pieces in this order.
enum class Trouble : std::uint8_t {
  reproduction,   // a part is a reproduction
  wrong,          // a part does not belong, whichever run it is
  nothing_fits,   // what was seen on a part, or a mark on it, rules out all that is entered
  misplaced,      // a part belongs to the issue, but not in the slot in which it is worn
  undisclosed,    // a fault was found of which the seller did not tell
  missing,        // a slot is empty
  doubtful,       // a part can be a reproduction; from here on nothing is wrong, but something is open
  open,           // it is not decided whether a part belongs
  issue_unknown,  // nobody says which issue the piece is
  outfit_unknown, // what the issue was sold with is not entered
  unexamined,     // it has arrived, and nobody has examined it
};
inline constexpr std::size_t trouble_count = 11;
[[nodiscard]] std::string_view name(Trouble trouble);
[[nodiscard]] constexpr bool is_wrong(Trouble trouble) { return trouble < Trouble::doubtful; }

struct Finding {
  Trouble trouble{};
  std::optional<PartIndex> part;   // nothing: the piece itself, or an empty slot
  std::optional<std::size_t> slot; // of the issue: missing; or where the part is worn
  const PartFit* fit = nullptr;    // of the part on the issue; kept by the judge
  std::string fault;               // of an undisclosed one, as written
};

enum class SlotState : std::uint8_t { right, open, wrong, reproduction, empty };
inline constexpr std::size_t slot_state_count = 5;
[[nodiscard]] std::string_view name(SlotState state);

struct SlotAudit {
  SlotState state = SlotState::empty;
  std::optional<PartIndex> part;
  const PartFit* fit = nullptr; // of the part; kept by the judge
};

struct PieceAudit {
  PieceIndex piece{};
  std::vector<SlotAudit> slots;        // as the judge's slots of the issue; none where the issue is not known
  std::vector<Finding> findings;       // the worst first, then the piece, then in the order of slots and parts
  std::vector<PossibleIssue> possible; // where the issue is not known

  [[nodiscard]] std::size_t count(SlotState state) const;
  [[nodiscard]] bool complete() const { return !slots.empty() && count(SlotState::right) == slots.size(); }
};

struct LooseHome {
  PieceIndex piece{};
  std::size_t slot = 0; // of its issue
  const PartFit* fit = nullptr;
};

// A part that no piece wears. Slots of pieces that are to keep their parts count only where they are empty.
struct LooseAudit {
  PartIndex part{};
  Remaining can_be{};            // originals, reproductions, both or nothing
  std::vector<Finding> findings; // the worst first
  std::size_t takers = 0;        // slots of owned pieces that it may belong in
  std::size_t helped = 0;        // of them: empty, or filled less well
  std::optional<LooseHome> best; // one that is helped, the most surely right, of the greatest priority; else nothing
};

// A purchase that has not arrived, or of which something is not examined.
struct ParcelAudit {
  PurchaseIndex purchase{};
  ParcelState state{};
  Day since = 0;
  std::size_t unexamined = 0; // pieces and parts
};

struct Audit {
  std::vector<PieceAudit> pieces;  // by worst finding, priority, number of findings, then as in the file
  std::vector<PieceAudit> offered; // or bid for, and not owned; in the same order, and counted nowhere
  std::vector<LooseAudit> loose;   // owned; by worst finding, then as in the file
  std::vector<ParcelAudit> parcels;

  [[nodiscard]] std::size_t count(SlotState state) const; // over all pieces
  [[nodiscard]] bool wrong() const;                       // some finding says that something is wrong
  [[nodiscard]] bool open() const;                        // some finding says that something is open
};

// Takes about n log n in pieces and parts, beside the judgements: one for each run that loose or worn parts can be on
// each issue that wears or takes it.
[[nodiscard]] Audit audit_shelf(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge);

} // namespace coeval
