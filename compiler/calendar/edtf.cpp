#include "calendar/edtf.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "calendar/edtf_cursor.hpp"
#include "calendar/edtf_date.hpp"
#include "calendar/edtf_habits.hpp"

// The whole of a date text: a set in brackets, an interval with a slash, or one date.

namespace coeval {

namespace {

std::optional<Edtf> read_single(Cursor& cursor) {
  const auto date = read_date(cursor);
  if (!date) return std::nullopt;
  return Edtf{.shape = EdtfShape::date, .level = date->level, .start = date->bounds, .end = date->bounds};
}

// ---- intervals

struct IntervalEnd {
  DateBounds bounds;
  EndKind kind = EndKind::dated;
  int level = 1;
};

std::optional<IntervalEnd> read_interval_end(Cursor& cursor) {
  if (cursor.ended() || cursor.next() == '/') return IntervalEnd{.kind = EndKind::unknown};
  if (cursor.take("..")) {
    if (cursor.ended() || cursor.next() == '/') return IntervalEnd{.kind = EndKind::open};
    cursor.refuse(cursor.at, "`..` at an end of an interval stands alone, such as 1979/..");
    return std::nullopt;
  }
  const std::size_t begin = cursor.at;
  const auto date = read_date(cursor);
  if (!date) return std::nullopt;
  if (date->timed) {
    cursor.refuse(begin, "an interval runs between dates: leave out the time of day");
    return std::nullopt;
  }
  if (cursor.looking_at("..")) {
    cursor.refuse(cursor.at, "`..` at an end of an interval stands alone, such as 1979/..");
    return std::nullopt;
  }
  return IntervalEnd{.bounds = date->bounds, .level = date->unspecified ? 2 : date->level};
}

// "1985/" and "1985/..": the specification shows one end unknown or open, never both, and such an interval would say
// nothing; so both is refused.
std::optional<Edtf> read_interval(Cursor& cursor) {
  const auto start = read_interval_end(cursor);
  if (!start) return std::nullopt;
  if (!cursor.take("/")) return std::nullopt; // something behind the first date: the caller says what
  const std::size_t end_at = cursor.at;
  const auto end = read_interval_end(cursor);
  if (!end) return std::nullopt;
  if (cursor.next() == '/') {
    cursor.refuse(cursor.at, "an interval has one slash, between its start and its end");
    return std::nullopt;
  }
  if (start->kind != EndKind::dated && end->kind != EndKind::dated) {
    cursor.refuse(0, "an interval needs a date at one end at least, such as 1979/ or 1979/..");
    return std::nullopt;
  }
  if (start->bounds.first && end->bounds.last && *start->bounds.first > *end->bounds.last) {
    cursor.refuse(end_at,
                  fmt::format("the interval ends before it starts: its end is {} at the latest, its start {} at "
                              "the earliest",
                              iso(*end->bounds.last), iso(*start->bounds.first)));
    return std::nullopt;
  }
  const bool plain = start->kind == EndKind::dated && end->kind == EndKind::dated;
  return Edtf{.shape = EdtfShape::interval,
              .level = plain ? std::max(start->level, end->level) : std::max({start->level, end->level, 1}),
              .start = start->bounds,
              .end = end->bounds,
              .start_kind = start->kind,
              .end_kind = end->kind};
}

// ---- sets

// What the members of a set read so far come to.
struct Members {
  std::optional<DateBounds> earliest;
  std::optional<DateBounds> latest;
  bool approximate = false;
  bool uncertain = false;
  Precision coarsest_approximate = Precision::day;

  void add(const DateBounds& member) {
    if (!earliest || *member.first < *earliest->first) earliest = member;
    if (!latest || *member.last > *latest->last) latest = member;
    approximate |= member.approximate;
    uncertain |= member.uncertain;
    if (member.approximate) coarsest_approximate = std::max(coarsest_approximate, member.precision);
  }

