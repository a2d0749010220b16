// Slots are compared by name: a slot outside the line's list is probably misspelt, and two accessories in one slot of
// an issue, where a figure has one hand, are probably a slip.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "rules/rule_list.hpp"

namespace coeval {
namespace {

void check_known(const LinkedKb& kb, const Entry& entry, std::optional<LineIndex> line, Diagnostics& out) {
  const Field* field = entry.find("slot");
  if (field == nullptr || !line) return;
  const auto& slots = kb.lines[at(*line)].slots;
  const std::string& written = std::get<KeptText>(field->value);
  if (slots.empty() || std::ranges::find(slots, written) != slots.end()) return;
  const std::vector<std::string_view> known(slots.begin(), slots.end());
  const auto near = near_names(written, known);
  Diagnostic unknown;
  unknown.code = Code::unknown_slot;
  unknown.place = field->place;
  unknown.message = fmt::format("the line has no slot `{}`", written);
  unknown.help = near.empty()
                     ? fmt::format("its slots are {}; add the new one to the line's `slots`", list_names(known, "and"))
                     : did_you_mean(near);
  if (near.size() == 1) unknown.fix = Fix{field->place, "\"" + std::string{near.front()} + "\"", false};
  out.report(std::move(unknown));
}

} // namespace

void check_slots(const RuleInput& input, Diagnostics& out) {
  const LinkedKb& kb = input.kb;
  for (const Accessory& accessory : kb.accessories) check_known(kb, kb.entries[accessory.entry], accessory.line, out);
  for (const Issue& issue : kb.issues) {
    std::map<std::pair<std::string, AccessoryIndex>, const Takes*> taken;
    for (const Takes& takes : issue.takes) {
      const Accessory& accessory = kb.accessories[at(takes.accessory)];
      const auto [first, fresh] = taken.try_emplace({takes.slot, takes.accessory}, &takes);
      if (!fresh) {
        Diagnostic twice;
        twice.code = Code::slot_taken_twice;
        twice.place = takes.evidence.place;
        twice.message = fmt::format("`{}` takes {} in the slot {} twice", issue.address, accessory.id, takes.slot);
        twice.help = "take one of them out, or give the second its own slot";
        twice.labels.push_back({first->second->evidence.place, "first said here"});
        out.report(std::move(twice));
      }
      if (takes.slot != accessory.slot) {
        Diagnostic differs;
        differs.code = Code::slot_differs;
        differs.place = takes.evidence.place;
        differs.message = fmt::format("`{}` takes {} in the slot {}, and the accessory is for the slot {}",
                                      issue.address, accessory.id, takes.slot, accessory.slot);
        differs.help = "leave `slot` out to use the accessory's own";
        differs.labels.push_back({kb.entries[accessory.entry].place, "the accessory"});
        out.report(std::move(differs));
      }
    }
  }
  for (const Entry& entry : kb.entries.entries) {
    if (entry.kind != Kind::takes || entry.parent == no_entry) continue;
    const std::uint32_t issue = kb.position[at(entry.parent)];
    if (issue < kb.issues.size()) check_known(kb, entry, kb.figures[at(kb.issues[issue].figure)].line, out);
  }
}

} // namespace coeval
