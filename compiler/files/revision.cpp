#include "files/revision.hpp"

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <chrono>
#include <map>

#include <fmt/format.h>

#include "files/find.hpp"
#include "files/gather.hpp"
#include "files/program.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_listed = std::size_t{64} << 20; // bytes of a list of files

bool is_harmless(std::string_view name) {
  constexpr std::size_t longest = 250;
  return !name.empty() && name.size() <= longest && name.front() != '-' &&
         std::ranges::none_of(name, [](char c) { return static_cast<unsigned char>(c) <= ' ' || c == 0x7f; });
}

std::string without_line_break(std::string text) {
  if (text.ends_with('\n')) text.pop_back();
  return text;
}

// The first line, without git's own name for it.
std::string first_line(const std::string& said) {
  std::string line = said.substr(0, said.find('\n'));
  constexpr std::string_view fatal = "fatal: ";
  return line.starts_with(fatal) ? line.substr(fatal.size()) : line;
}

struct Blob {
  std::string hash;
  std::size_t size = 0;
};

// The files of a tree, as `git ls-tree -r -l -z` lists them: MODE SP TYPE SP HASH SP SIZE TAB PATH NUL.
struct Tree {
  std::map<std::string, Blob> entries; // names in .toml
  std::set<std::string, std::less<>> assets;
};

bool hidden(std::string_view path) { return path.starts_with('.') || path.find("/.") != std::string_view::npos; }

std::optional<Tree> read_list(std::string_view list) {
  Tree tree;
  while (!list.empty()) {
    const std::size_t end = list.find('\0');
    const std::string_view record = list.substr(0, end);
    const std::size_t tab = record.find('\t');
    if (end == std::string_view::npos || tab == std::string_view::npos) return {};
    list.remove_prefix(end + 1);
    std::vector<std::string_view> words;
    for (std::size_t begin = 0; begin < tab;) {
      const std::size_t stop = std::min(record.find(' ', begin), tab);
      if (stop > begin) words.push_back(record.substr(begin, stop - begin));
      begin = stop + 1;
    }
    if (words.size() != 4) return {};
    const std::string_view path = record.substr(tab + 1);
    const bool regular = words[0].starts_with("100"); // neither a link (120000) nor another repository (160000)
    if (!regular || hidden(path)) continue;
    Blob blob{std::string{words[2]}, 0};
    const auto [last, error] = std::from_chars(words[3].data(), words[3].data() + words[3].size(), blob.size);
    if (error != std::errc{} || last != words[3].data() + words[3].size()) return {};
    if (path.ends_with(".toml"))
      tree.entries.emplace(path, std::move(blob));
    else
      tree.assets.emplace(path);
  }
  return tree;
}

// The objects of `git cat-file --batch`, each HASH SP TYPE SP SIZE LF BYTES LF.
class ObjectReader {
public:
  explicit ObjectReader(std::string_view text) : text_(text) {}
  std::optional<std::string_view> next(std::string_view hash) {
    const std::size_t line = text_.find('\n');
    if (line == std::string_view::npos || !text_.starts_with(hash)) return {};
    const std::string_view head = text_.substr(0, line);
    const std::string_view number = head.substr(head.rfind(' ') + 1);
    std::size_t size = 0;
    const auto [last, error] = std::from_chars(number.data(), number.data() + number.size(), size);
    if (error != std::errc{} || last != number.data() + number.size() || text_.size() - line - 1 <= size) return {};
    const std::string_view bytes = text_.substr(line + 1, size);
    text_.remove_prefix(line + 1 + size + 1);
    return bytes;
  }

private:
  std::string_view text_;
};

