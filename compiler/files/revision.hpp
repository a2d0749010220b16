// files/revision.hpp: what did a knowledge base look like at a revision of git?
//
// Read by the program git, from its objects: the working tree is neither used nor touched, nothing that the repository
// could name is run (no filter, hook, pager or helper), and nothing is fetched. The files are those that load.hpp would
// find, except that links are passed over.
#pragma once

#include <optional>
#include <string>

#include "files/load.hpp"

namespace coeval {

struct Revision {
  LoadResult loaded;  // its root is named REVISION:FOLDER, and cannot be opened
  std::string commit; // its hash in hexadecimal
  std::string day;    // ISO 8601: the day on which it was committed, where the committer was
};

// `folder`: the knowledge base in a working tree. `name`: whatever names one commit, as in `git rev-parse`. One that
// could be taken for an option, or that holds blanks or control characters, is refused. Nothing is given where git is
// missing or does not know the revision or the folder in it; what is wrong is reported.
[[nodiscard]] std::optional<Revision> load_revision(const std::filesystem::path& folder, const std::string& name,
                                                    Diagnostics& out, const LoadLimits& limits = {});

} // namespace coeval
