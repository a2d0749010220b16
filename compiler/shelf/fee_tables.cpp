#include "shelf/fee_tables.hpp"

#include <fmt/format.h>

namespace coeval {
namespace {

std::optional<Cost> cost_named(std::string_view name) {
  for (std::size_t i = 0; i < kinds_of_cost; ++i)
    if (const Cost cost{static_cast<std::uint8_t>(i)}; text(cost) == name) return cost;
  return {};
}

CostSet costs_in(const Entry& entry, std::string_view key, CostSet unless_said) {
  const auto* words = entry.get<Words>(key);
  if (words == nullptr) return unless_said;
  CostSet costs;
  for (const Word& word : *words)
    if (const auto cost = cost_named(word.text)) costs.add(*cost);
  return costs;
}

// Reads one [[fees]] table and those inside it; stops at the first fault, since each amount is used by what follows.
class FeeReader {
public:
  FeeReader(const EntrySet& entries, EntryIndex index, const std::vector<std::vector<EntryIndex>>& children,
            Diagnostics& out)
      : entries_(entries), index_(index), children_(children), out_(out),
        currency_(*entries[index].get<Currency>("currency")) {}

  std::optional<FeeTable> read() {
    const Entry& entry = entries_[index_];
    FeeTable table{
        .entry = index_, .id = entry.id, .name = std::string{entry.text("name")}, .schedule = {.currency = currency_}};
    table.schedule.shipping = amount(entry, "shipping").value_or(0);
    table.increment = amount(entry, "increment").value_or(1);
    if (sound_ && table.increment == 0)
      refuse(entry.find("increment")->place, {"bids cannot rise by nothing", "write the smallest step of a bid"});
    for (const EntryIndex child : children_[at(index_)]) {
      const Entry& inner = entries_[child];
      if (inner.broken) sound_ = false; // reported already
      if (!sound_) return {};
      if (inner.kind == Kind::premium) table.schedule.premium = premium(child);
      if (inner.kind == Kind::fixed_fee)
        table.schedule.fees.push_back({std::string{inner.text("name")}, amount(inner, "amount").value_or(0)});
      if (inner.kind == Kind::insurance) table.schedule.insurance = insurance(inner);
      if (inner.kind == Kind::levy) table.schedule.levies.push_back(levy(inner));
    }
    if (const auto fault = sound_ ? fault_of(table.schedule) : std::nullopt) refuse(entry.place, *fault);
    if (!sound_) return {};
    return table;
  }

private:
  void refuse(Span place, const MisreadAmount& fault) {
    sound_ = false;
    Diagnostic wrong;
    wrong.code = Code::unusable_fees;
    wrong.place = place;
    wrong.message = fault.message;
    wrong.help = fault.help;
    out_.report(std::move(wrong));
  }

  // In minor units of the currency of the fees.
  std::optional<std::int64_t> amount(const Entry& entry, std::string_view key) {
    const auto* money = entry.get<Money>(key);
    if (money == nullptr) return {};
    if (money->currency == currency_) return money->minor;
    refuse(entry.find(key)->place,
           {fmt::format("these fees are in {}, and `{}` is in {}", currency_.code(), key, money->currency.code()),
            "write it in the currency of the fees"});
    return {};
  }

  static StepRounding rounding(const Entry& entry) {
    const auto* unit = entry.get<std::int64_t>("rounding-to");
    return {rounding_named(entry.text("rounding")), unit == nullptr ? 1 : *unit};
  }

  BuyersPremium premium(EntryIndex index) {
    const Entry& entry = entries_[index];
    BuyersPremium premium;
    premium.on_whole = entry.flag("on-whole");
    premium.least = amount(entry, "least").value_or(0);
    premium.most = amount(entry, "most");
    premium.rounding = rounding(entry);
    for (const EntryIndex child : children_[at(index)]) {
      const Entry& tier = entries_[child];
      if (tier.broken) sound_ = false;
      if (!sound_) return premium;
      premium.tiers.push_back({amount(tier, "up-to"), *tier.get<Decimal>("percent")});
    }
    if (const auto fault = sound_ ? fault_of(premium) : std::nullopt) refuse(entry.place, *fault);
    return premium;
  }

  Insurance insurance(const Entry& entry) {
    Insurance insurance{.percent = *entry.get<Decimal>("percent"),
                        .on = costs_in(entry, "on", {}),
                        .least = amount(entry, "least").value_or(0),
                        .rounding = rounding(entry)};
    if (const auto fault = sound_ ? fault_of(insurance) : std::nullopt) refuse(entry.place, *fault);
    return insurance;
  }

  Levy levy(const Entry& entry) {
    Levy levy{.kind = entry.text("kind") == "tax" ? Cost::tax : Cost::duty,
              .name = std::string{entry.text("name")},
              .percent = *entry.get<Decimal>("percent"),
              .on = costs_in(entry, "on", {}),
              .above = amount(entry, "above"),
              .counted = costs_in(entry, "counted", {Cost::hammer}),
              .rounding = rounding(entry)};
    if (const auto fault = sound_ ? fault_of(levy) : std::nullopt) refuse(entry.place, *fault);
    return levy;
  }

  const EntrySet& entries_;
  EntryIndex index_;
  const std::vector<std::vector<EntryIndex>>& children_;
  Diagnostics& out_;
  Currency currency_;
  bool sound_ = true;
};

} // namespace

Rounding rounding_named(std::string_view written) {
  if (written == "half-even") return Rounding::half_even;
  if (written == "up") return Rounding::up;
  if (written == "down") return Rounding::down;
  return Rounding::half_up;
}

std::vector<FeeTable> read_fee_tables(const EntrySet& entries, Diagnostics& out) {
  std::vector<std::vector<EntryIndex>> children(entries.entries.size());
  for (std::size_t i = 0; i < entries.entries.size(); ++i)
    if (const EntryIndex parent = entries.entries[i].parent; parent != no_entry)
      children[at(parent)].push_back(EntryIndex{static_cast<std::uint32_t>(i)});
  std::vector<FeeTable> tables;
  for (std::size_t i = 0; i < entries.entries.size(); ++i) {
    const Entry& entry = entries.entries[i];
    if (entry.kind != Kind::fees || entry.broken) continue;
    if (auto table = FeeReader{entries, EntryIndex{static_cast<std::uint32_t>(i)}, children, out}.read())
      tables.push_back(std::move(*table));
  }
  return tables;
}

} // namespace coeval
