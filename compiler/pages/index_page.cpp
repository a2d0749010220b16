// The lists of all entries of one kind, each grouped and annotated by what one looks for in it.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/spans.hpp"

namespace coeval {
namespace {

std::string statements_words(std::size_t count) {
  return fmt::format("{} {}", count == 0 ? "no" : std::to_string(count), count == 1 ? "statement" : "statements");
}

// Groups in the order in which their titles first come up.
List::Group& group_called(List& list, std::string_view title) {
  const auto found = std::ranges::find(list.groups, title, &List::Group::title);
  if (found != list.groups.end()) return *found;
  list.groups.push_back({std::string{title}, {}, {}});
  return list.groups.back();
}

// An id as words: "colour card".
std::string in_words(std::string_view id) {
  std::string words{id};
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

std::string capital(std::string_view id) {
  std::string words = in_words(id);
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
}

// "Bar code": what marks of a kind are about.
std::string kind_title(std::string_view kind) {
  if (kind.empty()) return "Other marks";
  if (kind == "line") return "Of the line, its maker and its plants";
  return capital(kind);
}

// By the names that readers see, whatever the files are called.
void sort_items(List& list) {
  for (List::Group& group : list.groups)
    std::ranges::stable_sort(group.items, {},
                             [](const List::Item& item) { return sorting_key(item.text.front().text); });
}

// "1976 to 1983": the years in which any of these issues can have been packed; empty where an end is unknown.
std::string years_of(const Site& site, const std::vector<IssueIndex>& issues) {
  std::optional<Day> first;
  std::optional<Day> last;
  for (const IssueIndex issue : issues) {
    const auto [start, end] = ends_of(site, site.kb().issues[at(issue)].span);
    if (!start.earliest || !end.latest) return {};
    first = first ? std::min(*first, *start.earliest) : *start.earliest;
    last = last ? std::max(*last, *end.latest) : *end.latest;
  }
  if (!first) return {};
  const std::string from = iso(*first);
  const std::string to = iso(*last);
  const std::string from_year = from.substr(0, from.rfind('-', from.rfind('-') - 1));
  const std::string to_year = to.substr(0, to.rfind('-', to.rfind('-') - 1));
  return from_year == to_year ? from_year : from_year + " to " + to_year;
}

List figures_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list;
  for (const Figure& figure : kb.figures) {
    const bool grouped = kb.lines.size() > 1 && figure.line;
    std::string note = counted(figure.issues.size(), Kind::issue);
    if (const std::string years = years_of(site, figure.issues); !years.empty()) note += ", packed " + years;
    if (const std::string role{kb.entries[figure.entry].text("role")}; !role.empty()) note = role + "; " + note;
    group_called(list, grouped ? name_of(kb, kb.lines[at(*figure.line)].entry) : std::string{})
        .items.push_back({{link_to(kb, figure.entry)}, {plain(std::move(note))}});
  }
  sort_items(list);
  return list;
}

List accessories_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list;
  for (const Line& line : kb.lines) // the slots in the order that the line gives them
    for (const std::string& slot : line.slots) (void)group_called(list, capital(slot));
  for (std::size_t i = 0; i < kb.accessories.size(); ++i) {
    const Accessory& accessory = kb.accessories[i];
    const AccessoryIndex index{static_cast<std::uint32_t>(i)};
    std::size_t runs = 0;
    for (const MouldIndex mould : accessory.moulds) runs += kb.moulds[at(mould)].runs.size();
    Text note{plain(fmt::format("{}, {}, ", counted(accessory.moulds.size(), Kind::mould), counted(runs, Kind::run)))};
    if (!accessory.repros.empty()) note.push_back(plain(counted(accessory.repros.size(), Kind::repro) + ", "));
    append(note, {{"matrix", path_of_matrix(kb, index), false}, plain(", "), {"key", path_of_key(kb, index), false}});
    group_called(list, capital(accessory.slot)).items.push_back({{link_to(kb, accessory.entry)}, std::move(note)});
  }
  sort_items(list);
  std::erase_if(list.groups, [](const List::Group& group) { return group.items.empty(); });
  return list;
}

List repros_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list;
  std::map<std::string, std::size_t> places; // of the groups, by their titles: there are as many as accessories
  for (const Repro& repro : kb.repros) {
    const Entry& entry = kb.entries[repro.entry];
    Text note;
    if (repro.of_run)
      note = {plain("of "), {run_name_of(kb, *repro.of_run), path_of(kb, kb.runs[at(*repro.of_run)].entry), false}};
    else if (repro.of_mould)
      note = {plain("of "), link_to(kb, kb.moulds[at(*repro.of_mould)].entry)};
    std::string method = in_words(entry.text("method"));
    if (method.empty()) method = entry.text("how");
    if (!method.empty()) note.push_back(plain((note.empty() ? "" : "; ") + method));
    if (const auto* since = entry.get<WrittenDate>("since")) note.push_back(plain("; known since " + since->text));
    const std::string title = name_of(kb, kb.accessories[at(repro.accessory)].entry);
    const auto [place, fresh] = places.try_emplace(title, list.groups.size());
    if (fresh) list.groups.push_back({title, {}, {}});
    list.groups[place->second].items.push_back({{link_to(kb, repro.entry)}, std::move(note)});
  }
  return list;
}

