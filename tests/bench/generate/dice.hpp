// dice.hpp: which random number comes next, the same on every machine?
//
// SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014). The
// standard library's distributions are not used: what they give differs from one library to the next.
#pragma once

#include <cstdint>
#include <initializer_list>

namespace generated {

class Dice {
public:
  // Streams of one seed have nothing to do with each other.
  Dice(std::uint64_t seed, std::uint64_t stream) : state_(seed) { state_ = next() + stream * 0xd1342543de82ef95ULL; }

  std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
  }
  // From 0 to `count` - 1. The bias of the remainder is far below what any of this could show.
  std::uint32_t below(std::uint64_t count) { return static_cast<std::uint32_t>(next() % count); }
  std::int64_t between(std::int64_t least, std::int64_t most) {
    return least + static_cast<std::int64_t>(next() % static_cast<std::uint64_t>(most - least + 1));
  }
  bool one_in(std::uint64_t count) { return below(count) == 0; }
  bool percent(std::uint64_t chance) { return below(100) < chance; }
  // The position of one of the weights, each as likely as it is heavy.
  std::uint32_t weighted(std::initializer_list<std::uint32_t> weights) {
    std::uint32_t sum = 0;
    for (const std::uint32_t weight : weights) sum += weight;
    std::uint32_t left = below(sum);
    std::uint32_t position = 0;
    for (const std::uint32_t weight : weights) {
      if (left < weight) break;
      left -= weight;
      ++position;
    }
    return position;
  }

private:
  std::uint64_t state_;
};

} // namespace generated
