// files/gather.hpp: what becomes of the text of a file once it is read? Private to this room.
#pragma once

#include "files/load.hpp"

namespace coeval {

// Adds a file to the result, in the order of the calls; where its text is not UTF-8, from byte `bad_byte` on, reports
// that.
void gather(LoadResult& result, SourceFile file, std::optional<std::size_t> bad_byte, Diagnostics& out);

// A file whose text is not UTF-8 from that byte on.
[[nodiscard]] Diagnostic broken_text(const SourceFile& file, FileIndex index, std::size_t byte);
[[nodiscard]] Diagnostic too_large_to_read(const std::string& path, std::size_t most);
[[nodiscard]] Diagnostic too_many_to_read(const std::string& root, std::size_t most);
// A root without any file in .toml.
[[nodiscard]] Diagnostic nothing_to_read(const std::string& root);

} // namespace coeval
