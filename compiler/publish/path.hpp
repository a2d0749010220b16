// publish/path.hpp: may a file be written under this path?
#pragma once

#include <string_view>

namespace coeval {

// Parts of a-z, 0-9, '-', '_' and '.', none of them empty, "." or "..", the first not one of our own (".coeval-…"), and
// short enough for every file system: 255 bytes a part, 1024 in all.
[[nodiscard]] bool is_output_path(std::string_view path);

// "figures/keeper-maren" of "figures/keeper-maren/index.html"; empty for "index.html".
[[nodiscard]] std::string_view folder_of(std::string_view path);

// "index.html" of "figures/keeper-maren/index.html".
[[nodiscard]] std::string_view name_of(std::string_view path);

} // namespace coeval
