#include "pages/tell.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "chronology/statements.hpp"
#include "links/asset_path.hpp"
#include "pages/paths.hpp"

namespace coeval {
namespace {

std::string words_of(std::string_view id) {
  std::string words{id};
  std::replace(words.begin(), words.end(), '-', ' ');
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
}

// For use inside a sentence or after a comma.
std::string lowered(std::string text) {
  const bool acronym = text.size() > 1 && text[1] >= 'A' && text[1] <= 'Z';
  if (!text.empty() && text.front() >= 'A' && text.front() <= 'Z' && !acronym)
    text.front() = static_cast<char>(text.front() - 'A' + 'a');
  return text;
}

std::string range_words(const std::string& earliest, const std::string& latest) {
  if (earliest.empty() && latest.empty()) return "at an unknown time";
  if (earliest.empty()) return fmt::format("on {} or earlier", latest);
  if (latest.empty()) return fmt::format("on {} or later", earliest);
  return earliest == latest ? "on " + earliest : fmt::format("between {} and {}", earliest, latest);
}

BoundView bound(const Site& site, Point point, Side side) {
  const ProvenBound proven = site.dates().proven_bound(point, side, Basis::conjectured);
  BoundView view;
  if (!proven.day) return view;
  view.day = iso(*proven.day);
  view.basis = proven.basis;
  view.proof = tell_proof(site, proven.proof);
  return view;
}

// "1976-08" of a month that is meant as a whole, else the day.
std::string short_range(const EndRange& range) {
  if (!range.earliest && !range.latest) return "?";
  if (!range.earliest) return "by " + iso(*range.latest);
  if (!range.latest) return iso(*range.earliest) + " or later";
  const std::string from = iso(*range.earliest);
  const std::string to = iso(*range.latest);
  if (from == to) return from;
  if (from.size() == 10 && to.size() == 10) {
    const bool whole_month = from.substr(0, 7) == to.substr(0, 7);
    if (whole_month) return from.substr(0, 7);
    const bool whole_year = from.ends_with("-01-01") && to.ends_with("-12-31");
    if (from.substr(0, 4) == to.substr(0, 4))
      return whole_year ? from.substr(0, 4) : from.substr(0, 7) + "–" + to.substr(0, 7);
    return from.substr(0, 4) + "–" + to.substr(0, 4);
  }
  return from + "–" + to;
}

std::string number_words(double number) { return fmt::format("{:g}", number); }

} // namespace

std::string name_of(const LinkedKb& kb, EntryIndex index) {
  const Entry& entry = kb.entries[index];
  for (const std::string_view key : {"name", "title"})
    if (const std::string_view name = entry.text(key); !name.empty()) return std::string{name};
  if (entry.kind == Kind::route && !kb.address(index).empty()) {
    const Route& route = kb.routes[kb.position[at(index)]];
    if (at(route.from) < kb.plants.size() && at(route.to) < kb.plants.size())
      return fmt::format("{} to {}", kb.plants[at(route.from)].name, kb.plants[at(route.to)].name);
  }
  return words_of(entry.id);
}

std::string full_name_of(const LinkedKb& kb, EntryIndex index) {
  const Entry& entry = kb.entries[index];
  const bool inner =
      entry.kind == Kind::issue || entry.kind == Kind::mould || entry.kind == Kind::run || entry.kind == Kind::repro;
  if (!inner || entry.parent == no_entry) return name_of(kb, index);
  return full_name_of(kb, entry.parent) + ", " + lowered(name_of(kb, index));
}

std::string run_name_of(const LinkedKb& kb, RunIndex run) {
  const Entry& entry = kb.entries[kb.runs[at(run)].entry];
  return name_of(kb, entry.parent) + ", " + lowered(name_of(kb, kb.runs[at(run)].entry));
}

std::string singular_of(Kind kind) {
  switch (kind) {
  case Kind::run:
    return "Production run";
  case Kind::repro:
    return "Reproduction";
  case Kind::line:
    return "Toy line";
  default:
    return words_of(spec_of(kind).name);
  }
}

std::string plural_of(Kind kind) {
  const std::string one = singular_of(kind);
  return one.ends_with("y") ? one.substr(0, one.size() - 1) + "ies" : one + "s";
}

Piece plain(std::string text) { return {std::move(text), {}, false}; }
Piece link_to(const LinkedKb& kb, EntryIndex entry) { return {name_of(kb, entry), path_of(kb, entry), false}; }
Piece full_link_to(const LinkedKb& kb, EntryIndex entry) {
  return {full_name_of(kb, entry), path_of(kb, entry), false};
}
Piece address_piece(const LinkedKb& kb, EntryIndex entry) {
  return {std::string{kb.address(entry)}, path_of(kb, entry), true};
}

Text citation(const LinkedKb& kb, const std::string& written) {
  const std::size_t space = std::min(written.find(' '), written.size());
  const auto found = kb.addresses.find("source/" + written.substr(0, space));
  if (!found) return {plain(written)};
  Text text{link_to(kb, *found)};
  if (space < written.size()) text.push_back(plain("," + written.substr(space)));
  return text;
}

Piece place(const Site& site, Span span) {
  if (!span.known()) return {};
  const SourceFile& file = site.sources()[span.file];
  return {fmt::format("{}:{}", file.path(), file.position(span.begin).line), path_of_file(file.path()), true};
}

Proof tell_proof(const Site& site, const std::vector<Reason>& reasons) {
  Proof proof;
  std::set<std::pair<std::string_view, Span>> told; // a statement that serves twice in a proof is told once
  for (const Reason& reason : reasons) {
    if (!told.emplace(reason.statement, reason.place).second) continue;
    Step step;
    step.statement = reason.statement;
    if (!reason.definition) step.basis = reason.basis;
    for (const std::string& source : reason.sources) step.sources.push_back(citation(site.kb(), source));
    step.place = place(site, reason.place);
    proof.push_back(std::move(step));
  }
  return proof;
}

List proof_list(const Site& site, std::string title, const std::vector<Reason>& reasons) {
  List list{{{std::move(title), {}, {}}}};
  const Proof proof = tell_proof(site, reasons);
  for (std::size_t i = 0; i < proof.size(); ++i) {
    const Step& step = proof[i];
    Text note;
    const auto add = [&note](const Text& more) {
      if (!note.empty()) note.push_back(plain("; "));
      append(note, more);
    };
    if (step.basis) add({plain(std::string{name(*step.basis)})});
    for (const Text& source : step.sources) add(source);
    if (!step.place.text.empty()) add({step.place});
    if (reasons[i].weakest) add({plain("to be doubted first")});
    list.groups.front().items.push_back({{plain(step.statement)}, std::move(note)});
  }
  return list;
}

EvidenceView tell_evidence(const Site& site, const Evidence& evidence) {
  EvidenceView view;
  view.basis = evidence.basis;
  for (const Word& source : evidence.citations()) view.sources.push_back(citation(site.kb(), source.text));
  view.place = place(site, evidence.place);
  view.disputed = evidence.disputed;
  return view;
}

PointView tell_point(const Site& site, SpanPoint point) {
  PointView view;
  view.earliest = bound(site, point_of(point), Side::earliest);
  view.latest = bound(site, point_of(point), Side::latest);
  view.words = range_words(view.earliest.day, view.latest.day);
  return view;
}

SpanView tell_span(const Site& site, TimeSpanIndex index) {
  SpanView view;
  switch (site.kb().spans[at(index)].kind) {
  case Kind::issue:
    view.label = "packed";
    break;
  case Kind::run:
    view.label = "made";
    break;
  case Kind::mould:
    view.label = "in the press";
    break;
  case Kind::route:
    view.label = "active";
    break;
  case Kind::period:
    view.label = "lasted";
    break;
  default:
    view.label = "in use";
    break;
  }
  view.start = tell_point(site, {index, SpanEnd::start});
  view.end = tell_point(site, {index, SpanEnd::end});
  return view;
}

std::pair<EndRange, EndRange> ends_of(const Site& site, TimeSpanIndex span) {
  const DayBounds start = site.dates().bounds(start_of(span), Basis::conjectured);
  const DayBounds end = site.dates().bounds(end_of(span), Basis::conjectured);
  return {{start.earliest, start.latest}, {end.earliest, end.latest}};
}

std::string short_span(const Site& site, TimeSpanIndex span) {
  const auto [start, end] = ends_of(site, span);
  return short_range(start) + " to " + short_range(end);
}

VerdictView tell_verdict(const Site& site, const Judgement& judgement, bool of_run, bool with_proof) {
  const LinkedKb& kb = site.kb();
  const Run& run = kb.runs[at(judgement.run)];
  const Issue& issue = kb.issues[at(judgement.issue)];
  VerdictView view;
  view.verdict = judgement.verdict;
  view.basis = judgement.basis;
  view.gap = gap_words(judgement);
  const std::string anchor = verdict_anchor(kb, judgement.run);
  if (of_run) {
    view.subject = {full_link_to(kb, issue.entry)};
  } else {
    view.subject = {{run_name_of(kb, judgement.run), path_of(kb, run.entry), false}};
    view.lab = lab_of(site, run.entry);
    view.anchor = anchor;
  }
  if (!with_proof) {
    view.to = path_of(kb, issue.entry) + "#" + anchor;
    return view;
  }
  for (const Ground ground : {Ground::place, Ground::time, Ground::route, Ground::record}) {
    const GroundAnswer& answer = judgement.ground(ground);
    view.grounds.push_back({ground, answer.answer, answer.basis, answer.words, tell_proof(site, answer.proof)});
  }
  view.would_settle = judgement.would_settle;
  return view;
}

Paragraphs paragraphs(std::string_view text) {
  Paragraphs result;
  std::string paragraph;
  const auto finish = [&] {
    if (!paragraph.empty()) result.texts.push_back({plain(std::move(paragraph))});
    paragraph.clear();
  };
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string_view line = text.substr(begin, end - begin);
    if (line.find_first_not_of(" \t\r") == std::string_view::npos)
      finish();
    else
      paragraph += (paragraph.empty() ? "" : " ") + std::string{line};
    begin = end + 1;
  }
  finish();
  return result;
}

