// files/asset.hpp: what is in a file of a knowledge base that is no entry, a picture say?
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "diagnose/diagnostic.hpp"

namespace coeval {

inline constexpr std::size_t most_asset_bytes = std::size_t{8} << 20;

// `path`: relative to `root`, with '/' between its parts, as the SourceSet lists its assets. Links are followed where
// they lead to something below the root, and only regular files are opened. What cannot be read, is larger than `most`
// or lies outside is reported, and nothing is given.
[[nodiscard]] std::optional<std::string> read_asset(const std::filesystem::path& root, const std::string& path,
                                                    Diagnostics& out, std::size_t most = most_asset_bytes);

} // namespace coeval
