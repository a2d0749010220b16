#include "commands/parts.hpp"

namespace coeval {

std::vector<RunIndex> runs_of(const LinkedKb& kb, EntryIndex part) {
  const std::uint32_t position = kb.position[at(part)];
  std::vector<RunIndex> runs;
  switch (kb.entries[part].kind) {
  case Kind::run:
    runs.push_back(RunIndex{position});
    break;
  case Kind::mould:
    runs = kb.moulds[position].runs;
    break;
  case Kind::accessory:
    for (const MouldIndex mould : kb.accessories[position].moulds)
      runs.insert(runs.end(), kb.moulds[at(mould)].runs.begin(), kb.moulds[at(mould)].runs.end());
    break;
  default:
    break;
  }
  return runs;
}

} // namespace coeval
