// examine/candidates.hpp: what could a part be, and what is stated of each?
//
// A candidate is a run or a reproduction. What is stated of it is gathered feature by feature, and the nearest
// statement counts: of a run its own, else its mould's, else its accessory's, so that a run may narrow or widen what
// its mould says; of a reproduction its own, else what is stated of what it copies.
//
// A [colour] with lab states the colour of the plastic as if it stood in the features table beside it, unless that
// table states it itself. It stands for the feature `body-colour`; in a knowledge base without that id, for the only
// feature of kind colour; where there are several and none is called so, for none.
#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "examine/colour.hpp"
#include "links/kb.hpp"

namespace coeval {

// Written in place of a lab: the plastic of the part is that of the figure it came with.
inline constexpr std::string_view same_as_figure = "same-as-figure";

// Points into the entries of the knowledge base, which must outlive it.
struct Stated {
  FeatureIndex feature{};
  EntryIndex from = no_entry;          // the accessory, mould, run or repro whose table says so
  const FeatureValue* value = nullptr; // absent where [colour] says it
  const Numbers* lab = nullptr;        // of a colour that is given as numbers
  std::optional<double> tolerance;     // the value's, else the feature's; without one a number decides nothing
};

// What a part can be.
using PartIdentity = std::variant<RunIndex, ReproIndex>;

struct Candidate {
  PartIdentity what;
  std::vector<Stated> stated; // by feature

  [[nodiscard]] bool original() const { return std::holds_alternative<RunIndex>(what); }
  [[nodiscard]] const Stated* find(FeatureIndex feature) const;
};

// The runs of an accessory, mould by mould, then its reproductions; of all accessories where none is given.
[[nodiscard]] std::vector<Candidate> candidates_of(const LinkedKb& kb, std::optional<AccessoryIndex> accessory);
// Those of every accessory that goes into the slot.
[[nodiscard]] std::vector<Candidate> candidates_in_slot(const LinkedKb& kb, std::string_view slot);

[[nodiscard]] std::string_view address_of(const LinkedKb& kb, const PartIdentity& identity);
[[nodiscard]] AccessoryIndex accessory_of(const LinkedKb& kb, const PartIdentity& identity);
[[nodiscard]] inline std::string_view address_of(const LinkedKb& kb, const Candidate& candidate) {
  return address_of(kb, candidate.what);
}
[[nodiscard]] inline AccessoryIndex accessory_of(const LinkedKb& kb, const Candidate& candidate) {
  return accessory_of(kb, candidate.what);
}
// The feature that a [colour] stands for.
[[nodiscard]] std::optional<FeatureIndex> plastic_colour(const LinkedKb& kb);
[[nodiscard]] Lab lab_of(const Numbers& numbers);

} // namespace coeval
