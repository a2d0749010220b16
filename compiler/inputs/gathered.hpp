// inputs/gathered.hpp: what is the hash of these things, in this order?
//
// Private to this room. Numbers as they lie in memory, texts behind their length, so that where one thing ends is never
// a question of what is in it.
#pragma once

#include <string>
#include <string_view>
#include <type_traits>

#include "diagnose/reason.hpp"
#include "publish/hash.hpp"

namespace coeval {

class Gathered {
public:
  template <class Number>
  requires std::is_arithmetic_v<Number> || std::is_enum_v<Number> Gathered& add(const Number& number) {
    bytes_.append(reinterpret_cast<const char*>(&number), sizeof number);
    return *this;
  }
  Gathered& add(std::string_view text) {
    add(text.size());
    bytes_ += text;
    return *this;
  }
  Gathered& add(const ContentHash& hash) { return add(hash.high).add(hash.low); }

  [[nodiscard]] ContentHash hash() const { return hash_of(bytes_); }
  void clear() { bytes_.clear(); }

private:
  std::string bytes_;
};

} // namespace coeval