std::vector<Picture> pictures_of(const Site& site, EntryIndex of) {
  std::vector<Picture> pictures;
  for (const EntryIndex index : site.backlinks().children[at(of)]) {
    const Entry& entry = site.kb().entries[index];
    const Field* file = entry.kind == Kind::picture ? entry.find("file") : nullptr;
    if (file == nullptr) continue;
    const std::string path = asset_path(site.sources(), *file);
    if (site.sources().assets.contains(path))
      pictures.push_back({path, std::string{entry.text("alt")}, std::string{entry.text("credit")}, {}});
  }
  return pictures;
}

std::optional<std::array<double, 3>> lab_of(const Site& site, EntryIndex of) {
  for (const EntryIndex index : site.backlinks().children[at(of)]) {
    const Entry& entry = site.kb().entries[index];
    if (entry.kind != Kind::colour) continue;
    const auto* lab = entry.get<Numbers>("lab");
    if (lab != nullptr && lab->size() == 3) return std::array{(*lab)[0], (*lab)[1], (*lab)[2]};
  }
  return {};
}

std::string value_words(const LinkedKb& kb, const FeatureValue& value) {
  const auto feature = kb.find_feature(value.feature);
  const std::string unit = feature ? kb.features[at(*feature)].unit : std::string{};
  const std::string end = unit.empty() ? "" : " " + unit;
  std::string words;
  for (const FeatureAtom& atom : value.alternatives) {
    if (!words.empty()) words += " or ";
    if (const auto* flag = std::get_if<bool>(&atom))
      words += *flag ? "yes" : "no";
    else if (const auto* number = std::get_if<double>(&atom))
      words += number_words(*number) + end;
    else
      words += std::get<KeptText>(atom);
  }
  if (value.lab.size() == 3)
    words = fmt::format("L* {} a* {} b* {}", number_words(value.lab[0]), number_words(value.lab[1]),
                        number_words(value.lab[2]));
  std::optional<double> tolerance = value.tolerance;
  const bool measured = feature && (kb.features[at(*feature)].kind == FeatureKind::measure || !value.lab.empty());
  if (!tolerance && measured) tolerance = kb.features[at(*feature)].tolerance;
  if (tolerance)
    words += value.lab.empty() ? fmt::format(" ± {}", number_words(*tolerance))
                               : fmt::format(" (ΔE00 up to {})", number_words(*tolerance));
  return words;
}

