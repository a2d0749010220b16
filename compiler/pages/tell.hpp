// pages/tell.hpp: how are a name, a day, a proof and a verdict told on a page?
//
// Private to this room: what every page builder needs. A story told on two pages is told by one function here.
#pragma once

#include "drawings/timeline.hpp"
#include "pages/site.hpp"
#include "verdicts/judge.hpp"

namespace coeval {

// The name that readers see: an entry's name or title, the two plants of a route, else its id with spaces for hyphens.
[[nodiscard]] std::string name_of(const LinkedKb& kb, EntryIndex entry);
// A run within its accessory: "Ring top, brass".
[[nodiscard]] std::string run_name_of(const LinkedKb& kb, RunIndex run);
// The same with what it needs to be clear by itself: "Keeper Maren, painted buttons", "Signal lantern, ring top,
// brass".
[[nodiscard]] std::string full_name_of(const LinkedKb& kb, EntryIndex entry);
// "Figures", "Production runs": what entries of a kind are called, in a heading.
[[nodiscard]] std::string plural_of(Kind kind);
// "Figure", "Production run".
[[nodiscard]] std::string singular_of(Kind kind);
// A name that links to its page.
[[nodiscard]] Piece link_to(const LinkedKb& kb, EntryIndex entry);      // by its short name
[[nodiscard]] Piece full_link_to(const LinkedKb& kb, EntryIndex entry); // by its full name
[[nodiscard]] Piece plain(std::string text);
[[nodiscard]] Piece address_piece(const LinkedKb& kb, EntryIndex entry); // its address, set as code
// "press-log-kt vol. 6 p. 11", with the source linked.
[[nodiscard]] Text citation(const LinkedKb& kb, const std::string& written);
// Where something stands: "saltmere/cards.toml:12", linked.
[[nodiscard]] Piece place(const Site& site, Span span);

[[nodiscard]] Proof tell_proof(const Site& site, const std::vector<Reason>& reasons);
// The same as a list: each statement with its basis, sources and place, and which to doubt first.
[[nodiscard]] List proof_list(const Site& site, std::string title, const std::vector<Reason>& reasons);
[[nodiscard]] EvidenceView tell_evidence(const Site& site, const Evidence& evidence);
[[nodiscard]] PointView tell_point(const Site& site, SpanPoint point);
[[nodiscard]] SpanView tell_span(const Site& site, TimeSpanIndex span);
// "1976-08 to 1981-07 at the latest": both ends in a few words, for tables and lists.
[[nodiscard]] std::string short_span(const Site& site, TimeSpanIndex span);
// The drawing's ends of a span.
[[nodiscard]] std::pair<EndRange, EndRange> ends_of(const Site& site, TimeSpanIndex span);

// A verdict about a run with an issue. `of_run`: on the page of the run, where the issue is the subject. With proof it
// opens on the page; without, it leads to where it does.
[[nodiscard]] VerdictView tell_verdict(const Site& site, const Judgement& judgement, bool of_run, bool with_proof);

// The paragraphs of a text; blank lines part them.
[[nodiscard]] Paragraphs paragraphs(std::string_view text);
// The pictures of an entry.
[[nodiscard]] std::vector<Picture> pictures_of(const Site& site, EntryIndex entry);
// A run's or reproduction's stated colour.
[[nodiscard]] std::optional<std::array<double, 3>> lab_of(const Site& site, EntryIndex entry);
// A feature's value as it is said: "ring or notch", "22.4 mm ± 0.3", "yes".
[[nodiscard]] std::string value_words(const LinkedKb& kb, const FeatureValue& value);

// What an entry states, in one line with links: "Signal lantern, ring top, brass, found with Keeper Maren, painted
// buttons"; of entries with a page of their own just the name.
[[nodiscard]] Text statement_of(const Site& site, EntryIndex entry);
// The capital letter that a name stands under in a list from A to Z, accents of the commonest kind left out: "E" for
// "Étaples"; "#" for anything that is no letter.
[[nodiscard]] std::string letter_of(std::string_view name);
// By this names are sorted: small letters, the same everywhere.
[[nodiscard]] std::string sorting_key(std::string_view name);
// The entry that a key of one kind names, by bare id or full address.
[[nodiscard]] std::optional<EntryIndex> named_by(const LinkedKb& kb, EntryIndex entry, std::string_view key, Kind kind);
// The code of a country as readers know it: "GB".
[[nodiscard]] std::string country_words(std::string_view code);
// That of an entry's country; empty where it gives none.
[[nodiscard]] std::string country_of(const Entry& entry);
// "no issues", "1 issue", "12 issues".
[[nodiscard]] std::string counted(std::size_t count, Kind kind);
// Pieces parted by commas.
[[nodiscard]] Text enumerated(const std::vector<Piece>& pieces);
Text& append(Text& text, const Text& more);

// Adds a section; one without blocks is left out.
void add_section(Page& page, std::string_view slot, std::string_view title, std::vector<Block> blocks,
                 std::string anchor = {});
// Adds a fact; one without a value is left out.
void add_fact(Facts& facts, std::string label, Text value);
// Adds the text of a key, as paragraphs, where it is given.
void add_text(const Site& site, EntryIndex entry, std::string_view key, std::vector<Block>& blocks);
// Adds the notes of an entry and how it is backed, each where it is given.
void add_notes_and_evidence(const Site& site, EntryIndex entry, std::vector<Block>& blocks);
// Adds a drawing of rows, narrow and wide, with the periods of their line behind.
void add_timeline(const Site& site, std::string title, std::optional<LineIndex> line, std::vector<TimelineRow> rows,
                  std::vector<Block>& blocks);
// The row of a span, leading to its page.
[[nodiscard]] TimelineRow timeline_row(const Site& site, TimeSpanIndex span, bool subject);

} // namespace coeval
