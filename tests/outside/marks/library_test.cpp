// Do the dating marks of kb/marks say what published tables and second sources say, and does each say how far it
// reaches?
#include <catch2/catch.hpp>

#include <fstream>
#include <set>

#include <nlohmann/json.hpp>

#include "chronology/readings.hpp"
#include "pipeline.hpp"

using namespace coeval;
using nlohmann::json;

namespace {

struct Library {
  Compiled compiled = compile(COEVAL_TEST_DATA "/../../../kb", Depth::in_full);
  [[nodiscard]] const LinkedKb& kb() const { return *compiled.kb; }

  // Of the library, not of the line that is invented.
  [[nodiscard]] bool holds(const Entry& entry) const {
    return compiled.sources[entry.place.file].path().starts_with("marks/");
  }
  [[nodiscard]] MarkIndex mark(const std::string& id) const {
    const auto found = kb().addresses.find("mark/" + id);
    REQUIRE(found);
    return MarkIndex{kb().position[at(*found)]};
  }
};

json read_json(const std::string& path) {
  std::ifstream file{path};
  REQUIRE(file);
  return json::parse(file);
}

// First and last day of a date.
std::pair<Day, Day> days_of(const std::string& date) {
  const EdtfResult result = parse_edtf(date);
  REQUIRE(result.value);
  return {*result.value->first(), *result.value->last()};
}

} // namespace

TEST_CASE("every mark of the library has a kind, a source, a jurisdiction and a caution, and no end of it binds") {
  const Library library;
  REQUIRE(library.compiled.diagnostics.empty()); // unused sources would be among them
  std::size_t marks = 0;
  for (const Mark& mark : library.kb().marks) {
    const Entry& entry = library.kb().entries[mark.entry];
    if (!library.holds(entry)) continue;
    ++marks;
    INFO(entry.id);
    CHECK_FALSE(entry.text("kind").empty());
    CHECK(entry.text("kind") != "line");
    CHECK_FALSE(entry.text("where").empty());
    CHECK(entry.text("caution").size() > 20);
    CHECK((entry.find("country") != nullptr || !entry.text("jurisdiction").empty()));
    CHECK(entry.get<Words>("source") != nullptr);
    // Moulds and printed stock are used on: no law and no post office takes a mark off a part.
    CHECK_FALSE(mark.end_binds);
    // Nothing is shipped that neither dates its carrier nor says why not.
    if (entry.find("used") == nullptr && !mark.reading)
      CHECK(entry.text("caution").find("dates nothing") != std::string_view::npos);
  }
  CHECK(marks >= 40);
  for (const Source& source : library.kb().sources) {
    const Entry& entry = library.kb().entries[source.entry];
    if (!library.holds(entry)) continue;
    INFO(entry.id);
    CHECK(entry.find("seen") != nullptr);
  }
}

TEST_CASE("names of countries end when ISO 3166-3 withdrew them, and the end is called bookkeeping") {
  // Debian's package iso-codes: ISO 3166-3, kept by its own maintainers.
  const json withdrawn = read_json("/usr/share/iso-codes/json/iso_3166-3.json").at("3166-3");
  std::map<std::string, std::string> dates;
  for (const json& row : withdrawn) {
    std::string code = row.at("alpha_4");
    for (char& c : code) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    dates[code] = row.at("withdrawal_date");
  }
  REQUIRE(dates.size() >= 31);
  const Library library;
  std::size_t compared = 0;
  for (const Mark& mark : library.kb().marks) {
    const Entry& entry = library.kb().entries[mark.entry];
    const auto* country = entry.get<Words>("country");
    if (!library.holds(entry) || entry.text("kind") != "origin" || country == nullptr) continue;
    const auto row = dates.find(country->front().text);
    if (row == dates.end()) continue;
    INFO(entry.id << " " << row->first);
    ++compared;
    const auto [first, last] = days_of(row->second);
    const WrittenDates& used = *entry.get<WrittenDates>("used");
    CHECK(used.end.bounds.first == first);
    CHECK(used.end.bounds.last == last);
    CHECK_FALSE(used.start.bounds.first);
    CHECK(entry.text("caution").find("bookkeeping") != std::string_view::npos);
    CHECK(entry.text("caution").find("outlives its country") != std::string_view::npos);
  }
  CHECK(compared >= 21);
}

