#include "report/json_parts.hpp"
#include "report/marks.hpp"

namespace coeval {
namespace {

Json bound_json(const ReportInput& input, const ProvenBound& bound) {
  return {{"day", day_or_null(bound.day)},
          {"basis", basis_or_null(bound.basis)},
          {"proof", reasons_json(input, bound.proof)}};
}

Json mark_json(const LinkedKb& kb, MarkIndex index) {
  const Mark& mark = kb.marks[at(index)];
  const Entry& entry = kb.entries[mark.entry];
  const auto* country = entry.get<Words>("country");
  return {{"mark", kb.address(mark.entry)},
          {"name", entry.text("name")},
          {"kind", text_or_null(entry.text("kind"))},
          {"text", text_or_null(entry.text("text"))},
          {"where", text_or_null(entry.text("where"))},
          {"country", country == nullptr ? Json(nullptr) : Json(country->front().text)},
          {"jurisdiction", text_or_null(entry.text("jurisdiction"))},
          {"caution", text_or_null(entry.text("caution"))}};
}

} // namespace

std::string marks_json(const ReportInput& input, const Chronology& dates, const std::vector<MarkIndex>& marks) {
  const LinkedKb& kb = input.kb;
  Json json = document("marks", input);
  json["marks"] = Json::array();
  for (const MarkIndex index : marks) {
    const Mark& mark = kb.marks[at(index)];
    Json entry = mark_json(kb, index);
    entry["reading"] = mark.reading ? Json(name(*mark.reading)) : Json(nullptr);
    entry["first-day"] = day_or_null(dates.bounds(start_of(mark.span), input.weakest).earliest);
    entry["last-day"] = day_or_null(dates.bounds(end_of(mark.span), input.weakest).latest);
    entry["end-binds"] = mark.end_binds;
    entry["numbers"] = Json::array();
    for (const NumberRow& row : mark.numbers) entry["numbers"].push_back({{"from", row.from}, {"on", row.on->text}});
    entry["dates"] = dating_sentences(kb, dates, index, input.weakest);
    json["marks"].push_back(std::move(entry));
  }
  json["cautions"] = Json::array({bounds_caution()});
  return written(json);
}

std::string dated_json(const ReportInput& input, const Dating& dating) {
  const LinkedKb& kb = input.kb;
  Json json = document("dated", input);
  json["contradictory"] = !dating.clashes.empty();
  const auto side = [&](const std::optional<std::size_t>& mark, bool early) -> Json {
    if (!mark) return nullptr;
    const MarkDating& own = dating.marks[*mark];
    return {{"day", iso(early ? *own.earliest.day : *own.latest.day)}, {"mark", *mark}};
  };
  json["earliest"] = side(dating.earliest, true);
  json["latest"] = side(dating.latest, false);
  json["bounds"] = Json::array();
  for (const Basis basis : all_bases) {
    if (basis > input.weakest) break;
    const DayBounds& bounds = dating.by_basis[static_cast<std::size_t>(basis)];
    json["bounds"].push_back(
        {{"basis", name(basis)}, {"earliest", day_or_null(bounds.earliest)}, {"latest", day_or_null(bounds.latest)}});
  }
  json["marks"] = Json::array();
  for (const MarkDating& own : dating.marks) {
    Json entry = mark_json(kb, own.mark.mark);
    entry["reading"] = own.mark.reading ? Json(*own.mark.reading) : Json(nullptr);
    entry["earliest"] = bound_json(input, own.earliest);
    entry["latest"] = bound_json(input, own.latest);
    entry["last-day"] = day_or_null(own.last_use);
    entry["read-first"] = day_or_null(own.read_first);
    entry["read-last"] = day_or_null(own.read_last);
    entry["below-first-number"] = own.below_first_number;
    json["marks"].push_back(std::move(entry));
  }
  json["contradictions"] = Json::array();
  for (const MarkClash& clash : dating.clashes)
    json["contradictions"].push_back({{"early", clash.early},
                                      {"late", clash.late},
                                      {"gap-days", clash.gap},
                                      {"basis", name(clash.basis)},
                                      {"proof", reasons_json(input, clash.proof)}});
  json["cautions"] = Json::array({bounds_caution()});
  return written(json);
}

} // namespace coeval
