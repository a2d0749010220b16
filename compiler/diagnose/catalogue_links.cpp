// What can be wrong with what entries say of each other, and with the data as a whole?
#include <array>

#include "diagnose/catalogue_rows.hpp"

namespace coeval {
namespace {

using enum Severity;

constexpr std::array links{
    CatalogueRow{Code::duplicate_id, "duplicate-id", error, "an address used twice",
                 "what refers to it could mean either entry, and evidence for the one would count for the other",
                 R"([[mould]]
id = "ring-top"

[[mould]]
id = "ring-top"           # ring-top-repaired)",
                 "give one of the entries another id, or merge the two if they are the same thing; figures and "
                 "accessories share "
                 "their ids, so a figure cannot have the id of an accessory"},
    CatalogueRow{Code::duplicate_value, "duplicate-value", error, "a list that names something twice",
                 "the second mention adds nothing, and often something else was meant, which is now missing",
                 R"([[issue]]
id     = "painted-buttons"
market = ["gb", "ie", "gb"])",
                 "take the second one out, or write what was meant"},
    CatalogueRow{Code::unknown_address, "unknown-address", error, "an address without an entry",
                 "the statement hangs in the air: a pairing with a run that does not exist attests nothing",
                 R"([[issue.pairing]]
run    = "signal-lantern/ring-tip/brass"  # ring-top
source = ["sealed-examples-2019 #4"])",
                 "correct the address, or add the entry that it should lead to"},
    CatalogueRow{Code::ambiguous_address, "ambiguous-address", error, "an address that fits several entries",
                 "an answer about the wrong one of two runs is worse than none",
                 R"($ coeval belongs brass keeper-maren/painted-buttons
coeval: `brass` could be 2 of these; write more of the address
  signal-lantern/plain-top/brass
  signal-lantern/ring-top/brass)",
                 "write more of the address, from the right to the left, until only one entry fits"},
    CatalogueRow{
        Code::wrong_kind, "wrong-kind", error, "an address of something that cannot stand there",
        "a mould is not a run and a card is not a plant: the statement would be about something that it cannot be true "
        "of",
        R"([[issue.pairing]]
run    = "signal-lantern/ring-top"  # a mould; one of its runs is meant
source = ["sealed-examples-2019 #4"])",
        "give the address of an entry of the kind that the key takes; for a run, add its id to that of its mould"},
    CatalogueRow{
        Code::self_reference, "self-reference", error, "an entry that refers to itself",
        "nothing came before itself or lay within itself, so another entry was meant, and its place in the order is "
        "missing",
        R"([[mould]]
id       = "plain-top"
replaces = "plain-top"    # ring-top)",
        "name the other entry, or take the key out"},
    CatalogueRow{Code::unknown_source, "unknown-source", error, "a citation of a source without an entry",
                 "a reader cannot look up where the statement comes from, and so cannot check it",
                 R"([[mould]]
id     = "ring-top"
source = ["trade-catalog-1977 p. 14"]  # trade-catalogue-1977)",
                 "correct the first word of the citation, or add a [[source]] with that id"},
    CatalogueRow{
        Code::line_needed, "line-needed", error, "an entry that does not say which of several lines it belongs to",
        "lines differ in their slots, in how long stock was kept and in what `about 1979` allows; with another line's, "
        "the entry would be judged and dated wrongly",
        R"(# beside saltmere-patrol the knowledge base holds the line saltmere-junior
[[card]]
id   = "six-back"         # line = "saltmere-patrol" is missing
name = "Six-figure back")",
        "add `line` with the id of its line to the figure, accessory, period or card"},
};