TEST_CASE(
    "the first United States patent of a year is that of the published table, and milestones fall in their places") {
  const json tables = read_json(COEVAL_TEST_DATA "/us_patents.json");
  const Library library;
  const MarkIndex patent = library.mark("us-patent");
  const std::vector<NumberRow>& rows = library.kb().marks[at(patent)].numbers;
  std::map<std::int64_t, std::string> published;
  for (const auto& [year, number] : tables.at("first_of_the_year").at("numbers").items()) published[number] = year;
  published[tables.at("of_1951").at("first")] = "1951";
  published[tables.at("of_1951").at("last").get<std::int64_t>() + 1] = "1952";
  for (const json& row : tables.at("milestones").at("numbers")) published[row.at("number")] = row.at("issued");
  REQUIRE(published.size() >= 57);
  CHECK(rows.size() == published.size()); // so nothing is shipped from elsewhere
  for (const NumberRow& row : rows) {
    INFO(row.from);
    REQUIRE(published.contains(row.from));
    CHECK(row.on->text == published.at(row.from));
  }
  // A milestone lies between the first patents of the two years around it, as two tables of two hands have it.
  for (const json& row : tables.at("milestones").at("numbers")) {
    const std::int64_t number = row.at("number");
    const auto [first, last] = days_of(row.at("issued"));
    const ReadingDays before = days_of_reading(library.kb(), patent, number - 1);
    INFO(number);
    if (before.first) CHECK(*before.first <= first);
    const auto next = std::ranges::find_if(rows, [&](const NumberRow& later) { return later.from > number; });
    if (next != rows.end()) CHECK(last <= *next->on->edtf.last());
  }
  // Patents whose day another source gives.
  for (const json& row : tables.at("granted").at("numbers")) {
    const auto [first, last] = days_of(row.at("granted"));
    const ReadingDays days = days_of_reading(library.kb(), patent, row.at("number"));
    INFO(row.at("number") << ": " << row.at("source").get<std::string>());
    REQUIRE(days.first);
    CHECK(*days.first <= first);
    if (days.last) CHECK(last <= *days.last);
  }
}

TEST_CASE("a second source gives a first day that the first allows") {
  struct Second {
    std::string mark, date, source;
  };
  // Each read on 2026-11-25; none is among the sources of the mark.
  const std::vector<Second> list{
      {"us-zip-code", "1963-07-01", "stampnotes.com, Notes from the Past 454, after This is Philately (1982)"},
      {"de-postcode-four", "1961-11-03", "stampnotes.com, Notes from the Past 454, after This is Philately (1982)"},
      {"ch-postcode", "1964", "liquisearch.com/postal_code/history"},
      {"au-postcode", "1967-07-01", "victoriancollections.net.au, item 64fd9508fc185a571e572a1e"},
      {"ca-postal-code", "1971-04-01", "americola.com/sites/Canadian_postal_code"},
      {"in-pin-code", "1972-08-15", "timesfeed.com, how PIN codes are assigned in India"},
      {"jp-postcode-short", "1968", "NHK by way of tellerreport.com"},
      {"jp-postcode-seven", "1998-02", "NHK by way of tellerreport.com"},
      {"se-postcode", "1968-05-12", "countryzipcode.com/sweden"},
      {"nl-postcode", "1977", "nl.wikipedia.org, Lijst van postcodes in Nederland"},
      {"fr-postcode-five", "1972", "djidji.org, historique du code postal"},
      {"nz-dollar-price", "1967-07-10", "hike-australia.com, when did Australia change to the dollar"},
      {"au-dollar-price", "1966-02-14", "sydneynature.com, when did Australia start using the dollar"},
      {"upc", "1974-06-26", "ebesucher.com, barcode"},
      {"qr-code", "1994", "factdirectory.com/fact/82"},
      {"gs-mark", "1977", "belama.de, geprüfte Sicherheit"},
      {"st-mark", "1971", "namhoatoys.com, ST Japan toys safety standard"},
      {"ukca", "2021-01-01", "hiap-scotland.org, article 79"},
      {"crossed-out-bin", "2005-08-13", "rene-europe.com, crossed-out wheeled bin"},
      {"recycling-loop", "1970", "proquest.com, document 218281510"},
      {"sri-lanka", "1972-05-22", "usconsumeremails.com, when did the British leave Sri Lanka"},
      {"zimbabwe", "1980-04-18", "filotchila.com, independence of Zimbabwe"},
      {"czech-republic", "1993-01-01", "lankatricks.com, Czechoslovakia was divided"},
      {"slovakia", "1993-01-01", "lankatricks.com, Czechoslovakia was divided"},
      {"uk-codes-with-01", "1995-04-16", "probsee.com/p/PhONEday"},
      {"uk-five-new-city-codes", "1995-04-16", "probsee.com/p/PhONEday"},
      {"london-020", "1999-06-01", "friendlywiki.com, Big Number Change"},
  };
  const Library library;
  for (const Second& second : list) {
    INFO(second.mark << ": " << second.source);
    const Entry& entry = library.kb().entries[library.kb().marks[at(library.mark(second.mark))].entry];
    const DateBounds& start = entry.get<WrittenDates>("used")->start.bounds;
    const auto [first, last] = days_of(second.date);
    REQUIRE(start.first);
    CHECK(*start.first <= last);
    if (start.last) CHECK(first <= *start.last);
  }
}
