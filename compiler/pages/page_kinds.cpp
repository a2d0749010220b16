#include "pages/page.hpp"

namespace coeval {
namespace {

using enum PageKind;

const SlotSpec about{"about", "what it is: facts, notes, how it is backed"};
const SlotSpec plate_slot{"plate", "pictures"};
const SlotSpec when{"when", "how early and how late, a drawing of it, and how it is known"};
const SlotSpec looks{"looks", "what can be seen and measured"};
const SlotSpec more{"more", "everything else that refers to it"};
const SlotSpec list{"list", "the entries"};

} // namespace

const std::vector<PageKindSpec>& page_kinds() {
  static const std::vector<PageKindSpec> kinds{
      {home,
       "home",
       {{"welcome", "what this reference is"},
        {"ways", "ways in: by figure, accessory, question"},
        {"counts", "what it holds"},
        {"news", "what changed last"}}},
      {line, "line", {about, when, list, more}},
      {index_of, "index", {{"intro", "what the list is of"}, plate_slot, when, list, more}},
      {figure,
       "figure",
       {about, plate_slot, when, {"issues", "its issues"}, {"matrix", "issues against parts"}, looks, more}},
      {issue, "issue", {about, plate_slot, when, {"outfit", "each slot's runs by verdict"}, looks, more}},
      {accessory,
       "accessory",
       {about,
        plate_slot,
        {"comparison", "its moulds side by side"},
        {"succession", "which mould followed which"},
        when,
        {"runs", "its production runs"},
        {"homes", "the issues that take it"},
        {"repros", "its reproductions"},
        {"key", "its identification key"},
        more}},
      {run,
       "run",
       {about,
        plate_slot,
        looks,
        when,
        {"homes", "the issues that it could belong with, by verdict"},
        {"repros", "reproductions of it"},
        more}},
      {repro, "repro", {about, plate_slot, {"give-away", "what tells it from the original"}, looks, more}},
      {period, "period", {about, when, {"within", "what falls into it"}, more}},
      {card, "card", {about, plate_slot, when, {"issues", "the issues known on it"}, looks, more}},
      {plant,
       "plant",
       {about,
        when,
        {"routes", "what it supplied and was supplied with"},
        {"made", "what it moulded and packed"},
        more}},
      {route, "route", {about, when, {"carries", "what went along it"}, more}},
      {market, "market", {about, {"issues", "the issues sold there"}, more}},
      {mark, "mark", {about, plate_slot, when, {"carried", "what carries it"}, more}},
      {feature,
       "feature",
       {about, {"look", "how to look"}, {"values", "its values"}, {"stated", "what states it"}, more}},
      {claim, "claim", {about, {"check", "what the evidence says of it"}, more}},
      {source, "source", {about, {"rests", "everything that rests on it"}, more}},
      {matrix, "matrix", {{"intro", "what the matrix shows"}, {"matrix", "issues against runs"}, more}},
      {checklist, "checklist", {{"intro", "what to tick"}, {"checklist", "the boxes"}, more}},
      {key, "key", {{"intro", "how to use the key"}, {"key", "the key"}, more}},
      {disputes, "disputes", {{"intro", "what a disputed statement is"}, list, more}},
      {agenda, "agenda", {{"intro", "what to find out next, and why"}, list, more}},
      {changes, "changes", {{"intro", "where the changes are told"}, list}},
      {PageKind::schema, "schema", {{"intro", "how entries are written"}, list, more}},
      {checker, "checker", {{"intro", "what the checker answers"}, {"checker", "the checker"}, more}},
      {search, "search", {{"intro", "what can be searched for"}, {"search", "the search"}, more}},
      {names, "names", {{"intro", "what is listed"}, list}},
      {verdicts, "verdicts", {{"legend", "the signs and words"}, {"grounds", "how a verdict comes about"}, more}},
      {data, "data", {{"intro", "what the files hold"}, {"files", "the files"}, more}},
      {not_found, "not-found", {{"intro", "where to go instead"}}},
      {PageKind::shelf, "shelf", {{"intro", "the counts of a collector's own shelf"}, list, more}},
  };
  return kinds;
}

} // namespace coeval
