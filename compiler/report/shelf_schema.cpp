// What is in the JSON about a shelf.
#include "report/schema_parts.hpp"

namespace coeval {

using namespace schema_parts;

namespace {

Json worn_place() {
  Json place = object({{"piece", text("id on the shelf")}, {"slot", text("its name")}});
  return {{"anyOf", {std::move(place), {{"type", "null"}}}}, {"description", "null: lying loose"}};
}

Json swap_counts() {
  return object({{"right", whole("slots with a right part")},
                 {"weight", whole("the priorities of their pieces, added up")},
                 {"complete", whole("pieces with a right part in each of their slots")}});
}

} // namespace

Json swap_members() {
  Json move = object({{"part", text("id on the shelf")},
                      {"could-be", list(text("address"), "every run and reproduction that it can be")},
                      {"from", worn_place()},
                      {"to", worn_place()},
                      {"right", flag("whether the slot that it goes to is then rightly filled")},
                      {"verdict", verdict_or_null()},
                      {"basis", basis_or_null()},
                      {"completes", flag("every slot of that piece has a right part from then on")},
                      {"words", text("the move as an order")}});
  return {{"slots", whole("of pieces of a known issue")},
          {"pieces", whole("that have slots")},
          {"before", swap_counts()},
          {"after", swap_counts()},
          {"moves", list(std::move(move), "in an order in which nothing is needed before it is free")},
          {"written", flag("the file of the shelf now says so")},
          {"best", flag("proven: no other moves lead to a better state")},
          {"most-complete", whole("proven: no plan with as many right slots has more complete pieces")}};
}

Json parcel_members() {
  return {{"purchase", text("its id")},
          {"file", text("of the shelf, as given")},
          {"changes", list(object({{"table", text("purchase, piece or part")},
                                   {"id", text("its id")},
                                   {"key", text("what was changed")},
                                   {"before", text_or_null("as \"after\"; null: the key was not there")},
                                   {"after", text("as the cell of a table: one item of a list a line")}}),
                           "what was changed in the file")}};
}

Json convert_members() {
  return {{"from", text("as given")},
          {"to", text("as given")},
          {"tables", whole("of the shelf")},
          {"drops-comments", flag("the old file has comments, the new one has none")}};
}

} // namespace coeval
