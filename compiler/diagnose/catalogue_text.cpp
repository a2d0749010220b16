// What can be wrong with files, and with the text of one entry on its own?
#include <array>

#include "diagnose/catalogue_rows.hpp"

namespace coeval {
namespace {

using enum Severity;

constexpr std::array world{
    CatalogueRow{
        Code::unreadable_file, "unreadable-file", error, "a file cannot be read",
        "what it says is unknown, so nothing can be concluded from what seems to be missing: a run that this file "
        "attests "
        "would look as though nobody had ever found it",
        R"($ ls -l kb/figures
---------- 1 curator curator 1184 keeper-maren.toml)",
        "allow reading the file, mend the link that leads nowhere, or move what is no entry out of the knowledge base"},
    CatalogueRow{
        Code::unreadable_folder, "unreadable-folder", error, "a folder cannot be listed",
        "every entry below it is missing, and answers without those entries would be wrong, or open for no reason",
        R"($ coeval check saltmeer
error[unreadable-folder] saltmeer
  there is no such folder)",
        "check the spelling of the path, and allow listing the folder"},
    CatalogueRow{
        Code::no_entries, "no-entries", error, "a knowledge base without a TOML file",
        "nothing can be answered from nothing; most often the path leads to the wrong folder",
        R"($ coeval check saltmere/drawings
error[no-entries] saltmere/drawings
  no file here ends in .toml)",
        "give the folder that holds the entries, or write the first one: a file with [figure] or [accessory] in it"},
    CatalogueRow{
        Code::file_too_large, "file-too-large", error, "a file of more than 4 MiB, or a picture of more than 8",
        "an entry is a page or two of text; a file this large is most likely a picture or an export under a "
        "wrong name, and would hold up everybody who checks the knowledge base; a large picture holds up its "
        "readers",
        R"($ ls -lh kb/accessories
-rw-r--r-- 1 curator curator 38M signal-lantern.toml)",
        "give each figure and each accessory a file of its own, end only the names of entries in .toml, and save "
        "pictures no larger than they are shown"},
    CatalogueRow{Code::too_many_files, "too-many-files", error, "more than 500000 files and folders",
                 "the path most likely takes in more than one knowledge base, and reading it all would mix up what "
                 "does not belong "
                 "together",
                 R"($ coeval check ..
error[too-many-files] ..
  there are more than 500000 files and folders here, so none was read)",
                 "give the folder of the knowledge base itself, or move what is not part of it elsewhere"},
    CatalogueRow{
        Code::link_leaves_kb, "link-leaves-kb", error, "a link that leads out of the knowledge base",
        "whoever copies the knowledge base would not get what the link leads to, and a link in somebody else's "
        "contribution could put a private file on a public page",
        R"($ ls -l kb/sources
letters.toml -> ../../private/letters.toml)",
        "replace the link by the file, or let it lead to something inside the knowledge base"},
    CatalogueRow{
        Code::unreadable_revision, "unreadable-revision", error, "a revision of git that cannot be read",
        "what changed since then cannot be told; answers are not affected, since they come from the folder as it is",
        R"($ coeval drift HAED~1
error[unreadable-revision] HAED~1
  git knows no such revision here, and there is no such folder)",
        "name a commit of the repository that holds the knowledge base (`git log` lists them), or give two folders"},
};