constexpr std::array rules{
    CatalogueRow{Code::basis_without_source, "basis-without-source", error, "a basis that no source backs",
                 "`documented`, `observed` and `reported` tell a collector that somebody can show the evidence; "
                 "without a source "
                 "nobody can",
                 R"([[mould]]
id    = "ring-top"
used  = "1976-08/1979-06"
basis = "documented"      # source is missing)",
                 "add `source` with the place in it, or call the statement `conjectured`"},
    CatalogueRow{Code::incomplete_timing, "incomplete-timing", error,
                 "a timing that puts nothing in order, or is not one order",
                 "half an order dates nothing, and two orders in one table can be read in two ways: the bound that the "
                 "curator had "
                 "in mind would be missing",
                 R"([[mould.timing]]
this   = "start"          # after which point?
basis  = "observed"
source = ["sealed-examples-2019 #31"])",
                 "give either `relation` and `span`, or `this` and one of `after`, `before`, `same-day-as` and `on`; "
                 "`at-least` and "
                 "`at-most` go with `after` and `before` only"},
    CatalogueRow{
        Code::unknown_feature, "unknown-feature", error, "a feature that is not declared",
        "a feature spelt in two ways counts as two, so parts that differ in it would look alike in every comparison",
        R"([[mould]]
id       = "ring-top"
features = { tpo = "ring" }  # top)",
        "correct the name, or declare the feature once, with [[feature]] and its kind"},
    CatalogueRow{
        Code::wrong_feature_value, "wrong-feature-value", error, "a value that its feature does not take",
        "parts are told apart by their values; one that no part can show would rule out the part in a collector's hand",
        R"([[feature]]
id     = "top"
name   = "Top"
kind   = "choice"
values = ["ring", "plain"]

[[mould]]
id       = "ring-top"
features = { top = "rings" }  # ring)",
        "use a value of the feature's kind: one of its words, true or false, a whole number for a count, a number for "
        "a "
        "measure; a new word is first added to `values`"},
    CatalogueRow{Code::broken_feature, "broken-feature", error, "a feature that nobody can look at as it is declared",
                 "a measure without a unit is read in inches by one and in millimetres by another, and a word that "
                 "the feature does not list can be chosen by nobody",
                 R"([[feature]]
id   = "height-mm"
name = "Height"
kind = "measure"          # and unit = "mm")",
                 "give a measure its unit and a choice its values; leave out what the kind of feature has no use for; "
                 "describe only values that it lists"},
    CatalogueRow{Code::no_tolerance, "no-tolerance", warning, "a number that no measurement can agree or disagree with",
                 "no two parts measure exactly alike; without a tolerance nobody can say when a part is too short, so "
                 "the number decides nothing",
                 R"([[mould]]
id       = "ring-top"
features = { height-mm = 21.5 }  # { value = 21.5, tolerance = 0.3 })",
                 "say how far a part may be off, beside the value or once for all in the feature; for a colour as "
                 "CIEDE2000 difference"},
    CatalogueRow{
        Code::indistinguishable, "indistinguishable", warning,
        "what has to be told apart, and cannot be by any look that is entered",
        "a buyer who looks at everything still cannot tell the original from the reproduction, or the one mould "
        "from the other",
        R"([[repro]]
id = "resin-recast"
of = "ring-top/brass"     # features = { seam = "none" })",
        "state a feature in which they differ; where there is none, say that you know: alike = [ADDRESS] in "
        "either of them"},
    CatalogueRow{
        Code::picture_missing, "picture-missing", error, "a picture that is not in the knowledge base",
        "the page would show a gap, and a picture kept elsewhere is lost when it moves there",
        R"([[figure.picture]]
file   = "drawings/maren.svg"  # drawings/keeper-maren.svg
alt    = "Keeper Maren from the front, lantern raised"
credit = "drawn for this page, CC0")",
        "put the picture below the knowledge base, and give its path from the folder of the file that names it"},
    CatalogueRow{Code::picture_type, "picture-type", error, "a picture of a type that browsers do not show",
                 "readers would see an empty frame, and a file of an unexpected type can harm whoever opens it",
                 R"([[figure.picture]]
file   = "drawings/keeper-maren.tiff"
alt    = "Keeper Maren from the front, lantern raised"
credit = "drawn for this page, CC0")",
                 "convert it to SVG, PNG, JPEG or WebP, with the ending .svg, .png, .jpg, .jpeg or .webp"},
    CatalogueRow{Code::picture_broken, "picture-broken", error,
                 "a picture that browsers do not show, or not as a whole",
                 "the page would show a gap where readers expect the feature that decides",
                 R"([[figure.picture]]
file   = "drawings/keeper-maren.jpg"  # a PNG picture that was only renamed
alt    = "Keeper Maren from the front, lantern raised"
credit = "drawn for this page, CC0")",
                 "save the picture again as SVG, PNG, JPEG or WebP, and let its name end as its format does"},
    CatalogueRow{
        Code::picture_unsafe, "picture-unsafe", error, "a picture that can do more than be looked at",
        "an SVG can run a script, load files from other places and tell them who is reading, or keep a browser "
        "busy for hours; on a published page it would do so to every reader",
        R"($ grep -n href drawings/keeper-maren.svg
12:  <image href="https://example.org/lantern.png"/>)",
        "save the drawing as plain SVG, without scripts, links, animations and a document type; a photograph "
        "is a picture of its own"},
    CatalogueRow{Code::picture_located, "picture-located", warning, "a photograph that tells where it was taken",
                 "telephones write the place into each photograph; published, it tells strangers where a collection is "
                 "kept",
                 R"($ exiftool photographs/keeper-maren.jpg
GPS Position : 51 deg 26' 12.48" N, 3 deg 10' 5.16" W)",
                 "save the photograph without its location, then publish that copy"},
    CatalogueRow{Code::unknown_slot, "unknown-slot", error, "a slot that the line does not have",
                 "slots are compared by name, so an accessory for the slot `hnad` fills nobody's hand",
                 R"([accessory]
id   = "signal-lantern"
name = "Signal lantern"
slot = "hnad"             # hand)",
                 "correct it, or add the slot to `slots` of the line"},
    CatalogueRow{
        Code::slot_differs, "slot-differs", warning, "an accessory in another slot than its own",
        "some figures did carry a thing in an unusual place, but more often it is a slip, and somebody would look for "
        "another accessory to fill the hand that seems empty",
        R"([[issue.takes]]
accessory = "signal-lantern"
slot      = "back"        # the lantern's own slot is hand)",
        "leave `slot` out to use the accessory's own, or keep it where a source shows the accessory there"},
    CatalogueRow{
        Code::slot_taken_twice, "slot-taken-twice", error, "an accessory that an issue takes twice in one slot",
        "the figure would seem to need two of the part, and somebody would buy a second that it never had",
        R"([[issue.takes]]
accessory = "signal-lantern"

[[issue.takes]]
accessory = "signal-lantern")",
        "take one of them out; where the figure did carry two, give the second its own slot, such as `off-hand`"},
    CatalogueRow{Code::pairing_conflict, "pairing-conflict", error, "a pairing both attested and refuted",
                 "the record says yes and no at once, so it cannot settle whether the part in question is right",
                 R"([[issue.pairing]]
run    = "signal-lantern/ring-top/brass"
source = ["sealed-examples-2019 #4"]

[[issue.pairing]]
run     = "signal-lantern/ring-top/brass"
refuted = true
source  = ["letters-1998 no. 12"])",
                 "weigh the two sources and take the wrong pairing out, or keep both and mark the one you doubt with "
                 "`disputed = true`"},
    CatalogueRow{
        Code::pairing_without_place, "pairing-without-place", warning,
        "a pairing with an accessory that the issue is not said to take",
        "somebody found the part with the figure, and yet the answer is that it has no place there: one of the two is "
        "incomplete or wrong",
        R"([[issue]]
id   = "painted-buttons"
bare = true               # so it takes no lantern

[[issue.pairing]]
run    = "signal-lantern/ring-top/brass"
source = ["sealed-examples-2019 #4"])",
        "add [[issue.takes]] for the accessory, or mark the pairing with `disputed = true` if the part may have been "
        "added "
        "later"},
    CatalogueRow{
        Code::pairing_misrouted, "pairing-misrouted", warning, "a pairing whose part could not have reached the packer",
        "every route into the packing plant is said to be known and none brought the run there, so either a route is "
        "missing and other parts are misjudged too, or the part was added after the sale",
        R"([[plant]]
id              = "cork"
name            = "Cork works"
routes-complete = true    # and no [[route]] comes from Kwun Tong

# elsewhere, below an issue that was packed at Cork
[[issue.pairing]]
run    = "signal-lantern/ring-top/brass"  # moulded at Kwun Tong
source = ["sealed-examples-2019 #4"])",
        "add the [[route]] that the run took, take `routes-complete` back, or mark the pairing with `disputed = true`"},
    CatalogueRow{
        Code::exclusive_conflict, "exclusive-conflict", error,
        "a run found outside the issues that it was reserved for",
        "an exclusive list makes every other issue a no; a genuine find elsewhere shows that the list is too short",
        R"([[mould.run.exclusive]]
to     = ["keeper-maren/by-post"]
source = ["order-book-1979 p. 6"]

# elsewhere, below the issue keeper-maren/painted-buttons
[[issue.pairing]]
run    = "signal-lantern/ring-top/brass"
source = ["sealed-examples-2019 #4"])",
        "add the issue to the list, or mark the weaker of the two statements with `disputed = true`"},
    CatalogueRow{Code::no_outfit, "no-outfit", warning, "an issue that is not said to take anything",
                 "a collector cannot tell a figure that was sold bare from one whose outfit nobody has entered, and "
                 "every question "
                 "about its parts stays open",
                 R"([[issue]]
id     = "painted-buttons"
packed = "1976-10/1979")",
                 "add [[issue.takes]] for each accessory, or `bare = true` if it was sold with none"},
    CatalogueRow{
        Code::unused_source, "unused-source", warning, "a source that nothing cites",
        "listed among the evidence, it suggests that something rests on it, and a reader looks for that in vain",
        R"([[source]]
id    = "tide-tables-1981"
title = "Tide tables, proof sheets"
kind  = "packaging")",
        "cite it in `source` of what it supports, or take it out"},
};

