#include "files/asset.hpp"

#include <fmt/format.h>

#include "files/find.hpp"
#include "files/open_file.hpp"

namespace coeval {

std::optional<std::string> read_asset(const std::filesystem::path& root, const std::string& path, Diagnostics& out,
                                      std::size_t most) {
  namespace fs = std::filesystem;
  const auto unreadable = [&](int error) {
    out.report(about(Code::unreadable_file, path, fmt::format("this file could not be read: {}", failure_words(error)),
                     "allow reading it, or move it out of the knowledge base"));
    return std::nullopt;
  };
  std::error_code error;
  const fs::path real_root = fs::canonical(root, error);
  if (error) return unreadable(error.value());
  const fs::path real = fs::canonical(real_root / fs::path{path}, error);
  if (error) return unreadable(error.value());
  const fs::path below = real.lexically_relative(real_root);
  if (below.empty() || *below.begin() == ".." || below == ".") {
    out.report(about(Code::link_leaves_kb, path, "this leads out of the knowledge base, so it was not read",
                     "put the file itself there"));
    return {};
  }
  OpenFile::Content content = OpenFile{real_root, below}.read(most);
  if (content.error != 0) return unreadable(content.error);
  if (content.text.size() > most) {
    out.report(about(Code::file_too_large, path,
                     fmt::format("this file is larger than {}, so it was not read", size_words(most)),
                     "save the picture smaller: 2000 pixels on its longer side are plenty"));
    return {};
  }
  return std::move(content.text);
}

} // namespace coeval
