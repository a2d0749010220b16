// links/address_table.hpp: which address does each entry have, and which entry has an address?
//
// Each text is kept once; whoever shows an address refers to it here. No address is ever taken back, and the table is
// moved, never copied, so that what refers to it stays good.
#pragma once

#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include "entries/entry.hpp"

namespace coeval {

class AddressTable {
public:
  explicit AddressTable(std::size_t entries = 0);
  ~AddressTable();
  AddressTable(const AddressTable&) = delete;
  AddressTable& operator=(const AddressTable&) = delete;
  AddressTable(AddressTable&&) noexcept;
  AddressTable& operator=(AddressTable&&) noexcept;

  // Gives an entry the address `family`/`id`, or `id` alone where the family is empty. Where another entry has it
  // already that one keeps it, and is returned.
  std::optional<EntryIndex> give(EntryIndex entry, std::string_view family, std::string_view id);

  // Empty where the entry has none.
  [[nodiscard]] std::string_view operator[](EntryIndex entry) const { return of_[static_cast<std::size_t>(entry)]; }
  [[nodiscard]] std::optional<EntryIndex> find(std::string_view address) const;
  // How many entries have an address.
  [[nodiscard]] std::size_t count() const;
  // Those entries in the order of their addresses. Sorts them each time, which only few questions need.
  [[nodiscard]] std::vector<EntryIndex> in_order() const;

private:
  struct Index;
  std::vector<std::string_view> of_; // of each entry
  std::unique_ptr<Index> index_;
};

} // namespace coeval
