#include "report/schema_parts.hpp"

namespace coeval {

using namespace schema_parts;

namespace {

constexpr const char* money_pattern = "^-?\\d+(\\.\\d+)? [A-Z]{3}$";
Json money(std::string_view doc) { return {{"type", "string"}, {"pattern", money_pattern}, {"description", doc}}; }
Json money_or_null(std::string_view doc) {
  return {{"type", {"string", "null"}}, {"pattern", money_pattern}, {"description", doc}};
}
Json currency(std::string_view doc) { return {{"type", "string"}, {"pattern", "^[A-Z]{3}$"}, {"description", doc}}; }
Json date(std::string_view doc) {
  return {{"type", "string"}, {"pattern", "^[+-]?\\d{4,}-\\d\\d-\\d\\d$"}, {"description", doc}};
}
const Json roundings{"half-up", "half-even", "up", "down"};
const Json costs{"hammer", "premium", "fee", "shipping", "insurance", "duty", "tax"};

Json sum(Json members) {
  members["purchases"] = whole("how many belong to it");
  members["paid"] = list(money("exact"), "one for each currency, by code");
  members["at-home"] = money_or_null("in the home currency; null: there is none, or a rate is missing");
  return object(std::move(members));
}

Json ledger_line() {
  return object({{"purchase", text("id")},
                 {"on", day("null: the purchase has no day")},
                 {"outlay", {{"enum", {"price", "fees", "shipping", "insurance", "duty", "tax"}}}},
                 {"paid", money("as written")},
                 {"at-home", money_or_null("rounded for itself; null: there is no home currency, or no rate")},
                 {"rate-on", day("of the stated rate; null: none was needed, or it is a fixed one")},
                 {"fixed-rate", flag("at a rate fixed by Council Regulation (EC) No 2866/98")},
                 {"without-rate", flag("no rate is stated of its day or before it")}});
}

Json used_rate() {
  return object({{"one", currency("of which it says the price of one unit")},
                 {"is", text("how many")},
                 {"of", currency("of that price")},
                 {"on", date("its day")},
                 {"source", text("where it was read")},
                 {"rounding", {{"enum", roundings}}},
                 {"amounts", whole("that were converted at it")},
                 {"most-days-later", whole("how old it was at most when it was used")}});
}

Json bill_members() {
  const Json part = object({{"percent", text("a decimal number")}, {"on", money("of which the percent is taken")}});
  const Json line = object({{"cost", {{"enum", costs}}},
                            {"name", text_or_null("of a fee, duty or tax")},
                            {"amount", money("exact")},
                            {"charged-on", list({{"enum", costs}}, "what the parts are charged on")},
                            {"parts", list(part, "the amount is their rounded sum, unless it is held")},
                            {"held",
                             {{"enum", {"no", "at-least", "at-most", "below-threshold"}},
                              {"description", "whether a minimum, a maximum or a threshold made the amount"}}},
                            {"rounding", {{"enum", {"half-up", "half-even", "up", "down", nullptr}}}},
                            {"rounding-to", money_or_null("a multiple of this")}});
  return {{"bid", money("the hammer price")},
          {"lines", list(line, "in the order in which they are charged")},
          {"total", money("the sum of the lines")}};
}
Json bill_or_null(std::string_view doc) {
  return {{"anyOf", {object(bill_members()), {{"type", "null"}}}}, {"description", doc}};
}

Json spread(Json members) {
  members["sales"] = whole("how many");
  members["lowest"] = money("exact");
  members["lower-quartile"] = money("definition 7 of Hyndman and Fan, rounded half to even");
  members["median"] = money("the same");
  members["upper-quartile"] = money("the same");
  members["highest"] = money("exact");
  return object(std::move(members));
}

Json sale_members() {
  return {{"on", date("its day")},
          {"price", money("as written")},
          {"condition", text_or_null("C1 to C10, or 0 to 100")},
          {"complete", {{"enum", {"sealed", "complete", "incomplete", "bare", nullptr}}}},
          {"place", text_or_null("where it was sold")},
          {"source", text_or_null("where the price was read")}};
}

} // namespace

Json ledger_members() {
  return {{"name", text_or_null("of the shelf")},
          {"home", {{"type", {"string", "null"}}, {"description", "the currency of the totals"}}},
          {"total", sum(Json::object())},
          {"by-piece", list(sum({{"kind", {{"enum", {"piece", "part", "purchase"}}}}, {"id", text("on the shelf")}}),
                            "pieces with what they wear, loose parts, and purchases with which nothing came")},
          {"by-seller", list(sum({{"seller", text_or_null("null: not said")}}), "by name")},
          {"by-year", list(sum({{"year", text_or_null("null: without a day")}}), "in order")},
          {"by-month", list(sum({{"month", text_or_null("null: without a day")}}), "in order")},
          {"by-currency", list(object({{"amounts", whole("how many")},
                                       {"paid", money("their sum")},
                                       {"at-home", money_or_null("the sum of what they are at home")}}),
                               "by code")},
          {"lines", list(ledger_line(), "every amount, by day")},
          {"rates", list(used_rate(), "the stated rates that were used")},
          {"without-rate", whole("lines that have no rate")},
          {"not-counted", whole("purchases that have not come further than a bid")}};
}

Json ceiling_members() {
  return {{"fees", text("id")},
          {"name", text_or_null("of the fees")},
          {"budget", money("all told")},
          {"increment", money("bids are multiples of it")},
          {"highest", bill_or_null("of the highest bid within the budget; null: there is none")},
          {"left", money_or_null("of the budget")},
          {"next", bill_or_null("of the next higher bid; null: its amounts do not fit")},
          {"caution", text("what whoever relies on it must know")}};
}

Json comparables_members() {
  Json compared = sale_members();
  compared["compared"] = money("the price in the currency of the comparison");
  const auto groups = [](std::string_view doc) { return list(spread({{"of", text_or_null("null: not said")}}), doc); };
  const Json in_currency =
      object({{"currency", currency("of the comparison")},
              {"all", spread(Json::object())},
              {"few", flag("fewer than five sales: quartiles say little")},
              {"by-condition", groups("the best first")},
              {"by-completeness", groups("sealed first")},
              {"by-place", groups("by name")},
              {"by-quarter", list(spread({{"quarter", text("2026-Q1")}}), "of the calendar; those with sales")},
              {"sales", list(object(std::move(compared)), "by day")}});
  return {{"of", text("address")},
          {"currencies", list(in_currency, "the home currency, or without one each currency for itself")},
          {"without-rate", list(object(sale_members()), "left out for want of a rate to the home currency")},
          {"only-figure-or-accessory-known", whole("sales that may be of it or not, and are not compared")},
          {"caution", text("what whoever relies on it must know")}};
}

} // namespace coeval