// The day in the line "committer NAME <MAIL> SECONDS ZONE" of a commit; empty where there is none that can be read.
std::string day_of_commit(std::string_view commit) {
  const std::string_view head = commit.substr(0, commit.find("\n\n"));
  const std::size_t begin = head.find("\ncommitter ");
  if (begin == std::string_view::npos) return {};
  const std::string_view line = head.substr(begin + 1, head.find('\n', begin + 1) - begin - 1);
  const std::size_t zone_at = line.rfind(' ');
  const std::size_t seconds_at = line.rfind(' ', zone_at - 1);
  const std::string_view seconds_text = line.substr(seconds_at + 1, zone_at - seconds_at - 1);
  const std::string_view zone_text = line.substr(zone_at + 1);
  std::int64_t seconds = 0;
  int zone = 0; // HHMM
  const auto number = [](std::string_view text, auto& value) {
    const auto [last, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && last == text.data() + text.size();
  };
  if (zone_text.size() != 5 || !number(zone_text.substr(1), zone) || !number(seconds_text, seconds)) return {};
  if (seconds < 0 || seconds > 200'000'000'000) return {}; // the year 8307
  const std::int64_t ahead = (zone / 100 * 60 + zone % 100) * 60;
  const std::chrono::sys_seconds time{std::chrono::seconds{seconds + (zone_text.front() == '-' ? -ahead : ahead)}};
  const std::chrono::year_month_day day{std::chrono::floor<std::chrono::days>(time)};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

class RevisionReader {
public:
  RevisionReader(const std::filesystem::path& folder, const std::string& name, Diagnostics& out,
                 const LoadLimits& limits)
      : folder_(folder), name_(name), out_(out), limits_(limits) {}

  std::optional<Revision> read() {
    if (!is_harmless(name_))
      return refused("this is no name of a revision", "name one commit, such as HEAD~1, a tag, a branch or a hash");
    if (!find_folder() || !find_commit()) return {};
    const auto listed =
        git({"ls-tree", "-r", "-l", "-z", "--full-tree", revision_.commit + ":" + prefix_}, {}, most_listed);
    if (!listed) return {};
    if (listed->exit != 0)
      return refused(fmt::format("there is no folder `{}` in this revision", prefix_.empty() ? "." : prefix_),
                     "name a revision in which the knowledge base lies where it lies now, or take two folders");
    std::optional<Tree> tree = read_list(listed->output);
    if (!listed->whole || !tree) return unreadable(*listed);
    return read_files(std::move(*tree)) ? std::optional{std::move(revision_)} : std::nullopt;
  }

private:
  std::nullopt_t refused(std::string message, std::string help) {
    out_.report(about(Code::unreadable_revision, name_, std::move(message), std::move(help)));
    return std::nullopt;
  }
  std::nullopt_t unreadable(const ProgramResult& result) {
    const std::string said = first_line(result.said);
    return refused("git could not read this revision" + (said.empty() ? std::string{} : ": " + said),
                   "`git fsck` tells whether the repository is whole");
  }

  // Nothing where git cannot be started, and then it is reported.
  std::optional<ProgramResult> git(std::vector<std::string> words, const std::string& input, std::size_t most) {
    words.insert(words.begin(), {"git", "-C", std::filesystem::absolute(folder_).string()});
    ProgramResult result = run_program(words, input, most);
    if (result.error == 0) return result;
    if (result.error == ENOENT)
      return refused("revisions are read by the program git, and there is none here",
                     "install git, or compare two folders");
    return refused(fmt::format("git could not be started: {}", failure_words(result.error)), "compare two folders");
  }

  bool find_folder() {
    const auto found = git({"rev-parse", "--show-prefix"}, {}, most_listed);
    if (!found) return false;
    if (found->exit != 0) {
      const std::string said = first_line(found->said);
      const bool owned_by_other = said.find("dubious ownership") != std::string::npos;
      refused(fmt::format("`{}` is in no repository that git would read: {}", folder_.string(), said),
              owned_by_other ? "git reads a repository of somebody else only where `safe.directory` names it"
                             : "give folders, or the knowledge base in its repository with --kb DIR");
      return false;
    }
    prefix_ = without_line_break(found->output);
    if (prefix_.ends_with('/')) prefix_.pop_back();
    return true;
  }

  bool find_commit() {
    const auto found =
        git({"rev-parse", "--verify", "--quiet", "--end-of-options", name_ + "^{commit}"}, {}, most_listed);
    if (!found) return false;
    revision_.commit = without_line_break(found->output);
    const bool hash = revision_.commit.size() >= 40 && std::ranges::all_of(revision_.commit, [](char c) {
                        return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
                      });
    if (found->exit == 0 && hash) return true;
    refused("git knows no such revision here, and there is no such folder",
            "`git log` lists revisions; a folder can be given in its place");
    return false;
  }

  bool read_files(Tree tree) {
    LoadResult& result = revision_.loaded;
    result.sources.root = name_ + ":" + prefix_;
    if (tree.entries.size() + tree.assets.size() > limits_.files) {
      out_.report(too_many_to_read(result.sources.root, limits_.files));
      return true;
    }
    result.sources.assets = std::move(tree.assets);
    if (tree.entries.empty()) out_.report(nothing_to_read(result.sources.root));
    std::string wanted = revision_.commit + "\n";
    std::size_t most = std::size_t{1} << 24; // the commit, and the line before each file
    for (auto it = tree.entries.begin(); it != tree.entries.end();) {
      if (it->second.size > std::min<std::size_t>(limits_.file_bytes, 0xfffffffeU)) { // spans are 32 bits wide
        out_.report(too_large_to_read(it->first, limits_.file_bytes));
        it = tree.entries.erase(it);
        continue;
      }
      wanted += it->second.hash + "\n";
      most += it->second.size;
      ++it;
    }
    const auto objects = git({"cat-file", "--batch", "--buffer"}, wanted, most);
    if (!objects) return false;
    ObjectReader reader{objects->output};
    const auto commit = reader.next(revision_.commit);
    if (!commit) {
      unreadable(*objects);
      return false;
    }
    revision_.day = day_of_commit(*commit);
    for (const auto& [path, blob] : tree.entries) {
      const auto bytes = reader.next(blob.hash);
      if (!bytes) {
        unreadable(*objects);
        return false;
      }
      SourceFile file{path, std::string{*bytes}};
      const auto bad_byte = first_bad_byte(file.text());
      gather(result, std::move(file), bad_byte, out_);
    }
    return true;
  }

  const std::filesystem::path& folder_;
  const std::string& name_;
  Diagnostics& out_;
  const LoadLimits& limits_;
  std::string prefix_; // of the folder in its repository; empty for all of it
  Revision revision_;
};

} // namespace

std::optional<Revision> load_revision(const std::filesystem::path& folder, const std::string& name, Diagnostics& out,
                                      const LoadLimits& limits) {
  return RevisionReader{folder, name, out, limits}.read();
}

} // namespace coeval
