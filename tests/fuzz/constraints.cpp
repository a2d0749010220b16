// libFuzzer target: whatever small graph the bytes describe, do all answers about it hold against all-pairs tables?
//
// Byte 0: points - 1 (3 bits), levels - 1 (2 bits), the level to ask about (2 bits). Byte 1: which of the statements
// 0 .. 7 are weak evidence. Byte 2: which of them are left out. Then three bytes for each constraint: x and y; its
// length; its statement (4 bits, the last values meaning a definition) and level.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

#include "../property/constraints/oracle.hpp"

using namespace coeval;

namespace {

constexpr std::size_t most_constraints = 40;

void require(const std::string& fault, const ConstraintGraph& graph) {
  if (fault.empty()) return;
  std::fprintf(stderr, "%s: %s\n", fault.c_str(), oracle::describe(graph).c_str());
  std::abort();
}

ConstraintGraph graph_from(const std::uint8_t* data, std::size_t size, std::uint32_t points) {
  std::vector<Constraint> constraints;
  for (std::size_t i = 0; i + 2 < size && constraints.size() < most_constraints; i += 3) {
    Constraint c;
    c.x = Point{(data[i] & 15U) % points};
    c.y = Point{(data[i] >> 4U) % points};
    c.most = static_cast<std::int8_t>(data[i + 1]);
    c.level = static_cast<std::uint8_t>(data[i + 2] >> 6U);
    const std::uint32_t statement = data[i + 2] & 15U;
    if (statement < 12) {
      c.statement = StatementIndex{statement};
    } else {
      // True of points that lie at 2, 4, 6 ..., so that definitions never contradict each other.
      c.most = 2 * (static_cast<std::int64_t>(c.x) - static_cast<std::int64_t>(c.y)) + (c.most & 15);
    }
    constraints.push_back(c);
  }
  return ConstraintGraph{points, std::move(constraints)};
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 3) return 0;
  const std::uint32_t points = 1 + (data[0] & 7U);
  const int levels = 1 + static_cast<int>((data[0] >> 3U) & 3U);
  const int level = static_cast<int>((data[0] >> 5U) & 3U);
  const std::uint32_t weak = data[1];
  std::vector<StatementIndex> left_out;
  for (std::uint32_t s = 8; s-- > 0;)
    if (((data[2] >> s) & 1U) != 0) left_out.push_back(StatementIndex{s});

  const ConstraintGraph graph = graph_from(data + 3, size - 3, points);
  require(oracle::fault_in_entailment(graph, level, left_out), graph);
  const WeakerThan weaker = [weak](StatementIndex one, StatementIndex other) {
    const auto is_weak = [weak](StatementIndex s) {
      return ((weak >> (static_cast<std::uint32_t>(s) & 7U)) & 1U) != 0;
    };
    return is_weak(one) && !is_weak(other);
  };
  require(oracle::fault_in_contradictions(graph, levels, weaker), graph);
  return 0;
}
