#include "entries/entry.hpp"

#include <algorithm>

namespace coeval {

std::optional<Condition> read_condition(std::string_view text) {
  Condition condition;
  condition.scale = text.starts_with('C') ? Condition::Scale::c : Condition::Scale::hundred;
  if (condition.scale == Condition::Scale::c) text.remove_prefix(1);
  const bool half = condition.scale == Condition::Scale::c && text.ends_with(".5");
  if (half) text.remove_suffix(2);
  const bool digits = !text.empty() && text.size() <= 3 && (text.size() == 1 || text[0] != '0') &&
                      std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
  if (!digits) return {};
  for (const char digit : text) condition.tenths = condition.tenths * 10 + (digit - '0');
  condition.tenths = condition.tenths * 10 + (half ? 5 : 0);
  const bool in_scale = condition.scale == Condition::Scale::c ? condition.tenths >= 10 && condition.tenths <= 100
                                                               : condition.tenths <= 1000;
  if (!in_scale) return {};
  return condition;
}

std::string text(const Condition& condition) {
  return (condition.scale == Condition::Scale::c ? "C" : "") + std::to_string(condition.tenths / 10) +
         (condition.tenths % 10 == 5 ? ".5" : "");
}

const Field* Entry::find(std::string_view key) const {
  for (const Field& field : fields)
    if (same_name(field.spec->name, key)) return &field;
  return nullptr;
}

std::string_view entry_name(const Entry& entry) {
  for (const std::string_view key : {"name", "title", "says"})
    if (const std::string_view text = entry.text(key); !text.empty()) return text;
  return {};
}

} // namespace coeval