constexpr std::array chronology{
    CatalogueRow{
        Code::contradiction, "contradiction", error, "statements that cannot all be true",
        "from statements that exclude each other anything follows, so no date and no verdict near them can be trusted",
        R"([[period]]
id    = "first-voyage"
name  = "First voyage"
dates = "1976-01-01/1979-12-31"

[[period]]
id       = "second-voyage"
name     = "Second voyage"
dates    = "1978/1981"
replaces = "first-voyage"
clean    = true           # so it began after 1979-12-31)",
        "check the listed statements against their sources, the marked one first; correct the wrong one, or give it a "
        "[[timing]] of its own with `disputed = true`"},
    CatalogueRow{Code::impossible_interval, "impossible-interval", error, "a span that ends before it starts",
                 "nothing was made, used or packed in a time that never was, so every part or figure in it would be "
                 "judged wrongly",
                 R"([[mould]]
id   = "ring-top"
used = { start = "1979", end = "1978" })",
                 "exchange the two ends, or correct the wrong one"},
    CatalogueRow{
        Code::refuted_claim_possible, "refuted-claim-possible", warning, "a refuted claim that the evidence allows",
        "readers are told that the claim is wrong, but nothing entered here rules it out, so nobody can check why",
        R"([[claim]]
id       = "plain-top-came-first"
says     = "The first Keeper Maren carried the plain-topped lantern."
standing = "refuted"

[[claim.pairing]]
run   = "signal-lantern/plain-top/grey"  # nothing dates it late enough
issue = "keeper-maren/painted-buttons")",
        "enter the statement that rules it out, with its source, or call the claim `open`"},
    CatalogueRow{Code::supported_claim_impossible, "supported-claim-impossible", warning,
                 "a supported claim that the evidence rules out",
                 "readers are told to believe what the rest of the knowledge base disproves, and may pay for a part "
                 "that cannot be "
                 "right",
                 R"([[claim]]
id       = "plain-top-came-first"
says     = "The first Keeper Maren carried the plain-topped lantern."
standing = "supported"

[[claim.pairing]]
run   = "signal-lantern/plain-top/grey"  # first made a year too late
issue = "keeper-maren/painted-buttons")",
                 "call it `refuted`, or correct the statement that rules it out; `coeval belongs` prints the proof for "
                 "a pairing"},
    CatalogueRow{
        Code::open_claim_decided, "open-claim-decided", warning, "an open claim that the evidence decides",
        "collectors go on looking for an answer that is already here",
        R"([[claim]]
id       = "plain-top-came-first"
says     = "The first Keeper Maren carried the plain-topped lantern."
standing = "open"

[[claim.pairing]]
run   = "signal-lantern/plain-top/grey"  # first made a year too late
issue = "keeper-maren/painted-buttons")",
        "call it `supported` or `refuted`, as the evidence has it, and tell the reader in `why` what decides it"},
    CatalogueRow{
        Code::claim_now_proven, "claim-now-proven", note, "a supported claim that the evidence has come to prove",
        "it is good news: what was believed for its sources now follows from the rest, and readers may be told so",
        R"([[claim]]
id       = "ring-top-gone"
says     = "No ring top was moulded once the plain top had begun."
standing = "supported"            # proven = true

[[claim.timing]]
of     = "signal-lantern/ring-top"
this   = "end"
before = "signal-lantern/plain-top.start"  # which replaces it, clean = true)",
        "add `proven = true` to the claim; `coeval claims CLAIM` prints the proof"},
    CatalogueRow{
        Code::claim_not_proven, "claim-not-proven", warning, "a claim that says it is proven, and is not",
        "readers are told of a proof that nobody can follow, perhaps because a statement that it rested on was mended",
        R"([[claim]]
id       = "ring-top-gone"
says     = "No ring top was moulded once the plain top had begun."
standing = "supported"
proven   = true   # but the two moulds may have been in use together

[[claim.timing]]
of     = "signal-lantern/ring-top"
this   = "end"
before = "signal-lantern/plain-top.start")",
        "enter the statement that proves it, with its source, or drop `proven`; `coeval claims CLAIM` says what the "
        "evidence gives"},
};

} // namespace

std::span<const CatalogueRow> rows_of_links() { return links; }
std::span<const CatalogueRow> rows_of_rules() { return rules; }
std::span<const CatalogueRow> rows_of_chronology() { return chronology; }

} // namespace coeval
