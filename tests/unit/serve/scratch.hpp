// A folder of its own for each test, gone afterwards.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>

namespace coeval::previewing {

namespace fs = std::filesystem;

class Scratch {
public:
  Scratch() {
    std::string pattern = (fs::temp_directory_path() / "coeval-serve-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder");
    base_ = fs::canonical(pattern);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code error;
    fs::remove_all(base_, error);
  }
  [[nodiscard]] fs::path operator/(const std::string& path) const { return base_ / path; }
  void write(const std::string& path, std::string_view text) const {
    fs::create_directories((base_ / path).parent_path());
    std::ofstream{base_ / path, std::ios::binary} << text;
  }

private:
  fs::path base_;
};

} // namespace coeval::previewing