// Periods, cards and routes: a drawing of all and a list with when each lasted.
void add_spans(const Site& site, Kind kind, Page& page) {
  const LinkedKb& kb = site.kb();
  std::vector<std::optional<LineIndex>> lines; // a drawing for each line, its periods behind
  std::vector<std::vector<TimelineRow>> rows;
  List list{{{}}};
  for (std::size_t i = 0; i < kb.spans.size(); ++i) {
    const TimeSpan& span = kb.spans[i];
    if (span.kind != kind) continue;
    const TimeSpanIndex index{static_cast<std::uint32_t>(i)};
    auto line = std::ranges::find(lines, span.line);
    if (line == lines.end()) {
      lines.push_back(span.line);
      rows.emplace_back();
      line = lines.end() - 1;
    }
    rows[static_cast<std::size_t>(line - lines.begin())].push_back(timeline_row(site, index, true));
    Text note{plain(short_span(site, index))};
    if (kind == Kind::card)
      note.push_back(plain("; " + counted(site.backlinks().sealed[kb.position[at(span.entry)]].size(), Kind::issue)));
    if (kind == Kind::route && !kb.routes[kb.position[at(span.entry)]].carries.empty())
      note.push_back(plain(
          fmt::format("; {} only", counted(kb.routes[kb.position[at(span.entry)]].carries.size(), Kind::accessory))));
    list.groups.front().items.push_back({{link_to(kb, span.entry)}, std::move(note)});
  }
  std::vector<Block> when;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::string title = plural_of(kind);
    if (lines[i] && lines.size() > 1) title += " of " + name_of(kb, kb.lines[at(*lines[i])].entry);
    add_timeline(site, std::move(title), lines[i], std::move(rows[i]), when);
  }
  add_section(page, "when", "When", std::move(when), "when");
  if (!list.groups.front().items.empty()) add_section(page, "list", plural_of(kind), {std::move(list)}, "list");
}

List plants_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list{{{}}};
  for (std::size_t i = 0; i < kb.plants.size(); ++i) {
    const Entry& entry = kb.entries[kb.plants[i].entry];
    std::string note{entry.text("place")};
    if (const std::string country = country_of(entry); !country.empty())
      note += note.empty() ? country : " (" + country + ")";
    note += fmt::format("{}moulded {}, packed {}", note.empty() ? "" : "; ",
                        counted(site.backlinks().moulded[i].size(), Kind::run),
                        counted(site.backlinks().packed[i].size(), Kind::issue));
    list.groups.front().items.push_back({{link_to(kb, kb.plants[i].entry)}, {plain(std::move(note))}});
  }
  return list;
}

// Makers have no page of their own; here is where they are told.
List makers_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list{{{}}};
  for (const Entry& entry : kb.entries.entries) {
    if (entry.kind != Kind::maker || entry.id.empty()) continue;
    Text note{plain(std::string{entry.text("role")})};
    if (const std::string country = country_of(entry); !country.empty())
      note.push_back(plain((note.front().text.empty() ? "" : ", ") + country));
    if (const auto* sources = entry.get<Words>("source"))
      for (const Word& source : *sources) {
        note.push_back(plain("; "));
        append(note, citation(kb, source.text));
      }
    if (!entry.text("notes").empty()) note.push_back(plain(". " + std::string{entry.text("notes")}));
    list.groups.front().items.push_back({{plain(std::string{entry.text("name")})}, std::move(note)});
  }
  return list;
}

