// calendar/edtf_cursor.hpp: where has the reader of a date got to, and what stopped it?
//
// The first refusal is kept; whoever refuses also returns, so no later one can hide it.
#pragma once

#include <string>
#include <string_view>

namespace coeval {

// A piece of a date as shown in a message: in backticks, at most 40 bytes, nothing unprintable, always UTF-8.
[[nodiscard]] std::string shown(std::string_view piece);

struct Cursor {
  std::string_view text;
  std::size_t at = 0;
  std::string refusal;
  std::size_t refused_at = 0;

  [[nodiscard]] bool ended() const { return at >= text.size(); }
  [[nodiscard]] char next() const { return ended() ? '\0' : text[at]; }
  [[nodiscard]] bool looking_at(std::string_view piece) const { return text.substr(at).starts_with(piece); }

  bool take(std::string_view piece) {
    if (!looking_at(piece)) return false;
    at += piece.size();
    return true;
  }

  // Everything from here that is a digit or, where asked, an unspecified digit X.
  [[nodiscard]] std::string_view take_digits(bool unspecified_too);

  // The character here as shown in a message; "the end" behind the last one.
  [[nodiscard]] std::string found() const;

  // Always false, so that a reader can stop with `return cursor.refuse(...)`.
  bool refuse(std::size_t where, std::string reason);
};

} // namespace coeval
