#include "files/gather.hpp"

#include <fmt/format.h>

#include "files/find.hpp"
#include "files/open_file.hpp"

namespace coeval {
Diagnostic broken_text(const SourceFile& file, FileIndex index, std::size_t byte) {
  const std::string_view text = file.text();
  Diagnostic broken;
  broken.code = Code::broken_utf8;
  broken.place = {index, static_cast<std::uint32_t>(byte), static_cast<std::uint32_t>(byte) + 1};
  broken.message = fmt::format("the byte 0x{:02X} is not UTF-8 text here, so this file was not read",
                               static_cast<unsigned>(static_cast<unsigned char>(text[byte])));
  const bool wide = text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
  broken.help = wide ? "the file is UTF-16: save it as UTF-8" : "save the file as UTF-8";
  return broken;
}

void gather(LoadResult& result, SourceFile file, std::optional<std::size_t> bad_byte, Diagnostics& out) {
  const FileIndex index{static_cast<std::uint32_t>(result.sources.files.size())};
  result.sources.files.push_back(std::move(file));
  if (!bad_byte) return;
  result.broken.push_back(index);
  out.report(broken_text(result.sources[index], index, *bad_byte));
}

Diagnostic too_large_to_read(const std::string& path, std::size_t most) {
  return about(Code::file_too_large, path,
               fmt::format("this file is larger than {}, so it was not read", size_words(most)),
               "split it: figures and accessories each have a file of their own");
}

Diagnostic too_many_to_read(const std::string& root, std::size_t most) {
  return about(Code::too_many_files, root,
               fmt::format("there are more than {} files and folders here, so none was read", most),
               "give the folder of the knowledge base itself");
}

Diagnostic nothing_to_read(const std::string& root) {
  return about(Code::no_entries, root, "no file here ends in .toml",
               "give the folder of the knowledge base, or write its first entry");
}

} // namespace coeval