// By what they are about; those of the line itself first.
List marks_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list;
  for (const std::string_view kind : spec_of(Kind::mark).find("kind")->choices)
    (void)group_called(list, kind_title(kind));
  for (std::size_t i = 0; i < kb.marks.size(); ++i) {
    const Mark& mark = kb.marks[i];
    const Entry& entry = kb.entries[mark.entry];
    std::string note;
    if (!entry.text("text").empty()) note = fmt::format("“{}”; ", entry.text("text"));
    note += reach_of(site, mark);
    if (const std::size_t carriers = site.backlinks().carrying[i].size(); carriers > 0)
      note += fmt::format("; on {} {}", carriers, carriers == 1 ? "entry" : "entries");
    group_called(list, kind_title(entry.text("kind")))
        .items.push_back({{link_to(kb, mark.entry)}, {plain(std::move(note))}});
  }
  std::erase_if(list.groups, [](const List::Group& group) { return group.items.empty(); });
  return list;
}

// Those that a seller can look at come first, and those that harm the part last and by themselves.
List features_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  static constexpr std::array<std::pair<LookBy, std::string_view>, 3> order{
      {{LookBy::photograph, "From a photograph"}, {LookBy::measurement, "By measuring"}, {LookBy::in_hand, "In hand"}}};
  List list;
  const auto add = [&](std::string_view title, auto belongs) {
    for (std::size_t i = 0; i < kb.features.size(); ++i) {
      const Feature& feature = kb.features[i];
      if (!belongs(feature)) continue;
      group_called(list, fmt::format("{}: {}", title, in_words(name(feature.tool))))
          .items.push_back({{link_to(kb, feature.entry)},
                            {plain(fmt::format("{}; {:g} min; stated {} {}", name(feature.kind), feature.effort,
                                               site.backlinks().stating[i].size(),
                                               site.backlinks().stating[i].size() == 1 ? "time" : "times"))}});
    }
  };
  for (const auto& [by, title] : order)
    add(title, [&by = by](const Feature& feature) { return feature.by == by && !feature.destructive; });
  add("Harms the part and is never proposed", [](const Feature& feature) { return feature.destructive; });
  return list;
}

List claims_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list;
  for (const std::string_view standing : {"Supported", "Open", "Refuted"}) (void)group_called(list, standing);
  for (std::size_t i = 0; i < kb.claims.size(); ++i) {
    const ClaimReport& report = site.claim_report(ClaimIndex{static_cast<std::uint32_t>(i)});
    const EntryIndex claim = kb.claims[i].entry;
    const Entry& entry = kb.entries[claim];
    const std::string path = path_of(kb, claim);
    const std::string says{entry.text("says")};
    const std::string title{entry.text("name")};
    List::Item item{{{title.empty() ? says : title, path, false}}, {plain(finding_words(report))}};
    if (!title.empty()) item.text.push_back(plain(": " + says));
    group_called(list, capital(entry.text("standing"))).items.push_back(std::move(item));
  }
  std::erase_if(list.groups, [](const List::Group& group) { return group.items.empty(); });
  return list;
}

List sources_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list;
  for (const std::string_view kind : spec_of(Kind::source).find("kind")->choices)
    (void)group_called(list, capital(kind));
  for (std::size_t i = 0; i < kb.sources.size(); ++i) {
    const Entry& entry = kb.entries[kb.sources[i].entry];
    std::string note{entry.text("author")};
    note += (note.empty() ? "" : "; ") + statements_words(site.backlinks().citing[i].size());
    group_called(list, capital(entry.text("kind")))
        .items.push_back({{link_to(kb, kb.sources[i].entry)}, {plain(std::move(note))}});
  }
  std::erase_if(list.groups, [](const List::Group& group) { return group.items.empty(); });
  return list;
}

List markets_list(const Site& site) {
  List list{{{}}};
  for (const auto& [code, issues] : site.backlinks().sold)
    list.groups.front().items.push_back(
        {{{country_words(code), path_of_market(code), false}}, {plain(counted(issues.size(), Kind::issue))}});
  return list;
}

struct Topic {
  std::string_view intro;
  List (*list)(const Site&); // nullptr for kinds with a drawing
};

