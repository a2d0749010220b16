// Can any bytes make the readers of dates and durations crash, or say something that cannot be?
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "calendar/duration.hpp"
#include "calendar/edtf.hpp"

using namespace coeval;

namespace {

void must(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

// Messages go into JSON, so they are UTF-8, on one line, and short however long the text is.
void check_refusal(std::string_view refusal) {
  must(!refusal.empty(), "a refusal has a reason");
  must(refusal.size() < 400, "a reason is short");
  must(!refusal.ends_with('.') || refusal.ends_with("/.."), "a reason ends without full stop");
  for (std::size_t at = 0; at < refusal.size();) {
    const auto lead = static_cast<unsigned char>(refusal[at]);
    must(lead >= 0x20 && lead != 0x7F, "a reason has no control characters");
    const std::size_t length = lead < 0x80 ? 1 : lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    must(lead < 0x80 || (lead >= 0xC2 && lead <= 0xF4), "a reason is UTF-8");
    must(at + length <= refusal.size(), "a reason is whole UTF-8");
    for (std::size_t tail = 1; tail < length; ++tail)
      must((static_cast<unsigned char>(refusal[at + tail]) & 0xC0) == 0x80, "a reason is well-formed UTF-8");
    at += length;
  }
}

void check_bounds(const DateBounds& bounds) {
  const Day farthest = day_number({farthest_year + 1, 12, 31}); // a season may end in the next year
  const Day nearest = day_number({-farthest_year - 1, 1, 1});
  must(!bounds.first || (*bounds.first >= nearest && *bounds.first <= farthest), "the first day is in reach");
  must(!bounds.last || (*bounds.last >= nearest && *bounds.last <= farthest), "the last day is in reach");
  must(!bounds.first || !bounds.last || *bounds.first <= *bounds.last, "an end begins before it ends");
}

void check_date(std::string_view text) {
  const EdtfResult result = parse_edtf(text);
  must(result.value.has_value() == result.refusal.empty(), "either a value or a refusal");
  must(result.offset <= text.size(), "the offset is in the text");
  if (!result.value) return check_refusal(result.refusal);
  const Edtf& date = *result.value;
  must(date.level >= 0 && date.level <= 2, "the level is 0, 1 or 2");
  check_bounds(date.start);
  check_bounds(date.end);
  must(!date.first() || !date.last() || *date.first() <= *date.last(), "the hull begins before it ends");
  must((date.start_kind == EndKind::dated) == date.first().has_value(), "a dated start has a first day");
  must((date.end_kind == EndKind::dated) == date.last().has_value(), "a dated end has a last day");
  if (date.shape == EdtfShape::date) must(date.start == date.end, "a date is both its ends");
  if (date.shape == EdtfShape::date || date.shape == EdtfShape::interval)
    must(date.first() || date.last(), "something is said");
  if (date.first()) must(day_number(date_of(*date.first())) == *date.first(), "a day has a date");
}

void check_duration(std::string_view text) {
  const DurationResult result = parse_duration(text);
  must(result.value.has_value() == result.refusal.empty(), "either a duration or a refusal");
  if (!result.value) return check_refusal(result.refusal);
  must(result.value->fewest_days() >= 0, "no duration is negative");
  must(result.value->fewest_days() <= result.value->most_days(), "the fewest days are not more than the most");
  must(!at_least_words(result.value->most_days() + 1).empty(), "every gap has words");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  check_date(text);
  check_duration(text);
  return 0;
}
