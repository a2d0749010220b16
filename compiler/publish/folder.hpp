// publish/folder.hpp: how does a set of files get into a folder, whole or not at all?
//
//   std::optional<OutputFolder> folder = OutputFolder::open("site", out);
//   folder->write("index.html", bytes, out); // once for each file, from as many threads as wanted
//   const std::optional<PublishCounts> counts = folder->finish(out);
//
// What is promised:
// - Until `finish`, nothing in the folder changes but one hidden folder, `.coeval-staging`, where changed files wait.
//   A publish that ends before that (an error, a full disk, a kill) leaves the old site as it was.
// - `finish` first writes down what it is about to do, then lets new files appear, then replaces changed ones, then
//   removes stale ones, each by one rename or unlink. Whenever it is stopped, every file is whole, the old one or the
//   new one, and nobody who follows links from page to page comes to one that is missing. The next publish puts the
//   rest right. (Where a file must become a folder, or a folder a file, the old one goes first.)
// - One publish at a time: a second `open` of the folder is refused while the first lives.
// - Whose is a file? Ours is what the manifest of an earlier publish lists, and what has the very bytes that we would
//   write. Everything else is foreign: never touched, never removed, and an error where a file of ours must go.
// - A file of ours that somebody has edited is written anew, with a warning that names it: the folder shows what the
//   knowledge base says, and an edit here would be lost anyway the next time its page changes. If nothing replaces it,
//   it stays, with a warning too, and is foreign from then on.
//   (Where a publish was killed, what somebody then puts exactly where a page was to appear counts as such an edit.)
// - What has not changed is not written: its inode and modification time stay, for caches and for copying the site on.
// - No symbolic link inside the folder is followed. (The folder itself may be one.)
// - Who makes a file can tell what it is made from. While that stays the same, and the file lies there as it was left,
//   it need not be made again: `keep`.
// - Files get the permissions that the umask leaves them.
//
// Not promised: that a power failure loses nothing. Pages that were new may then be empty on some file systems; the
// next publish sees that and writes them again.
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "diagnose/diagnostic.hpp"
#include "publish/hash.hpp"
#include "publish/path.hpp"
#include "publish/recipes.hpp"

namespace coeval {

// A file of the site. The path is relative to the folder, with '/' between its parts.
struct OutputFile {
  std::string path;
  std::string bytes;
};

struct PublishCounts {
  std::size_t written = 0;   // new or changed
  std::size_t unchanged = 0; // there already, with these bytes
  std::size_t removed = 0;   // stale: written by an earlier publish, and no longer part of the site
};

class OutputFolder {
public:
  // Creates the folder where it is missing, locks it and reads the manifest. Reports a folder that is none, that cannot
  // be written to, or that another publish is working on; and, as a warning, a manifest that cannot be believed: then
  // no file counts as ours.
  [[nodiscard]] static std::optional<OutputFolder> open(const std::filesystem::path& folder, Diagnostics& out);

  // Files on their way that were not finished are dropped.
  ~OutputFolder();
  OutputFolder(OutputFolder&&) noexcept;
  OutputFolder& operator=(OutputFolder&&) noexcept;

  // How many files there are, where the folder is as an earlier publish left it, by size and modification time, and
  // that publish wrote these very bytes under `path`; nothing else. Whoever writes there what the site was made from
  // need not make it again.
  [[nodiscard]] std::optional<std::size_t> still_holds(std::string_view path, std::string_view bytes) const;

  // Whether the file that an earlier publish wrote under `path` was made from the same, by one recipe or the other, and
  // is as it was left, by size and modification time: then it counts as written, and its content is told. Else it is to
  // be made and written, or asked for with the other recipe too. May be called from several threads.
  [[nodiscard]] std::optional<ContentHash> keep(std::string_view path, const FileRecipe& recipe);

  // What lies now where an earlier publish wrote `path`, whoever has changed it since; empty where there is nothing, or
  // it cannot be read. To save work: what it is must be known by its content.
  [[nodiscard]] std::string earlier(std::string_view path) const;
  // What the last publish left with `remember` for this one; empty where there is nothing, or it cannot be read.
  [[nodiscard]] std::string remembered() const;
  // Leaves bytes for the next publish, to save work: they are lost where anything fails. Once, before `finish`.
  void remember(std::string bytes);

  // May be called from several threads, with one `out` or several. False where the file cannot be published, and then
  // `finish` will publish nothing; go on all the same, so that everything that is in the way gets reported at once.
  // Throws std::logic_error for a path that is not one (is_output_path), or that was written before. `recipe` is
  // for `keep`.
  bool write(std::string_view path, std::string_view bytes, Diagnostics& out, const FileRecipe& recipe = {});

  // To be called once, after every `write`. Nothing where a write failed or the world fails now; a report says why.
  [[nodiscard]] std::optional<PublishCounts> finish(Diagnostics& out);

private:
  class Publish;
  explicit OutputFolder(std::unique_ptr<Publish> publish);
  std::unique_ptr<Publish> publish_;
};

} // namespace coeval
