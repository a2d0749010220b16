// What a test says about one date text: its bounds as text, and how it was read.
#pragma once

#include <catch2/catch.hpp>

#include <string>
#include <string_view>

#include "calendar/edtf.hpp"

inline coeval::Edtf read(std::string_view text) {
  const coeval::EdtfResult result = coeval::parse_edtf(text);
  INFO(text << ": " << result.refusal);
  REQUIRE(result.value);
  CHECK(result.refusal.empty());
  return *result.value;
}

// "1979-06-01 to 1979-06-30"; "..." where a bound is absent.
inline std::string bounds(std::optional<coeval::Day> first, std::optional<coeval::Day> last) {
  return (first ? coeval::iso(*first) : "...") + " to " + (last ? coeval::iso(*last) : "...");
}

inline std::string hull(std::string_view text) {
  const coeval::Edtf date = read(text);
  return bounds(date.first(), date.last());
}

inline std::string refusal(std::string_view text) {
  const coeval::EdtfResult result = coeval::parse_edtf(text);
  INFO(text);
  CHECK_FALSE(result.value);
  CHECK_FALSE(result.refusal.empty());
  CHECK(result.offset <= text.size());
  return result.refusal;
}
