#include <cstdio>

#include <fmt/format.h>

#include "commands/command.hpp"
#include "diagnose/near.hpp"
#include "links/find.hpp"

namespace coeval {

void print(std::string_view text) { std::fwrite(text.data(), 1, text.size(), stdout); }
void print_error(std::string_view text) { std::fwrite(text.data(), 1, text.size(), stderr); }

std::optional<std::filesystem::path> find_kb(const Settings& settings) {
  if (!settings.kb.empty()) return std::filesystem::path{settings.kb};
  std::error_code error;
  std::filesystem::path folder = std::filesystem::current_path(error);
  while (!error && !folder.empty()) {
    if (std::filesystem::is_directory(folder / "kb", error)) return folder / "kb";
    if (folder == folder.root_path()) break;
    folder = folder.parent_path();
    error.clear();
  }
  print_error("coeval: there is no folder `kb` here or above; say where the knowledge base is with --kb DIR\n");
  return {};
}

Session::Session(const Settings& settings) : settings_(settings) {
  const auto root = find_kb(settings);
  if (!root) {
    exit = exit_usage;
    return;
  }
  compiled_ = compile(*root, Depth::to_answer);
  if (!compiled_.has_errors) return;
  exit = compiled_.world_failed ? exit_world : exit_no;
  std::vector<Diagnostic> errors;
  for (Diagnostic& diagnostic : compiled_.diagnostics)
    if (row(diagnostic.code).severity == Severity::error) errors.push_back(std::move(diagnostic));
  print_error(render_text(errors, compiled_.sources, settings.err));
  print_error("coeval: no answer: the knowledge base must be without errors first\n");
}

std::optional<EntryIndex> Session::find(std::string_view text, const std::vector<Kind>& kinds) const {
  Found found = find_entry(kb(), text, kinds);
  if (found.matches.size() == 1) return found.matches.front();
  std::vector<std::string_view> names;
  for (const Kind kind : kinds) names.push_back(spec_of(kind).name);
  std::string wanted;
  for (std::size_t i = 0; i < names.size(); ++i)
    wanted += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + std::string{names[i]};
  std::string message;
  const auto candidates = [&](const std::vector<EntryIndex>& entries) {
    constexpr std::size_t most = 12;
    for (std::size_t i = 0; i < entries.size() && i < most; ++i)
      message += fmt::format("  {}\n", kb().address(entries[i]));
    if (entries.size() > most) message += fmt::format("  and {} more\n", entries.size() - most);
  };
  const std::string shown = printable(text.substr(0, 200));
  if (found.matches.size() > 1) {
    message =
        fmt::format("coeval: `{}` could be {} of these; write more of the address\n", shown, found.matches.size());
    candidates(found.matches);
  } else if (!found.near.empty()) {
    message = fmt::format("coeval: there is no {} `{}`; did you mean one of these?\n", wanted, shown);
    for (const std::string& near : found.near) message += fmt::format("  {}\n", near);
  } else if (!found.other.empty()) {
    message = fmt::format("coeval: `{}` is {}, and this takes {}\n", shown,
                          with_article(spec_of(kb().entries[found.other.front()].kind).name), with_article(wanted));
    candidates(found.other);
  } else {
    message = fmt::format("coeval: there is no {} `{}`; `coeval list {}` shows what there is\n", wanted, shown,
                          names.front());
  }
  print_error(message);
  return {};
}

int exit_of(const std::vector<Judgement>& judgements) {
  int result = exit_no;
  for (const Judgement& judgement : judgements) {
    if (judgement.verdict <= Verdict::fits) return exit_yes;
    if (judgement.verdict == Verdict::open) result = exit_open;
  }
  return result;
}

} // namespace coeval