namespace {

// "Ring top left the press": the name, linked, and what happened to it.
Text happening(const LinkedKb& kb, SpanPoint point) {
  const TimeSpan& span = kb.spans[at(point.span)];
  return {full_link_to(kb, span.entry), plain(happened(kb, point).substr(span.address.size()))};
}

std::string gap_of(const Timing& timing) {
  std::string words;
  if (timing.at_least) words += "at least " + in_words(*timing.at_least) + " ";
  if (timing.at_most) words += (timing.at_least ? "and at most " : "at most ") + in_words(*timing.at_most) + " ";
  return words;
}

Text told_timing(const LinkedKb& kb, const Timing& timing) {
  if (timing.order == Order::relation) {
    const TimeSpan& subject = kb.spans[at(timing.of)];
    const TimeSpan& other = kb.spans[at(timing.span)];
    std::string words = in_words(kb, timing);
    words = words.substr(subject.address.size(), words.size() - subject.address.size() - other.address.size());
    return {full_link_to(kb, subject.entry), plain(std::move(words)), full_link_to(kb, other.entry)};
  }
  Text text = happening(kb, {timing.of, timing.end});
  if (timing.order == Order::on) {
    if (timing.on != nullptr) text.push_back(plain(" on some day of " + timing.on->text));
    return text;
  }
  text.push_back(plain(timing.order == Order::same_day
                           ? " on the day that "
                           : fmt::format(" {}{} ", gap_of(timing), timing.order == Order::after ? "after" : "before")));
  return append(text, happening(kb, timing.other));
}

Text told_takes(const LinkedKb& kb, EntryIndex index) {
  const Entry& entry = kb.entries[index];
  Text text{full_link_to(kb, entry.parent), plain(" takes ")};
  for (const Takes& takes : kb.issues[kb.position[at(entry.parent)]].takes)
    if (takes.evidence.place == entry.place) {
      text.push_back(link_to(kb, kb.accessories[at(takes.accessory)].entry));
      text.push_back(plain(" in the slot " + takes.slot));
      return text;
    }
  text.push_back(plain("an accessory"));
  return text;
}

} // namespace

