#include <algorithm>
#include <cstdio>

#include <fmt/format.h>

#include "commands/command.hpp"
#include "diagnose/near.hpp"
#include "links/find.hpp"

namespace coeval {
namespace {

// The entries of the kinds that belong to one of the given entries, in the order of their addresses: the issues of a
// figure.
std::vector<EntryIndex> entries_below(const LinkedKb& kb, const std::vector<EntryIndex>& parents,
                                      const std::vector<Kind>& kinds) {
  std::vector<bool> within(kb.entries.entries.size(), false); // a parent comes before its children
  for (const EntryIndex parent : parents) within[at(parent)] = true;
  std::vector<EntryIndex> below;
  for (std::size_t i = 0; i < within.size(); ++i) {
    const EntryIndex entry{static_cast<std::uint32_t>(i)};
    const EntryIndex parent = kb.entries[entry].parent;
    if (parent == no_entry || !within[at(parent)]) continue;
    within[i] = true;
    if (!kb.address(entry).empty() && std::ranges::find(kinds, kb.entries[entry].kind) != kinds.end())
      below.push_back(entry);
  }
  std::ranges::sort(below, {}, [&](EntryIndex entry) { return kb.address(entry); });
  return below;
}

} // namespace

void print(std::string_view text) { std::fwrite(text.data(), 1, text.size(), stdout); }
void print_error(std::string_view text) { std::fwrite(text.data(), 1, text.size(), stderr); }

std::optional<std::filesystem::path> find_kb(const Settings& settings) {
  if (!settings.kb.empty()) return std::filesystem::path{settings.kb};
  // Relative to this folder, as somebody would type it: kb, ../kb, ../../kb …
  std::error_code error;
  std::filesystem::path up;
  std::filesystem::path folder = std::filesystem::current_path(error);
  while (!error && !folder.empty()) {
    if (std::filesystem::is_directory(folder / "kb", error)) return up / "kb";
    if (folder == folder.root_path()) break;
    folder = folder.parent_path();
    up /= "..";
    error.clear();
  }
  print_error("coeval: there is no folder `kb` here or above; say where the knowledge base is with --kb DIR\n");
  return {};
}

Session::Session(const Settings& settings, Depth depth) : settings_(settings) {
  const auto root = find_kb(settings);
  if (!root) {
    exit = exit_usage;
    return;
  }
  compiled_ = compile(*root, depth);
  if (!compiled_.has_errors) return;
  exit = compiled_.world_failed ? exit_world : exit_no;
  std::vector<Diagnostic> errors;
  for (Diagnostic& diagnostic : compiled_.diagnostics)
    if (row(diagnostic.code).severity == Severity::error) errors.push_back(std::move(diagnostic));
  if (settings.format == Format::json)
    print(render_json(errors, compiled_.sources)); // instead of the answer
  else
    print_error(render_text(errors, compiled_.sources, settings.err));
  print_error("coeval: no answer: the knowledge base must be without errors first\n");
}

std::optional<EntryIndex> Session::find(std::string_view text, const std::vector<Kind>& kinds) const {
  Found found = find_entry(kb(), text, kinds);
  if (found.matches.size() == 1) return found.matches.front();
  std::string wanted;
  for (std::size_t i = 0; i < kinds.size(); ++i)
    wanted += (i == 0 ? "" : i + 1 == kinds.size() ? " or " : ", ") + std::string{spec_of(kinds[i]).name};
  const std::string list =
      kinds.size() == 1 ? fmt::format("`coeval list {}`", spec_of(kinds.front()).name) : std::string{"`coeval list`"};
  constexpr std::size_t most = 200; // bytes of what was asked for
  const std::string shown = printable(text.substr(0, most)) + (text.size() > most ? "…" : "");

  std::string message;
  const auto candidates = [&](const std::vector<EntryIndex>& entries) {
    constexpr std::size_t most_shown = 12;
    for (std::size_t i = 0; i < entries.size() && i < most_shown; ++i)
      message += fmt::format("  {}\n", kb().address(entries[i]));
    if (entries.size() > most_shown) message += fmt::format("  and {} more\n", entries.size() - most_shown);
  };
  if (text.find_first_not_of(" \t") == std::string_view::npos) {
    message = fmt::format("coeval: the address is empty; {} shows what there is\n", list);
  } else if (found.matches.size() > 1) {
    message =
        fmt::format("coeval: `{}` could be {} of these; write more of the address\n", shown, found.matches.size());
    candidates(found.matches);
  } else if (!found.near.empty()) {
    message = fmt::format("coeval: there is no {} `{}`; did you mean one of these?\n", wanted, shown);
    for (const std::string& near : found.near) message += fmt::format("  {}\n", near);
  } else if (!found.other.empty()) {
    message = fmt::format("coeval: `{}` is {}, and this takes {}", shown,
                          with_article(spec_of(kb().entries[found.other.front()].kind).name), with_article(wanted));
    const std::vector<EntryIndex> below = entries_below(kb(), found.other, kinds);
    message += below.empty() ? "\n" : "; did you mean one of these?\n";
    candidates(below);
  } else {
    message = fmt::format("coeval: there is no {} `{}`; {} shows what there is\n", wanted, shown, list);
  }
  print_error(message);
  return {};
}

std::optional<std::vector<SpanPoint>> Session::find_ends(std::string_view text) const {
  std::vector<SpanEnd> ends{SpanEnd::start, SpanEnd::end};
  if (text.ends_with(".start")) {
    text.remove_suffix(std::string_view{".start"}.size());
    ends = {SpanEnd::start};
  } else if (text.ends_with(".end")) {
    text.remove_suffix(std::string_view{".end"}.size());
    ends = {SpanEnd::end};
  }
  const auto entry =
      find(text, {Kind::mould, Kind::run, Kind::issue, Kind::period, Kind::card, Kind::route, Kind::mark});
  if (!entry) return {};
  const auto found = std::ranges::find(kb().spans, *entry, &TimeSpan::entry);
  const TimeSpanIndex span{static_cast<std::uint32_t>(found - kb().spans.begin())};
  std::vector<SpanPoint> points;
  for (const SpanEnd end : ends) points.push_back({span, end});
  return points;
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
