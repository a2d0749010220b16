// What can be wrong with the place that a site or an export is written to, and with an export that is read?
#include <array>

#include "diagnose/catalogue_rows.hpp"

namespace coeval {
namespace {

using enum Severity;

constexpr std::array publishing{
    CatalogueRow{Code::unwritable_folder, "unwritable-folder", error, "a place that cannot be written to",
                 "nothing was written; readers still see what was there before",
                 R"($ coeval publish --to line.toml
error[unwritable-folder] line.toml
  this is not a folder)",
                 "allow writing to the folder and to everything in it that was written before, or choose another"},
    CatalogueRow{Code::disk_full, "disk-full", error, "no room for the files",
                 "a page that is cut off would say less than is known, so none of the new ones is shown; readers still "
                 "see the site as it was before",
                 R"($ df -h site
Filesystem      Size  Used Avail Use%
tmpfs           2.0G  2.0G     0 100%)",
                 "make room and try again: twice the room of what has changed is needed while it is written"},
    CatalogueRow{Code::folder_locked, "folder-locked", error, "a folder that another program is writing to",
                 "two at a time would mix pages of one version with pages of another",
                 R"($ coeval publish --to site & coeval publish --to site
error[folder-locked] site
  another program is writing to this folder)",
                 "wait until the other has ended; the lock ends with its program, even if that was killed"},
    CatalogueRow{Code::file_in_use, "file-in-use", error, "a file that something else writes at the same time",
                 "one of the two would end what the other had just written, so it stays as the other leaves it",
                 R"($ coeval parcel fair-in-may arrived & coeval parcel fair-in-june arrived
error[file-in-use] shelf.toml
  another program is writing this file)",
                 "wait until the other has ended, save what an editor has open, then do the same again"},
    CatalogueRow{Code::foreign_file, "foreign-file", error, "a file of somebody else where one of ours must go",
                 "it may exist nowhere else, so it is not replaced; a site without the page that must go there would "
                 "have dead links",
                 R"($ ls site
index.html                # written by hand, years ago)",
                 "move the file elsewhere, choose another name or folder or, for an export, say --replace"},
    CatalogueRow{
        Code::edited_file, "edited-file", warning, "a published file that was edited in its place",
        "the edit is not in the knowledge base, so nobody can check it, and the next publish of that page ends it",
        R"($ sed -i 's/1976/1977/' site/figures/keeper-maren.html
$ coeval publish --to site
warning[edited-file] site/figures/keeper-maren.html)",
        "make the change in the entry or in the template that the page comes from, and publish again"},
    CatalogueRow{Code::broken_manifest, "broken-manifest", warning, "a damaged list of published files",
                 "without it nobody can tell which files of the folder an earlier publish wrote: pages that no longer "
                 "belong to the site stay, and pages that have changed seem to be in the way",
                 R"($ head -n 2 site/.coeval-manifest
coeval-manifest 1
<<<<<<< ours)",
                 "publish to an empty folder, or delete what was published before, .coeval-manifest too"},
    CatalogueRow{
        Code::broken_json, "broken-json", error, "a JSON file that is not an export of a knowledge base",
        "what is not understood in full could only be taken over in part, and nobody would see what is missing",
        R"($ coeval import other.json --to kb
{"format": "somebody-elses", "entries": []})",
        "export it again with `coeval export --to kb.json`; `coeval schema export` says what may stand where"},
};

} // namespace

std::span<const CatalogueRow> rows_of_publishing() { return publishing; }

} // namespace coeval
