// entries/value_store.hpp: where do the values of entries lie that are larger than a field?
//
// Fields with a piece of memory each take much more: for 118 MB of text 590 MB, and so 340 MB. What a field holds is
// therefore plain: a number, or a view of a text or a list. Texts lie in their file wherever they stand there as they
// are meant; everything else lies in a store, one piece after another, and goes with it as a whole.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <memory_resource>
#include <new>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace coeval {

// A text that lies in a file or a store. Where a std::string is wanted, it becomes one.
class KeptText : public std::string_view {
public:
  KeptText() = default;
  explicit KeptText(std::string_view text) : std::string_view(text) {}
  operator std::string() const { return std::string{begin(), end()}; } // NOLINT: as said above

  [[nodiscard]] KeptText substr(std::size_t begin, std::size_t size = npos) const {
    return KeptText{std::string_view::substr(begin, size)};
  }
  friend std::string operator+(std::string left, KeptText right) { return std::move(left.append(right)); }
  friend std::string operator+(KeptText left, std::string_view right) { return std::string{left}.append(right); }
  friend std::string operator+(KeptText left, KeptText right) { return std::string{left}.append(right); }
};

// Several values one after the other that lie in a store.
template <class Type> class Kept {
public:
  using value_type = Type;

  Kept() = default;
  explicit Kept(std::span<const Type> values)
      : first_(values.data()), size_(static_cast<std::uint32_t>(values.size())) {}

  [[nodiscard]] const Type* begin() const { return first_; }
  [[nodiscard]] const Type* end() const { return first_ + size_; }
  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  [[nodiscard]] const Type& front() const { return *first_; }
  [[nodiscard]] const Type& back() const { return first_[size_ - 1]; }
  [[nodiscard]] const Type& operator[](std::size_t i) const { return first_[i]; }

private:
  const Type* first_ = nullptr;
  std::uint32_t size_ = 0;
};

// One value that lies in a store.
template <class Type> class Apart {
public:
  explicit Apart(const Type* value) : value_(value) {}
  operator const Type&() const { return *value_; } // NOLINT: stands for the value

private:
  const Type* value_;
};

// What is kept never moves. One thread at a time may add to a store.
class ValueStore {
public:
  ValueStore() = default;
  ValueStore(const ValueStore&) = delete;
  ValueStore& operator=(const ValueStore&) = delete;
  ~ValueStore() = default;

  template <class Type> [[nodiscard]] Kept<Type> keep(std::span<const Type> values) {
    static_assert(std::is_trivially_copyable_v<Type> && std::is_trivially_destructible_v<Type>);
    if (values.empty()) return {};
    auto* room = static_cast<Type*>(memory_.allocate(values.size_bytes(), alignof(Type)));
    std::uninitialized_copy(values.begin(), values.end(), room);
    return Kept<Type>{std::span<const Type>{room, values.size()}};
  }
  template <class Type> [[nodiscard]] Kept<Type> keep(const std::vector<Type>& values) {
    return keep(std::span<const Type>{values});
  }
  template <class Type> [[nodiscard]] Apart<Type> keep_one(const Type& value) {
    return Apart<Type>{keep(std::span<const Type>{&value, 1}).begin()};
  }
  [[nodiscard]] KeptText keep_text(std::string_view text) {
    const Kept<char> kept = keep(std::span<const char>{text});
    return KeptText{{kept.begin(), kept.size()}};
  }
  // The text of a file that values are views of.
  void keep_file(std::shared_ptr<const std::string> text) { files_.push_back(std::move(text)); }

private:
  std::pmr::monotonic_buffer_resource memory_;
  std::vector<std::shared_ptr<const std::string>> files_;
};

} // namespace coeval

template <> struct std::hash<coeval::KeptText> : std::hash<std::string_view> {};
