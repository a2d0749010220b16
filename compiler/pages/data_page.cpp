// The page of the data: every file that other programs can read, and how each is written.
#include <fmt/format.h>

#include "export/export.hpp"
#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

Text code_and(std::string code, std::string rest) { return {{std::move(code), {}, true}, plain(std::move(rest))}; }

void add_files(const Site& site, Page& page) {
  List list{{{"Everything", "everything", {}}, {"CSV", "csv", {}}, {"Graphs", "graphs", {}}}};
  for (const ExportFile& file : exported_files(site.kb()))
    list.groups[file.type == "text/csv"          ? 1
                : file.type == "application/xml" ? 2
                                                 : 0]
        .items.push_back({{{file.path, file.path, true}}, {plain(file.holds)}});
  add_section(page, "files", "Files", {std::move(list)}, "files");
  List written{{{}}};
  for (const SourceFile& file : site.sources().files)
    written.groups.front().items.push_back({{{file.path(), path_of_file(file.path()), true}}, {}});
  if (!written.groups.front().items.empty())
    add_section(page, "files", "The entries as they are written, in TOML",
                {Paragraphs{{{plain("Every statement on these pages names its line in one of these files.")}}},
                 std::move(written)},
                "toml");
}

void add_readme(Page& page) {
  add_section(page, "more", "How the JSON is written",
              {List{{{{},
                      {},
                      {{code_and("format, version", " are coeval-kb and 2"),
                        {plain("the version changes when a reader of the old one could be misled")}},
                       {code_and("entries", " is a list in the order of files and lines"), {}},
                       {code_and("kind, address, parent, file, line", " say what and where an entry is"), {}},
                       {code_and("fields", " are the keys of its table"),
                        {plain("dates with what was written and the days that it allows; a picture's path counts from "
                               "the root of the knowledge base")}},
                       {code_and("evidence", " is its basis, its sources and whether it is disputed"), {}},
                       {code_and("span", " gives the days that follow from all statements"),
                        {plain("for each end the earliest and the latest, on each basis or stronger")}}}}}}},
              "json-format");
  add_section(
      page, "more", "How the database is written",
      {Paragraphs{{{plain("A file of SQLite 3. Its own schema tells what each table and column holds; the columns "
                          "are the keys of the language, with an underscore for a hyphen, and addresses are "
                          "the keys between tables. The views outfit and homes list the verdicts, the best "
                          "first; the table search finds words in names and texts.")}}}},
      "sqlite-format");
  add_section(
      page, "more", "How the CSV is written",
      {Paragraphs{
          {{plain("RFC 4180 in UTF-8: a head row, CRLF after every row, quotes where a cell needs them. Lists are "
                  "parted by \"; \". Dates and durations stand as they were written; start-earliest, start-latest, "
                  "end-earliest and end-latest are the days that follow from all statements together.")},
           {plain("Spreadsheets take a cell that begins with = + - @, a tab or a carriage return for a formula. Such a "
                  "cell, unless it is a number, has an apostrophe in front, and so has one that begins with an "
                  "apostrophe itself: a program that reads these files drops a leading apostrophe wherever there is "
                  "one.")}}}},
      "csv-format");
}

} // namespace

void build_data(const Site& site, const PlannedPage&, Page& page) {
  page.title = "Data";
  page.eyebrow = "For other programs";
  page.summary =
      "Everything in this reference as SQLite, JSON, linked data, CSV and graphs, and the entries as they are written.";
  add_section(
      page, "intro", {},
      {Paragraphs{{{plain("Everything that these pages are made from, for programs and spreadsheets. What a key "
                          "means is told on the page of "),
                    {"the language", "schema.html", false},
                    plain(", and what a verdict means on that of "),
                    {"the verdicts", "verdicts.html", false},
                    plain(".")}}}});
  add_files(site, page);
  add_readme(page);
}

} // namespace coeval
