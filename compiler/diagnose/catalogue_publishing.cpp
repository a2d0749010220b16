// What can be wrong with the folder that a site is published to?
#include <array>

#include "diagnose/catalogue_rows.hpp"

namespace coeval {
namespace {

using enum Severity;

constexpr std::array publishing{
    CatalogueRow{
        Code::unwritable_folder, "unwritable-folder", error, "a folder that cannot be published to",
        "nothing was published; readers still see the site as it was before",
        R"($ coeval publish --to line.toml
error[unwritable-folder] line.toml
  this is not a folder)",
        "allow writing to the folder and to everything in it that was published before, or publish to another"},
    CatalogueRow{Code::disk_full, "disk-full", error, "no room for the site",
                 "a page that is cut off would say less than is known, so none of the new ones is shown; readers still "
                 "see the site as it was before",
                 R"($ df -h site
Filesystem      Size  Used Avail Use%
tmpfs           2.0G  2.0G     0 100%)",
                 "make room and publish again: a site needs twice the room of what has changed while it is published"},
    CatalogueRow{Code::folder_locked, "folder-locked", error, "a folder that another publish is working on",
                 "two at a time would mix pages of one version with pages of another",
                 R"($ coeval publish --to site & coeval publish --to site
error[folder-locked] site
  another publish is working on this folder)",
                 "wait until the other has ended; the lock ends with its program, even if that was killed"},
    CatalogueRow{Code::foreign_file, "foreign-file", error, "a file of somebody else where a page must go",
                 "it may exist nowhere else, so it is not replaced, and a site without that page would have dead links",
                 R"($ ls site
index.html                # written by hand, years ago)",
                 "move the file out of the folder, or publish to a folder of its own"},
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
};

} // namespace

std::span<const CatalogueRow> rows_of_publishing() { return publishing; }

} // namespace coeval
