#include "generate/folder.hpp"

#include <cstdio>
#include <cstdlib>
#include <fstream>

namespace generated {
namespace {

[[noreturn]] void give_up(const std::filesystem::path& path, const char* why) {
  std::fprintf(stderr, "generate: %s: %s\n", path.c_str(), why);
  std::exit(1);
}

} // namespace

Written write_folder(const Plan& plan, const std::filesystem::path& folder) {
  std::error_code error;
  if (std::filesystem::exists(folder) && !std::filesystem::is_empty(folder, error)) give_up(folder, "is not empty");
  std::filesystem::path made;
  return write_history(plan, [&](const std::string& path, const std::string& text) {
    const std::filesystem::path whole = folder / path;
    if (whole.parent_path() != made) {
      made = whole.parent_path();
      std::filesystem::create_directories(made, error);
    }
    std::ofstream file{whole, std::ios::binary};
    file.write(text.data(), static_cast<std::streamsize>(text.size()));
    if (!file) give_up(whole, "could not be written");
  });
}

} // namespace generated