Text statement_of(const Site& site, EntryIndex index) {
  const LinkedKb& kb = site.kb();
  const Entry& entry = kb.entries[index];
  const bool placed = entry.parent != no_entry && !kb.address(entry.parent).empty();
  switch (entry.kind) {
  case Kind::pairing: {
    const auto found = site.backlinks().pairing.find(index);
    if (found == site.backlinks().pairing.end()) break;
    const Pairing& pairing = *found->second;
    Text text{full_link_to(kb, kb.runs[at(pairing.run)].entry),
              plain(pairing.refuted ? ", found not to belong with " : ", found with "),
              full_link_to(kb, kb.issues[at(pairing.issue)].entry)};
    if (pairing.card) {
      text.push_back(plain(" on "));
      text.push_back(link_to(kb, kb.cards[at(*pairing.card)].entry));
    }
    return text;
  }
  case Kind::timing:
  case Kind::claimed_timing:
    if (const auto found = site.backlinks().timing.find(index); found != site.backlinks().timing.end())
      return told_timing(kb, *found->second);
    break;
  case Kind::claimed_pairing:
    if (placed)
      for (const ClaimedPairing& pairing : kb.claims[kb.position[at(entry.parent)]].pairings)
        if (pairing.entry == index)
          return {full_link_to(kb, kb.runs[at(pairing.run)].entry), plain(" with "),
                  full_link_to(kb, kb.issues[at(pairing.issue)].entry)};
    break;
  case Kind::takes:
    if (placed) return told_takes(kb, index);
    break;
  case Kind::exclusive:
    if (placed)
      for (const Exclusive& exclusive : kb.runs[kb.position[at(entry.parent)]].exclusives)
        if (exclusive.entry == index) {
          std::vector<Piece> to;
          for (const IssueIndex issue : exclusive.to) to.push_back(full_link_to(kb, kb.issues[at(issue)].entry));
          Text text{full_link_to(kb, entry.parent), plain(", reserved for ")};
          return append(text, enumerated(to));
        }
    break;
  case Kind::leftover:
    if (const auto* most = entry.get<Duration>("at-most"); most != nullptr && placed)
      return {full_link_to(kb, entry.parent), plain(": stock was kept for " + in_words(*most) + " at most")};
    break;
  default:
    if (!kb.address(index).empty()) return {full_link_to(kb, index)};
    break;
  }
  if (entry.parent == no_entry) return {plain(singular_of(entry.kind))};
  return {full_link_to(kb, entry.parent), plain(fmt::format(" ({})", spec_of(entry.kind).name))};
}

std::string letter_of(std::string_view name) {
  static constexpr std::string_view latin1 = "AAAAAAACEEEEIIIIDNOOOOO*OUUUUYTS"  // U+00C0 … U+00DF
                                             "AAAAAAACEEEEIIIIDNOOOOO*OUUUUYTY"; // U+00E0 … U+00FF
  if (name.empty()) return "#";
  const auto first = static_cast<unsigned char>(name.front());
  if (first >= 'a' && first <= 'z') return {static_cast<char>(first - 'a' + 'A')};
  if (first >= 'A' && first <= 'Z') return {name.front()};
  if (first == 0xC3 && name.size() > 1) {
    const char letter = latin1[static_cast<unsigned char>(name[1]) & 0x3FU];
    if (letter != '*') return {letter};
  }
  return "#";
}

