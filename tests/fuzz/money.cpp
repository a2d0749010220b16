// Can any bytes make the readers of amounts crash or read what is not written, or any fee schedule a wrong highest bid?
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string_view>

#include "money/landed.hpp"

using namespace coeval;

namespace {

void must(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

void check_told(std::string_view told) {
  must(!told.empty(), "a refusal says something");
  must(told.size() < 200, "what it says is short");
  must(!told.ends_with('.'), "it ends without full stop");
  for (std::size_t at = 0; at < told.size(); ++at) {
    const auto byte = static_cast<unsigned char>(told[at]);
    const bool dots = told.substr(at).starts_with("…");
    must(dots || (byte >= 0x20 && byte < 0x7F), "nothing but printable ASCII and the dots of a cut");
    if (dots) at += 2;
  }
}

void check_refusal(const MisreadAmount& refusal) {
  check_told(refusal.message);
  check_told(refusal.help);
}

void check_texts(std::string_view written) {
  const auto money = read_money(written, Sign::minus);
  if (const auto* refusal = std::get_if<MisreadAmount>(&money)) {
    check_refusal(*refusal);
  } else {
    const Money& amount = std::get<Money>(money);
    must(std::get<Money>(read_money(text(amount), Sign::minus)) == amount, "an amount is read back as it was");
  }
  const auto percent = read_percent(written);
  if (const auto* refusal = std::get_if<MisreadAmount>(&percent)) {
    check_refusal(*refusal);
  } else {
    const auto& number = std::get<Decimal>(percent);
    must(std::get<Decimal>(read_decimal(text(number))) == number, "a percent is read back as it was");
    must(written.find(text(number)) != std::string_view::npos, "its decimals are kept");
  }
  if (const auto currency = read_currency(written); std::holds_alternative<MisreadAmount>(currency))
    check_refusal(std::get<MisreadAmount>(currency));
}

// Reads numbers off the bytes; noughts where they have run out.
class Bytes {
public:
  Bytes(const std::uint8_t* data, std::size_t size) : data_(data), size_(size) {}
  std::int64_t number() {
    std::int64_t value = 0;
    const std::size_t length = std::min(size_, static_cast<std::size_t>(small() % 9));
    std::memcpy(&value, data_, length);
    data_ += length;
    size_ -= length;
    return value;
  }
  std::uint8_t small() {
    if (size_ == 0) return 0;
    --size_;
    return *data_++;
  }

private:
  const std::uint8_t* data_;
  std::size_t size_;
};

Decimal percent_of(Bytes& bytes) {
  return {.digits = bytes.number(), .scale = static_cast<std::int32_t>(bytes.small() % (greatest_scale + 1))};
}

StepRounding rounding_of(Bytes& bytes) {
  return {.mode = static_cast<Rounding>(bytes.small() % 4), .unit = bytes.number()};
}

CostSet costs_of(Bytes& bytes) {
  const std::uint8_t bits = bytes.small();
  CostSet costs;
  for (std::size_t cost = 0; cost < kinds_of_cost; ++cost)
    if ((bits >> cost & 1U) != 0) costs.add(static_cast<Cost>(cost));
  return costs;
}

void check_schedule(Bytes bytes) {
  FeeSchedule schedule{.currency = std::get<Currency>(read_currency("GBP"))};
  const std::uint8_t has = bytes.small();
  if ((has & 1U) != 0) {
    BuyersPremium premium;
    std::int64_t up_to = 0;
    for (int tier = bytes.small() % 5; tier > 0; --tier) {
      up_to = bytes.number();
      premium.tiers.push_back({.up_to = up_to, .percent = percent_of(bytes)});
    }
    premium.tiers.push_back({.up_to = {}, .percent = percent_of(bytes)});
    premium.on_whole = (has & 2U) != 0;
    premium.least = bytes.number();
    if ((has & 4U) != 0) premium.most = bytes.number();
    premium.rounding = rounding_of(bytes);
    schedule.premium = premium;
  }
  if ((has & 8U) != 0) schedule.shipping = bytes.number();
  if ((has & 16U) != 0)
    schedule.insurance = Insurance{
        .percent = percent_of(bytes), .on = costs_of(bytes), .least = bytes.number(), .rounding = rounding_of(bytes)};
  for (int levy = has >> 5U; levy > 0; --levy) {
    Levy next{.kind = bytes.small() % 2 == 0 ? Cost::duty : Cost::tax};
    next.percent = percent_of(bytes);
    next.on = costs_of(bytes);
    if (bytes.small() % 2 == 0) next.above = bytes.number();
    next.counted = costs_of(bytes);
    next.rounding = rounding_of(bytes);
    schedule.levies.push_back(next);
  }
  if (const auto fault = fault_of(schedule)) return check_refusal(*fault);
  const std::int64_t budget = bytes.number() & INT64_MAX;
  const std::int64_t increment = (bytes.number() & 0xFFFFFF) + 1;
  const auto bid = ceiling(schedule, budget, increment);
  if (!bid) return;
  must(*bid > 0 && *bid <= budget && *bid % increment == 0, "the highest bid is one");
  const auto bill = landed(schedule, *bid);
  must(bill && bill->total.minor <= budget, "the highest bid is affordable");
  if (*bid > budget - increment) return;
  const auto next = landed(schedule, *bid + increment);
  must(!next || next->total.minor > budget, "the next bid is not");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  check_texts({reinterpret_cast<const char*>(data), size});
  check_schedule({data, size});
  return 0;
}
