// tests/unit/files/scratch.hpp: where can a test write files that are gone afterwards?
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

#include <unistd.h>

#include <catch2/catch.hpp>

namespace coeval::testing {

namespace fs = std::filesystem;

// A folder of its own for each test, gone afterwards.
class Scratch {
public:
  Scratch() {
    std::string pattern = (fs::temp_directory_path() / "coeval-files-XXXXXX").string();
    REQUIRE(::mkdtemp(pattern.data()) != nullptr);
    base_ = fs::canonical(pattern);
    fs::create_directory(base_ / "kb");
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code error;
    fs::remove_all(base_, error);
  }
  [[nodiscard]] fs::path base() const { return base_; }
  [[nodiscard]] fs::path kb() const { return base_ / "kb"; }
  void write(const std::string& path, std::string_view text = "x = 1\n") const {
    const fs::path file = kb() / path;
    fs::create_directories(file.parent_path());
    std::ofstream{file, std::ios::binary} << text;
  }
  void link(const fs::path& target, const std::string& path) const {
    fs::create_directories((kb() / path).parent_path());
    fs::create_symlink(target, kb() / path);
  }

private:
  fs::path base_;
};

} // namespace coeval::testing