  // Each member's doubt holds for both ends of the set: any member may turn out to be the first or the last.
  [[nodiscard]] DateBounds doubting(DateBounds end) const {
    end.approximate = approximate;
    end.uncertain = uncertain;
    if (approximate) end.precision = coarsest_approximate;
    return end;
  }
};

std::optional<DateBounds> read_member_date(Cursor& cursor) {
  const std::size_t begin = cursor.at;
  const auto date = read_date(cursor);
  if (!date) return std::nullopt;
  if (date->timed) {
    cursor.refuse(begin, "a set holds dates: leave out the time of day");
    return std::nullopt;
  }
  return date->bounds;
}

// The values between the two ends of a range a..b are those of the coarser end where their precision differs; the
// specification asks for the same precision, but the range is clear without it.
std::optional<Edtf> read_set(Cursor& cursor) {
  const bool one_of = cursor.take("[");
  if (!one_of) cursor.take("{");
  const std::string_view closing = one_of ? "]" : "}";
  Edtf set{.shape = one_of ? EdtfShape::one_of : EdtfShape::all_of, .level = 2};
  Members members;
  if (cursor.next() == closing.front()) {
    cursor.refuse(cursor.at, "a set needs a member, such as [1979,1981]");
    return std::nullopt;
  }
  if (cursor.take("..")) set.start_kind = EndKind::open;
  while (true) {
    const std::size_t begin = cursor.at;
    if (cursor.looking_at("..")) {
      cursor.refuse(begin, "`..` without a date before it belongs at the beginning of a set");
      return std::nullopt;
    }
    const auto from = read_member_date(cursor);
    if (!from) return std::nullopt;
    members.add(*from);
    if (cursor.take("..")) {
      if (cursor.take(closing)) {
        set.end_kind = EndKind::open;
        break;
      }
      if (cursor.next() == ',') {
        cursor.refuse(cursor.at, "`..` without a date behind it belongs at the end of a set");
        return std::nullopt;
      }
      const auto to = read_member_date(cursor);
      if (!to) return std::nullopt;
      if (*from->first > *to->last) {
        cursor.refuse(begin, fmt::format("{} runs backwards: the earlier date goes first",
                                         shown(cursor.text.substr(begin, cursor.at - begin))));
        return std::nullopt;
      }
      members.add(*to);
    }
    if (cursor.take(closing)) break;
    if (cursor.take(",")) continue;
    if (cursor.next() == '/') {
      cursor.refuse(cursor.at, "a set holds no intervals; a range in it is written with two dots, such as 1979..1981");
    } else if (cursor.next() == '.') {
      cursor.refuse(cursor.at, "a range in a set is written with two dots between two dates, such as 1979..1981");
    } else {
      cursor.refuse(cursor.at, fmt::format("{} where a comma or the closing `{}` is due", cursor.found(), closing));
    }
    return std::nullopt;
  }
  if (!cursor.ended()) {
    const bool qualifier = std::string_view("?~%").find(cursor.next()) != std::string_view::npos;
    cursor.refuse(cursor.at, qualifier ? "a set takes no qualifier: put it behind the dates inside"
                                       : fmt::format("{} behind the end of the set", cursor.found()));
    return std::nullopt;
  }
  set.start = members.doubting(*members.earliest);
  set.end = members.doubting(*members.latest);
  if (set.start_kind == EndKind::open) set.start.first.reset();
  if (set.end_kind == EndKind::open) set.end.last.reset();
  return set;
}

// ---- the whole text

std::optional<Edtf> read_whole(Cursor& cursor) {
  if (cursor.text.empty()) {
    cursor.refuse(0, "empty: a date is written like 1979, 1979-06 or 1979-06-30");
    return std::nullopt;
  }
  const bool set = cursor.next() == '[' || cursor.next() == '{';
  const bool interval = cursor.text.find('/') != std::string_view::npos;
  const auto value = set ? read_set(cursor) : interval ? read_interval(cursor) : read_single(cursor);
  if (value && cursor.ended()) return value;
  if (cursor.looking_at(".."))
    cursor.refuse(cursor.at, "a range with two dots stands in brackets, such as [1979..1981] or [1979..]");
  cursor.refuse(cursor.at, fmt::format("{} behind the end of the date", cursor.found()));
  return std::nullopt;
}

} // namespace

std::optional<Day> Edtf::first() const { return start.first; }
std::optional<Day> Edtf::last() const { return end.last; }

EdtfResult parse_edtf(std::string_view text) {
  Cursor cursor{.text = text};
  if (const auto value = read_whole(cursor)) return {.value = value};
  EdtfResult result{.refusal = std::move(cursor.refusal), .offset = cursor.refused_at};
  // Another custom is only looked for in short text, and what it proposes is read before it is proposed.
  const auto readable = [](std::string_view repaired) {
    Cursor again{.text = repaired};
    return read_whole(again).has_value();
  };
  if (auto advice = advice_for_another_custom(text, readable)) result.refusal = std::move(*advice);
  return result;
}

} // namespace coeval
