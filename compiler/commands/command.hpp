// commands/command.hpp: what do all commands share?
//
// A command compiles the knowledge base, asks one question and prints the answer on standard output; trouble goes to
// standard error. It returns the exit code of the program.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/render.hpp"
#include "pipeline.hpp"
#include "report/answers.hpp"

namespace coeval {

// Exit codes. A shell script can tell a no from an open question, and both from a failure.
inline constexpr int exit_yes = 0;   // yes, or nothing wrong
inline constexpr int exit_no = 1;    // no, or the knowledge base has errors
inline constexpr int exit_usage = 2; // the question was not understood
inline constexpr int exit_open = 3;  // neither yes nor no
inline constexpr int exit_world = 4; // a file, folder or disk failed
inline constexpr int exit_bug = 70;  // a mistake of this program's

enum class Format : std::uint8_t { text, json, sarif };

struct Settings {
  std::string kb; // as given; empty: look for one here and above
  Format format = Format::text;
  Basis weakest = Basis::conjectured;
  TextStyle out;
  TextStyle err;
};

// A knowledge base without errors, ready for questions.
class Session {
public:
  // Compiles and prints errors; `exit` is set, and nothing else may be asked, where that fails.
  explicit Session(const Settings& settings, Depth depth = Depth::to_answer);
  std::optional<int> exit;

  [[nodiscard]] const Compiled& compiled() const { return compiled_; }
  [[nodiscard]] const LinkedKb& kb() const { return *compiled_.kb; }
  [[nodiscard]] const Chronology& dates() const { return *compiled_.dates; }
  [[nodiscard]] const SourceSet& sources() const { return compiled_.sources; }
  [[nodiscard]] ReportInput report() const { return {kb(), sources(), settings_.weakest}; }

  // The entry of one of the kinds that the user means. Where there is none, or more than one, says so with the
  // candidates on standard error and returns nothing: exit with `exit_usage`.
  [[nodiscard]] std::optional<EntryIndex> find(std::string_view text, const std::vector<Kind>& kinds) const;

  // The ends that ADDRESS.start or ADDRESS.end means, or both of ADDRESS; else the same as above.
  [[nodiscard]] std::optional<std::vector<SpanPoint>> find_ends(std::string_view text) const;

private:
  const Settings& settings_;
  Compiled compiled_;
};

// The folder of the knowledge base: as given, else `kb` in this folder or the nearest one above. Nothing where there is
// none, and then standard error says so.
[[nodiscard]] std::optional<std::filesystem::path> find_kb(const Settings& settings);

void print(std::string_view text);       // to standard output
void print_error(std::string_view text); // to standard error

// The best exit code for a list of verdicts: yes if any belongs, else open if any is open, else no.
[[nodiscard]] int exit_of(const std::vector<Judgement>& judgements);

struct PublishSettings {
  std::string to;                 // the folder
  std::string templates;          // a folder; empty: the built-in template
  std::string base_url;           // as given
  std::vector<std::string> since; // folders or revisions of git: what changed since each of them is published too
};
struct DriftSettings {
  std::string from; // a folder or a revision of git
  std::string to;   // likewise; empty: the knowledge base as it is
  bool markdown = false;
};
struct PreviewSettings {
  std::string templates;
  int port = 0; // 0: any that is free
};

// An http(s) address of a folder, with the slash at its end; nothing where it is none. Empty stays empty.
[[nodiscard]] std::optional<std::string> checked_base_url(const std::string& text);

int run_check(const Settings& settings);
int run_belongs(const Settings& settings, const std::string& part, const std::string& issue, bool every_ground);
int run_outfit(const Settings& settings, const std::string& issue);
int run_homes(const Settings& settings, const std::string& part);
int run_why(const Settings& settings, const std::string& point);
int run_drift(const Settings& settings, const DriftSettings& drift);
// Nothing for `top`: ten in a text, all in JSON.
int run_agenda(const Settings& settings, const std::string& point, std::optional<std::size_t> top);
int run_claims(const Settings& settings, const std::string& claim);
int run_disputes(const Settings& settings, bool everything);
int run_list(const Settings& settings, const std::string& kind, bool only_addresses);
int run_schema(const std::string& of);
int run_marks(const Settings& settings, const std::string& kind);
int run_dated(const Settings& settings, const std::vector<std::string>& marks);
int run_explain(const Settings& settings, const std::string& code);
int run_publish(const Settings& settings, const PublishSettings& publish);
int run_preview(const Settings& settings, const PreviewSettings& preview);
int run_completions(const std::string& shell);

} // namespace coeval
