#include "links/address_table.hpp"

#include <algorithm>
#include <memory_resource>
#include <string>

#include <boost/unordered/unordered_flat_set.hpp>

namespace coeval {
struct AddressTable::Index {
  // Compares entries by their addresses, so that the set holds four bytes for each. The addresses stay where they are
  // for as long as the table lasts, also when it is moved.
  struct SameAddress {
    using is_transparent = void;
    const std::string_view* of = nullptr;

    [[nodiscard]] std::string_view text(EntryIndex entry) const { return of[static_cast<std::size_t>(entry)]; }
    [[nodiscard]] static std::string_view text(std::string_view address) { return address; }

    template <class One, class Other> bool operator()(const One& one, const Other& other) const {
      return text(one) == text(other);
    }
    template <class One> std::size_t operator()(const One& one) const {
      return std::hash<std::string_view>{}(text(one));
    }
  };

  // Room for all at once: to make it larger is to hash every address anew.
  Index(std::size_t most, const std::string_view* of) : entries(most, SameAddress{of}, SameAddress{of}) {}

  std::pmr::monotonic_buffer_resource texts;
  boost::unordered_flat_set<EntryIndex, SameAddress, SameAddress> entries;
};

AddressTable::AddressTable(std::size_t entries) : of_(entries), index_(std::make_unique<Index>(entries, of_.data())) {}
AddressTable::~AddressTable() = default;
AddressTable::AddressTable(AddressTable&&) noexcept = default;
AddressTable& AddressTable::operator=(AddressTable&&) noexcept = default;

std::optional<EntryIndex> AddressTable::give(EntryIndex entry, std::string_view family, std::string_view id) {
  const std::size_t head = family.empty() ? 0 : family.size() + 1;
  const std::size_t size = head + id.size();
  char* text = static_cast<char*>(index_->texts.allocate(size, 1));
  std::ranges::copy(family, text);
  if (head > 0) text[family.size()] = '/';
  std::ranges::copy(id, text + head);
  std::string_view& own = of_[static_cast<std::size_t>(entry)];
  own = {text, size};
  const auto [holder, fresh] = index_->entries.insert(entry);
  if (fresh) return {};
  own = {};
  return *holder;
}

std::optional<EntryIndex> AddressTable::find(std::string_view address) const {
  const auto found = index_->entries.find(address);
  if (found == index_->entries.end()) return {};
  return *found;
}

std::size_t AddressTable::count() const { return index_->entries.size(); }

std::vector<EntryIndex> AddressTable::in_order() const {
  std::vector<EntryIndex> list(index_->entries.begin(), index_->entries.end());
  std::ranges::sort(list, {}, [this](EntryIndex entry) { return (*this)[entry]; });
  return list;
}

} // namespace coeval
