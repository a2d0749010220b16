#include "files/program.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <string_view>
#include <utility>

#include <fcntl.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

namespace coeval {
namespace {

class Handle {
public:
  explicit Handle(int number = -1) : number_(number) {}
  Handle(Handle&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  ~Handle() { close(); }
  [[nodiscard]] int number() const { return number_; }
  void close() {
    if (number_ >= 0) ::close(number_);
    number_ = -1;
  }

private:
  int number_;
};

// What a hook of git leaves in the environment would lead git to another repository than the one that is asked about;
// nothing is to be fetched, asked for or put in the place of something else.
std::vector<std::string> environment_of_child() {
  constexpr std::array<std::string_view, 4> left_out{"GIT_DIR=", "GIT_WORK_TREE=", "GIT_INDEX_FILE=", "GIT_PREFIX="};
  std::vector<std::string> list;
  for (char** entry = environ; entry != nullptr && *entry != nullptr; ++entry)
    if (std::ranges::none_of(left_out,
                             [&](std::string_view name) { return std::string_view{*entry}.starts_with(name); }))
      list.emplace_back(*entry);
  for (const char* entry : {"LC_ALL=C", "GIT_NO_LAZY_FETCH=1", "GIT_ALLOW_PROTOCOL=none", "GIT_TERMINAL_PROMPT=0",
                            "GIT_OPTIONAL_LOCKS=0", "GIT_NO_REPLACE_OBJECTS=1"}) {
    const std::string_view name = std::string_view{entry}.substr(0, std::string_view{entry}.find('=') + 1);
    std::erase_if(list, [&](const std::string& other) { return other.starts_with(name); });
    list.emplace_back(entry);
  }
  return list;
}

std::vector<char*> pointers_to(std::vector<std::string>& texts) {
  std::vector<char*> pointers;
  for (std::string& text : texts) pointers.push_back(text.data());
  pointers.push_back(nullptr);
  return pointers;
}

// A file without a name: what is written to it waits there, so that neither program waits for the other.
Handle nameless_file(const std::string& content) {
  Handle file{::memfd_create("coeval", MFD_CLOEXEC)};
  for (std::size_t done = 0; file.number() >= 0 && done < content.size();) {
    const ssize_t count = ::write(file.number(), content.data() + done, content.size() - done);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return Handle{};
    done += static_cast<std::size_t>(count);
  }
  if (file.number() >= 0) ::lseek(file.number(), 0, SEEK_SET);
  return file;
}

// Up to `most` bytes and one more. Gives errno.
int read_all(int handle, std::size_t most, std::string& text) {
  std::array<char, 1 << 16> part{};
  while (text.size() <= most) {
    const ssize_t count = ::read(handle, part.data(), std::min(part.size(), most + 1 - text.size()));
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return errno;
    if (count == 0) return 0;
    text.append(part.data(), static_cast<std::size_t>(count));
  }
  return 0;
}

} // namespace

ProgramResult run_program(const std::vector<std::string>& words, const std::string& input, std::size_t most_output) {
  ProgramResult result;
  const Handle in = nameless_file(input);
  const Handle said = nameless_file({});
  std::array<int, 2> ends{-1, -1};
  if (in.number() < 0 || said.number() < 0 || ::pipe2(ends.data(), O_CLOEXEC) != 0) {
    result.error = errno;
    return result;
  }
  const Handle out{ends[0]};
  Handle into{ends[1]};

  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, in.number(), STDIN_FILENO);
  posix_spawn_file_actions_adddup2(&actions, into.number(), STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&actions, said.number(), STDERR_FILENO);
  std::vector<std::string> arguments = words;
  std::vector<std::string> environment = environment_of_child();
  pid_t child = 0;
  result.error = ::posix_spawnp(&child, arguments.front().c_str(), &actions, nullptr, pointers_to(arguments).data(),
                                pointers_to(environment).data());
  posix_spawn_file_actions_destroy(&actions);
  if (result.error != 0) return result;

  into.close();
  result.error = read_all(out.number(), most_output, result.output);
  result.whole = result.output.size() <= most_output;
  if (!result.whole || result.error != 0) ::kill(child, SIGKILL);
  int status = 0;
  while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  result.exit = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  constexpr std::size_t most_said = 4096;
  ::lseek(said.number(), 0, SEEK_SET);
  (void)read_all(said.number(), most_said, result.said);
  return result;
}

} // namespace coeval