constexpr std::array text{
    CatalogueRow{
        Code::broken_utf8, "broken-utf8", error, "text that is not UTF-8",
        "in another encoding a name would be shown with other letters than the curator wrote, and an id or a citation "
        "would no longer match its twin",
        R"([figure]
id   = "keeper-maren"
name = "Keeper Mar<E9>n"  # the one byte E9, as older programs write é)",
        "save the file as UTF-8; most editors ask for the encoding when saving under a new name"},
    CatalogueRow{Code::broken_toml, "broken-toml", error, "a file that is not TOML 1.0",
                 "reading stops at the mistake, so every entry of the file is missing until it is mended",
                 R"([figure]
id   = "keeper-maren"
name = Keeper Maren       # text stands in quotes)",
                 "mend the marked place; further mistakes in the file show after that"},
    CatalogueRow{Code::unknown_table, "unknown-table", error, "a table that does not exist",
                 "a table under a misspelt name would be passed over in silence, with every statement in it",
                 R"([acessory]                # accessory
id   = "signal-lantern"
name = "Signal lantern"
slot = "hand")",
                 "correct the name; a key that stands above every table goes below the one that it describes"},
    CatalogueRow{
        Code::unknown_key, "unknown-key", error, "a key that its table does not have",
        "a misspelt key would be passed over in silence: a date under `uesd` dates nothing, and questions that the "
        "curator had settled would stay open",
        R"([[mould]]
id   = "ring-top"
uesd = "1976-08/1979-06"  # used)",
        "correct the key, or move it to the table that has it; what fits no key goes into `notes`"},
    CatalogueRow{Code::missing_key, "missing-key", error, "a table without a key that it needs",
                 "without its id nothing can refer to an entry, without its name no reader recognises it, and an "
                 "accessory without "
                 "a slot has no place on any figure",
                 R"([[mould]]                 # id is missing
name = "Ring top")",
                 "add the key; choose an id that can stay, since others will refer to it"},
    CatalogueRow{
        Code::wrong_type, "wrong-type", error, "a value of the wrong type",
        "a date without quotes or a list without brackets is something else to TOML, and guessing what was meant could "
        "date a part wrongly",
        R"([[mould]]
id   = "ring-top"
used = 1976               # "1976")",
        "write text, dates and ids in quotes, lists in brackets, true and false without quotes, and tables that can "
        "occur "
        "several times as [[table]]"},
    CatalogueRow{Code::wrong_value, "wrong-value", error, "a word that its key does not take",
                 "words such as a basis or a standing decide how far a statement is believed, so only those with a "
                 "meaning count",
                 R"([[mould]]
id     = "ring-top"
used   = "1976-08/1979-06"
basis  = "certain"        # documented, observed, reported or conjectured
source = ["trade-catalogue-1977 p. 14"])",
                 "choose one of the words offered, and put finer shades into `notes`"},
    CatalogueRow{
        Code::misplaced_table, "misplaced-table", error, "a table in a file without its parent",
        "a mould belongs to the accessory of its file and an issue to its figure; alone it is a mould of nothing",
        R"(# a file without [accessory]
[[mould]]
id = "ring-top")",
        "move the table into the file of its accessory or figure, or begin the file with that table"},
    CatalogueRow{Code::empty_text, "empty-text", warning, "a text or list that says nothing",
                 "it looks as though something had been recorded there and got lost",
                 R"([figure]
id    = "keeper-maren"
name  = "Keeper Maren"
notes = "")",
                 "write what should stand there, or take the key out"},
    CatalogueRow{
        Code::broken_id, "broken-id", error, "an id with other characters than a-z, 0-9 and hyphens",
        "ids stand in addresses, links and file names, where capitals, spaces and accents get lost or confused",
        R"([figure]
id   = "Keeper Maren"     # keeper-maren
name = "Keeper Maren")",
        "write it in lower case with hyphens between the words, at most 80 characters; the proper spelling is for "
        "`name`"},
    CatalogueRow{
        Code::broken_address, "broken-address", error, "an address that is not made of ids",
        "a reference that cannot be read refers to nothing: the statement loses its date, its part or its source",
        R"([[mould]]
id       = "plain-top"
replaces = "Ring Top"     # ring-top)",
        "join ids with `/`, as in `signal-lantern/ring-top/brass`; end a point in time with `.start` or `.end`; begin "
        "a "
        "citation with the id of its source"},
    CatalogueRow{Code::broken_date, "broken-date", error, "a date that is not EDTF",
                 "dates decide whether a part can belong with a figure, so they are read by one standard, the Extended "
                 "Date/Time "
                 "Format of ISO 8601-2, and never guessed",
                 R"([[mould]]
id   = "ring-top"
used = "Aug 1976 to about 1979"  # 1976-08/1979~)",
                 "write the year first: `1979`, `1979-06`, `1979-06-30`; `1979~` is about then, `1979?` is doubtful, "
                 "`1976/1979` is "
                 "from and until, `[1978..1979]` is some day in between"},
    CatalogueRow{
        Code::broken_duration, "broken-duration", error, "a duration that is not ISO 8601",
        "how long stock was kept or how far two events lay apart moves bounds by days, and words for it can be read in "
        "several ways",
        R"([line.leftover]
at-most = "9 months"      # P9M)",
        "write P and then numbers with Y, M, W or D, as in `P9M`, `P1Y6M` or `P10D`; nothing shorter than a day"},
    CatalogueRow{Code::broken_url, "broken-url", error, "a web address that is not http or https",
                 "readers will follow it, so it must lead to a page, and never run a script or open a file of theirs",
                 R"([[source]]
id    = "press-log"
title = "Press log"
kind  = "factory-record"
url   = "saltmere.example/press-log"  # https:// is missing)",
                 "give the whole address from https:// or http:// on, with spaces percent-encoded; for a place that is "
                 "not on the "
                 "web use `held-by`"},
    CatalogueRow{Code::broken_country, "broken-country", error, "a country code that ISO 3166 does not have",
                 "markets are compared by code, so one country written in two ways would look like two markets",
                 R"([[issue]]
id     = "painted-buttons"
market = ["uk", "ie"]     # gb)",
                 "use the two letters of ISO 3166-1 in lower case, or the four of ISO 3166-3 for a country that is no "
                 "more, such as "
                 "`ddde`"},
    CatalogueRow{
        Code::broken_colour, "broken-colour", error, "a colour that is not three CIELAB numbers",
        "colours of runs are told apart by measured numbers; with a wrong one an original can look like a reproduction",
        R"([[mould.run]]
id     = "brass"
colour = { name = "brass yellow", lab = [72.1, 6.0] }  # b* is missing)",
        "give L* from 0 to 100, then a* and b*, measured for D65 and 2 degrees; where nothing was measured, leave "
        "`lab` "
        "out"},
};

} // namespace

std::span<const CatalogueRow> rows_of_the_world() { return world; }
std::span<const CatalogueRow> rows_of_text() { return text; }

} // namespace coeval