std::string sorting_key(std::string_view name) {
  std::string key;
  for (std::size_t i = 0; i < name.size(); ++i) {
    const char c = name[i];
    if (c >= 'A' && c <= 'Z') {
      key += static_cast<char>(c - 'A' + 'a');
    } else if (static_cast<unsigned char>(c) == 0xC3 && i + 1 < name.size()) {
      const std::string letter = letter_of(name.substr(i, 2));
      key += letter == "#" ? '~' : static_cast<char>(letter.front() - 'A' + 'a');
      ++i;
    } else {
      key += c;
    }
  }
  return key;
}

std::optional<EntryIndex> named_by(const LinkedKb& kb, EntryIndex index, std::string_view key, Kind kind) {
  const auto* words = kb.entries[index].get<Words>(key);
  if (words == nullptr || words->empty()) return {};
  const std::string& written = words->front().text;
  for (const std::string& address : {written, std::string{spec_of(kind).address_prefix()} + "/" + written})
    if (const auto found = kb.addresses.find(address); found && kb.entries[*found].kind == kind) return *found;
  return {};
}

std::string country_words(std::string_view code) {
  std::string words{code};
  for (char& c : words)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return words;
}

std::string country_of(const Entry& entry) {
  const auto* country = entry.get<Words>("country");
  return country == nullptr || country->empty() ? std::string{} : country_words(country->front().text);
}

std::string counted(std::size_t count, Kind kind) {
  return fmt::format("{} {}", count == 0 ? "no" : std::to_string(count),
                     lowered(count == 1 ? singular_of(kind) : plural_of(kind)));
}

Text enumerated(const std::vector<Piece>& pieces) {
  Text text;
  for (const Piece& piece : pieces) {
    if (!text.empty()) text.push_back(plain(", "));
    text.push_back(piece);
  }
  return text;
}

Text& append(Text& text, const Text& more) {
  text.insert(text.end(), more.begin(), more.end());
  return text;
}

void add_section(Page& page, std::string_view slot, std::string_view title, std::vector<Block> blocks,
                 std::string anchor) {
  if (blocks.empty()) return;
  Section section{std::string{slot}, std::move(anchor), {}, std::move(blocks)};
  if (!title.empty()) section.title.push_back(plain(std::string{title}));
  page.sections.push_back(std::move(section));
}

void add_fact(Facts& facts, std::string label, Text value) {
  const bool says = std::ranges::any_of(value, [](const Piece& piece) { return !piece.text.empty(); });
  if (says) facts.facts.push_back({std::move(label), std::move(value), {}});
}

void add_text(const Site& site, EntryIndex entry, std::string_view key, std::vector<Block>& blocks) {
  Paragraphs text = paragraphs(site.kb().entries[entry].text(key));
  if (!text.texts.empty()) blocks.emplace_back(std::move(text));
}

void add_notes_and_evidence(const Site& site, EntryIndex index, std::vector<Block>& blocks) {
  add_text(site, index, "notes", blocks);
  const Entry& entry = site.kb().entries[index];
  const bool can_be_backed = spec_of(entry.kind).find("source") != nullptr;
  if (can_be_backed) blocks.emplace_back(EvidenceBlock{tell_evidence(site, evidence_of(site.kb().entries, index))});
}

TimelineRow timeline_row(const Site& site, TimeSpanIndex span, bool subject) {
  const EntryIndex entry = site.kb().spans[at(span)].entry;
  const auto [start, end] = ends_of(site, span);
  return {full_name_of(site.kb(), entry), path_of(site.kb(), entry), start, end, subject};
}

void add_timeline(const Site& site, std::string title, std::optional<LineIndex> line, std::vector<TimelineRow> rows,
                  std::vector<Block>& blocks) {
  if (rows.empty()) return;
  Timeline timeline{std::move(title), {}, std::move(rows)};
  if (line)
    for (const TimeSpanIndex period : site.backlinks().bands[at(*line)])
      timeline.bands.push_back(timeline_row(site, period, false));
  blocks.emplace_back(DrawingBlock{draw_timeline(timeline, 360), draw_timeline(timeline, 760), timeline.title});
}

} // namespace coeval
