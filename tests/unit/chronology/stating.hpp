// tests/unit/chronology/stating.hpp: which constraints does a text state, written so that a person can check them?
#pragma once

#include "in_memory_kb.hpp"

namespace stating {

using Lines = std::vector<std::string>;

inline std::string point_name(const coeval::LinkedKb& kb, coeval::Point point) {
  const auto number = static_cast<std::size_t>(point);
  if (number == 0) return "0";
  const std::size_t span = (number - 1) / 2;
  if (span >= kb.spans.size()) return "inner day";
  return std::string{kb.spans[span].address} + ((number - 1) % 2 == 0 ? ".start" : ".end");
}

inline std::string basis_name(const coeval::Constraint& constraint) {
  return std::string{coeval::name(static_cast<coeval::Basis>(constraint.level))};
}

// "x - y <= days, basis: sentence" for every constraint that does not hold by definition; a bound against day 0 is
// written as the day itself.
inline Lines stated(const in_memory::Kb& kb, bool definitions = false) {
  Lines lines;
  const coeval::ConstraintGraph& graph = kb.dates.graph();
  for (std::uint32_t i = 0; i < graph.constraints().size(); ++i) {
    const coeval::Constraint& c = graph.constraints()[i];
    if ((c.statement == coeval::by_definition) != definitions) continue;
    std::string line;
    if (c.y == coeval::origin)
      line = point_name(kb.kb, c.x) + " <= " + coeval::iso(c.most);
    else if (c.x == coeval::origin)
      line = point_name(kb.kb, c.y) + " >= " + coeval::iso(-c.most);
    else
      line = point_name(kb.kb, c.x) + " - " + point_name(kb.kb, c.y) + " <= " + std::to_string(c.most);
    const std::vector<coeval::ConstraintIndex> one{coeval::ConstraintIndex{i}};
    const std::vector<coeval::Reason> told = kb.dates.tell_all(one);
    lines.push_back(line + (definitions ? "" : ", " + basis_name(c)) + ": " + told.at(0).statement);
  }
  return lines;
}

// How many statements these constraints belong to.
inline std::size_t statements(const in_memory::Kb& kb) {
  std::vector<coeval::StatementIndex> list;
  for (const coeval::Constraint& c : kb.dates.graph().constraints())
    if (c.statement != coeval::by_definition) list.push_back(c.statement);
  std::ranges::sort(list);
  list.erase(std::unique(list.begin(), list.end()), list.end());
  return list.size();
}

inline std::string day(const std::optional<coeval::Day>& bound) { return bound ? coeval::iso(*bound) : "?"; }

// "earliest start..latest start / earliest end..latest end" on a basis.
inline std::string bounds(const in_memory::Kb& kb, std::string_view address,
                          coeval::Basis basis = coeval::Basis::conjectured) {
  const coeval::TimeSpanIndex span = kb.span(address);
  const coeval::DayBounds start = kb.dates.bounds(coeval::start_of(span), basis);
  const coeval::DayBounds end = kb.dates.bounds(coeval::end_of(span), basis);
  return day(start.earliest) + ".." + day(start.latest) + " / " + day(end.earliest) + ".." + day(end.latest);
}

inline std::string period(const std::string& id, const std::string& keys = "") {
  return "[[period]]\nid = \"" + id + "\"\nname = \"P\"\n" + keys;
}

} // namespace stating
