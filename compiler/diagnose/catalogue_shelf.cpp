// What can be wrong with a collector's shelf.
#include <array>

#include "diagnose/catalogue_rows.hpp"

namespace coeval {
namespace {

using enum Severity;

constexpr std::array shelves{
    CatalogueRow{
        Code::broken_amount, "broken-amount", error, "an amount, currency, percentage or rate that is none",
        "totals are exact to the smallest coin, so nothing about money is guessed",
        R"([[purchase]]
id    = "fair-in-may"
price = "41,50 GBP"    # 41.50 GBP)",
        "write amounts as \"41.50 GBP\" with a currency of ISO 4217, percentages as \"2.5 %\", rates as \"1.1745\""},
    CatalogueRow{Code::broken_condition, "broken-condition", error, "a condition that is on neither scale",
                 "conditions are compared, and words of different people cannot be",
                 R"([[piece]]
id        = "maren-1"
condition = "near mint")",
                 "write C1 to C10 in steps of a half, or 0 to 100; put words into `notes`"},
    CatalogueRow{
        Code::broken_csv, "broken-csv", error, "a table that cannot be read as a shelf",
        "a row that is read wrongly could lose a part or its price",
        R"($ head -2 shelf.csv
table;id;in
part;lantern-1;maren-1;hand)",
        "mend the row; the head row names the columns, one table a row, cells with `;`, `,` or quotes in quotes"},
    CatalogueRow{
        Code::unnamed_thing, "unnamed-thing", error, "something owned or wanted of which nobody says what it is",
        "nothing can be said of it: not whether it is right, not what it misses",
        R"([[piece]]
id = "maren-1"   # issue = … or figure = …)",
        "name the issue or figure of a piece; of a part its run, mould, accessory or reproduction, or say what "
        "was seen and its slot"},
    CatalogueRow{Code::named_twice, "named-twice", error, "something that is said to be two things",
                 "one of the two is a slip, and every verdict about it would be wrong",
                 R"([[part]]
id    = "lantern-1"
run   = "signal-lantern/ring-top/brass"
mould = "signal-lantern/plain-top")",
                 "keep what is right, and take out the other"},
    CatalogueRow{Code::slot_worn_twice, "slot-worn-twice", error, "two parts in one slot of a piece",
                 "only one can be worn there, and a swap would count a part that is not free",
                 R"([[part]]
id = "lantern-1"
in = "maren-1"

[[part]]
id = "lantern-2"
in = "maren-1"   # the hand is taken)",
                 "take `in` out of the one that lies loose, or say in which `slot` it is worn"},
    CatalogueRow{Code::broken_look, "broken-look", error, "an observation or mark that cannot be read",
                 "what was seen decides what a part can be",
                 R"([[part]]
id   = "lantern-1"
seen = ["tp=ring"])",
                 "write feature=value as for `coeval identify --seen`; `coeval list feature` shows the features"},
    CatalogueRow{Code::days_backwards, "days-backwards", warning, "a parcel whose days run backwards",
                 "a wrong day puts money into the wrong month and takes the wrong rate",
                 R"([[purchase]]
id      = "fair-in-may"
paid    = "2026-05-09"
arrived = "2026-05-02")",
                 "mend the day that is wrong: offered, bid, won, paid, sent and arrived follow each other"},
    CatalogueRow{
        Code::unusable_fees, "unusable-fees", error, "fees that cannot be charged as written",
        "a highest bid from them would be wrong by more than a penny",
        R"([[fees]]
id       = "saleroom"
currency = "GBP"
shipping = "9.00 EUR"   # not in GBP)",
        "write all amounts in the currency of the fees, tiers from the lowest up, and only the last without `up-to`"},
    CatalogueRow{Code::missing_rate, "missing-rate", error, "an amount for which no exchange rate is given",
                 "a total without it would be wrong, and a guessed rate would look exact",
                 R"([[purchase]]
id    = "from-abroad"
paid  = "2026-03-14"
price = "30.00 USD"   # and no [[rate]] of USD up to that day)",
                 "add a [[rate]] with one, is, of, on and source; rates of a day count until the next one"},
    CatalogueRow{Code::shelf_too_large, "shelf-too-large", error, "a shelf on which too much is to be swapped",
                 "the best swap is exact, and its numbers are only sure to fit up to a stated size",
                 R"($ grep -c '^\[\[part\]\]' shelf.toml
140000)",
                 "keep the shelf in several files, each with the pieces among which parts are swapped"},
    CatalogueRow{Code::fixed_table, "fixed-table", error, "a table that cannot be changed in its place",
                 "changed in any other way it would lose its comments or its order, so nothing of the file is changed",
                 R"(part = [
  { id = "lantern-1", in = "maren-1" },
])",
                 "write it as a head in brackets and one key a line below, or make the change by hand"},
};

} // namespace

std::span<const CatalogueRow> rows_of_shelves() { return shelves; }

} // namespace coeval
