// What can be wrong with what a mark reads?
#include <array>

#include "diagnose/catalogue_rows.hpp"

namespace coeval {
namespace {

using enum Severity;

constexpr std::array marks{
    CatalogueRow{
        Code::missing_reading, "missing-reading", error, "a mark that is read, carried without what it reads",
        "a notice or a number dates its carrier by what it says; that it is there says next to nothing",
        R"([[mould]]
id    = "ring-top"
marks = ["copyright"]     # copyright=1977)",
        "write what it reads after the mark's id and an equals sign; where it cannot be read, leave the mark out "
        "and say so in the notes"},
    CatalogueRow{
        Code::unwanted_reading, "unwanted-reading", error, "a reading given to a mark that is not read",
        "what the mark reads is always the same, so another mark was meant, or the curator believes that this "
        "one dates its carrier more closely than it does",
        R"([[mould]]
id    = "ring-top"
marks = ["safety-cross=1979"]   # safety-cross)",
        "write the mark's id alone; where the mark does show a year or a number that dates its carrier, give the "
        "[[mark]] a `reading`"},
    CatalogueRow{Code::broken_reading, "broken-reading", error, "a reading that is no year, or no number",
                 "it would date its carrier by something that does not stand on it",
                 R"([[mould]]
id    = "ring-top"
marks = ["copyright=77"]  # copyright=1977)",
                 "give a year with its four digits (`1977` for MCMLXXVII too), or a number with only its digits"},
    CatalogueRow{
        Code::broken_numbers, "broken-numbers", error, "a mark's numbers that do not date anything",
        "a number falls in the row that starts at it or below, so rows that contradict each other date every "
        "part that carries such a number wrongly",
        R"([[mark.number]]
from = 3015103
on   = "1962"

[[mark.number]]
from = 3070801
on   = "1961"             # 1963: later numbers are higher)",
        "give each first number once, with dates that do not fall where the numbers rise; rows belong to a mark "
        "with reading = \"number\", and such a mark needs at least one"},
};

} // namespace

std::span<const CatalogueRow> rows_of_marks() { return marks; }

} // namespace coeval
