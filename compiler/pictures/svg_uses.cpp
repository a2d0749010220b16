#include "pictures/svg_uses.hpp"

#include <algorithm>
#include <cstdint>

namespace coeval {

void SvgUses::open(std::string_view id, std::string_view target) {
  const std::size_t element = elements_.size();
  elements_.push_back({std::string{target}, {}});
  if (!id.empty()) by_id_.emplace(id, element);
  if (!open_.empty()) elements_[open_.back()].inside.push_back(element);
  open_.push_back(element);
}

void SvgUses::close() { open_.pop_back(); }

// Depth first, without recursion: chains of uses can be as long as the text.
bool SvgUses::drawn_at_most(std::size_t most) const {
  enum class Mark : std::uint8_t { none, on_path, done };
  struct Step {
    std::size_t element = 0;
    std::size_t next = 0;
  };
  if (elements_.empty()) return true;
  std::vector<Mark> marks(elements_.size(), Mark::none);
  std::vector<std::size_t> drawn(elements_.size(), 1);
  std::vector<Step> path{{0, 0}};
  marks[0] = Mark::on_path;
  const auto part = [&](const Step& step) -> const std::size_t* {
    const Element& element = elements_[step.element];
    if (step.next < element.inside.size()) return &element.inside[step.next];
    if (step.next > element.inside.size() || element.target.empty()) return nullptr;
    const auto found = by_id_.find(element.target);
    return found == by_id_.end() ? nullptr : &found->second;
  };
  while (true) {
    Step& step = path.back();
    const std::size_t* next = part(step);
    if (next == nullptr) {
      const std::size_t whole = drawn[step.element];
      marks[step.element] = Mark::done;
      path.pop_back();
      if (whole > most) return false;
      if (path.empty()) return true;
      continue; // it is added when its user looks at it again
    }
    if (marks[*next] == Mark::on_path) return false;
    if (marks[*next] == Mark::none) {
      marks[*next] = Mark::on_path;
      path.push_back({*next, 0});
      continue;
    }
    drawn[step.element] = std::min(drawn[step.element] + drawn[*next], most + 1);
    ++step.next;
  }
}

} // namespace coeval
