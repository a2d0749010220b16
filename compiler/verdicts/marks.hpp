// verdicts/marks.hpp: when can something that carries these marks have been made, and which runs can it not be of?
//
// Every date is a bound and not the day of making: a mark says that its carrier is no older than itself or than what it
// reads and, only where its entry says that the end binds, no later than its last day. What it is on is taken for
// granted; how sure the answer is depends on what is known of the marks alone.
#pragma once

#include <array>
#include <span>

#include "verdicts/order.hpp"

namespace coeval {

// Marks that are asked about together.
inline constexpr std::size_t most_marks = 32;

// What one mark says by itself, on statements of the basis asked for or stronger.
struct MarkDating {
  CarriedMark mark;
  ProvenBound earliest;        // the later of its first day and of what it reads
  ProvenBound latest;          // its last day, where that binds
  std::optional<Day> last_use; // its last day at the latest, binding or not
  std::optional<Day>
      read_first;               // for one that is read: the first day of the year, or on which the number was given out
  std::optional<Day> read_last; // the last such day; unknown for the highest numbers
  bool below_first_number = false; // nothing is entered about so low a number, so that nothing follows from it
};

// Two marks that nothing can carry both: one was gone before the other, or what it reads, came up.
struct MarkClash {
  std::size_t early = 0; // places among the marks asked about
  std::size_t late = 0;
  Day gap = 0; // at least so many days
  Basis basis{};
  std::vector<Reason> proof;
};

struct Dating {
  std::vector<MarkDating> marks;                    // as asked
  std::array<DayBounds, all_bases.size()> by_basis; // on evidence of each basis or stronger
  std::optional<std::size_t> earliest;              // which mark sets each end; none: nothing does
  std::optional<std::size_t> latest;
  std::vector<MarkClash> clashes;
};

// At most `most_marks` of them. Each mark whose end binds costs a search of the graph for every basis, and each clash
// one more for its proof.
[[nodiscard]] Dating date_by_marks(const LinkedKb& kb, const Chronology& chronology, std::span<const CarriedMark> marks,
                                   Basis weakest);

// A run that nothing with the mark can be of.
struct MarkRuling {
  CarriedMark mark;
  bool too_early = true; // the run had ended before the mark, or what it reads, came up; else it began after its end
  Day gap = 0;           // at least so many days
  Basis basis{};
  std::vector<Reason> proof; // empty where it was not asked for
};
// "made at least 8 years before mark/ce-toy came up"
[[nodiscard]] std::string ruling_words(const LinkedKb& kb, const MarkRuling& ruling);

// Which runs do marks rule out? The searches of the graph are done once, and each run is then answered in a few steps,
// so that a hundred thousand can be asked about.
class RunsByMarks {
public:
  RunsByMarks(const LinkedKb& kb, const Chronology& chronology, std::span<const CarriedMark> marks, Basis weakest);
  // The strongest basis that rules it out, and there the first mark that does.
  [[nodiscard]] std::optional<MarkRuling> rule_out(RunIndex run, bool with_proof) const;

private:
  struct Rows {                                        // by basis
    std::array<BoundRow, all_bases.size()> from_start; // point - start of the mark <= …
    std::array<BoundRow, all_bases.size()> to_end; // end of the mark - point <= …; empty where the end does not bind
  };
  const LinkedKb& kb_;
  const Chronology& chronology_;
  std::vector<CarriedMark> marks_;
  Basis weakest_;
  std::vector<Rows> rows_; // by mark
};

// What a mark says about the age of what carries it, on statements of a basis or stronger: "Nothing that carries it was
// made before 1988-05-03. Its end does not bind."
[[nodiscard]] std::string dating_sentences(const LinkedKb& kb, const Chronology& chronology, MarkIndex mark,
                                           Basis weakest);

// "mark/copyright=1977", "mark/ce-toy"
[[nodiscard]] std::string carried_words(const LinkedKb& kb, const CarriedMark& mark);

} // namespace coeval
