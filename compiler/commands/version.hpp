// commands/version.hpp: which version of the knowledge base does the user mean?
#pragma once

#include "commands/command.hpp"
#include "drift/version.hpp"

namespace coeval {

// A folder, or a revision of git, compiled.
class NamedVersion {
public:
  // `text`: a folder where there is one of that name, else a revision of the repository that holds the knowledge base;
  // empty: the knowledge base as it is. What keeps it from being compared (every error but contradictions) is printed,
  // and `exit` is set: `exit_usage`, or `exit_world` where it could not be read.
  NamedVersion(const Settings& settings, const std::string& text);
  std::optional<int> exit;

  [[nodiscard]] const std::string& name() const { return name_; }
  // The same for strangers: of a folder only its own name, of a revision the start of its hash.
  [[nodiscard]] std::string public_name() const;
  [[nodiscard]] const std::string& commit() const { return commit_; } // of a revision; else empty
  [[nodiscard]] const std::string& day() const { return day_; }       // of a revision: ISO 8601; else empty
  [[nodiscard]] const Compiled& compiled() const { return compiled_; }
  [[nodiscard]] Version version() const { return {*compiled_.kb, *compiled_.dates, compiled_.sources}; }

private:
  void read(const Settings& settings, const std::string& text);
  void stop_at_errors(const Settings& settings);

  std::string name_;
  std::string commit_;
  std::string day_;
  Compiled compiled_;
};

} // namespace coeval
