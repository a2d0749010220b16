// What changed between two versions of the knowledge base.
#include "cli/command_line.hpp"

namespace coeval {

void add_version_commands(CommandLine& line) {
  const auto [drift, typed] = line.add_with<DriftSettings>(
      "drift", "what changed between two versions, and which edits changed it?", run_drift);
  drift.add_option("OLD", typed.from, "a folder, or a revision of git such as HEAD~1")->required();
  drift.add_option("NEW", typed.to, "likewise; the knowledge base as it is unless said");
  drift.add_flag("--markdown", typed.markdown, "write it as a comment for a review");
}

} // namespace coeval