const Topic& topic_of(std::string_view name) {
  static const std::map<std::string_view, Topic> topics{
      {"figure",
       {"Every figure with its issues: one issue is one distinct putting-out, by paint, marks, market, packer "
        "and the days on which it was packed.",
        figures_list}},
      {"accessory",
       {"Every accessory by the slot that it fills. A mould is one revision of its tool; a run is what "
        "was made from it in one colour, at one plant, in one stretch of time.",
        accessories_list}},
      {"repro",
       {"Reproductions that are known, by what they copy. Not every reproduction is: that none of these fits "
        "does not show that a part is original.",
        repros_list}},
      {"period", {"The stretches into which the line's history is divided.", nullptr}},
      {"card", {"Generations of packaging. A card dates what was sealed on it.", nullptr}},
      {"plant", {"Where parts were moulded and figures packed, and which plant supplied which.", plants_list}},
      {"route",
       {"Which plant supplied which, and when. What no route could bring in time was not packed there, where "
        "every route into a plant is entered.",
        nullptr}},
      {"mark",
       {"Dating marks, moulded and printed: nothing carries a mark from before its first day, or from before the year "
        "or "
        "number that it reads. Every date is a bound, and not the day on which a part was made.",
        marks_list}},
      {"feature",
       {"What can be seen, measured, felt or heard on a part; by who can look and with what.", features_list}},
      {"claim",
       {"What collectors repeat, and how it stands on the evidence. Those that can be stated as a pairing or "
        "an order in time are checked against everything else.",
        claims_list}},
      {"source", {"Where statements come from, by kind, and how much rests on each.", sources_list}},
      {"market", {"Where figures were sold, by ISO 3166 country code.", markets_list}},
  };
  return topics.at(name);
}

// "42 figures in this reference."
std::string summary_of(const Site& site, std::string_view topic) {
  const KindSpec* spec = find_top(topic);
  if (spec == nullptr) {
    const std::size_t count = site.backlinks().sold.size();
    return fmt::format("{} {} in this reference, by ISO 3166 code.", count, count == 1 ? "market" : "markets");
  }
  const auto count = std::ranges::count_if(
      site.kb().entries.entries, [&](const Entry& entry) { return entry.kind == spec->kind && !entry.id.empty(); });
  return counted(static_cast<std::size_t>(count), spec->kind) + " in this reference.";
}

} // namespace

void build_index(const Site& site, const PlannedPage& planned, Page& page) {
  const Topic& topic = topic_of(planned.topic);
  const KindSpec* spec = find_top(planned.topic);
  page.title = spec == nullptr ? "Markets" : plural_of(spec->kind);
  page.eyebrow = "All of a kind";
  page.summary = summary_of(site, planned.topic);
  add_section(page, "intro", {}, {Paragraphs{{{plain(std::string{topic.intro})}}}});
  if (topic.list == nullptr) {
    add_spans(site, spec->kind, page);
  } else if (List list = topic.list(site);
             std::ranges::any_of(list.groups, [](const List::Group& group) { return !group.items.empty(); })) {
    if (planned.topic == "plant" && !site.kb().routes.empty())
      add_section(page, "plate", "Plants and routes", {draw_routes(site)}, "routes");
    add_section(page, "list", page.title, {std::move(list)}, "list");
  } else {
    add_section(page, "list", {}, {Paragraphs{{{plain("There are none yet.")}}}}, "list");
  }
  if (planned.topic == "feature")
    add_section(page, "more", "Before you look",
                {Caution{"Old plastics, soft vinyl and paints may hold lead, cadmium or phthalates: keep parts from "
                         "children and from food, and wash your hands afterwards."},
                 Caution{"Looks that harm a part are listed so that they can be recognised and avoided. Nothing here "
                         "proposes one."}},
                "cautions");
  if (planned.topic == "mark")
    add_section(
        page, "more", "Before you date a part by them",
        {Caution{"A mark outlives what it names: an old mould keeps an old mark, and printed stock is used up. Only "
                 "where a mark's page says that its end binds does its last day say anything."},
         Caution{"That a mark is absent proves nothing: it may not have been asked for where the part was sold, or "
                 "it was on the box."},
         Caution{"A copyright year is that of the work, and a patent number that of the idea; the part can be "
                 "decades younger."}},
        "cautions");
  if (planned.topic == "plant")
    if (List makers = makers_list(site); !makers.groups.front().items.empty())
      add_section(page, "more", "Makers", {std::move(makers)}, "makers");
}

} // namespace coeval
