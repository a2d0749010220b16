// shelf/splices.hpp: what does a text say after several of its stretches have been replaced?
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

// Stretches may be replaced and lines added in any order; stretches must not overlap.
class Splices {
public:
  explicit Splices(std::string_view text) : text_(text) {}

  void replace(std::uint32_t begin, std::uint32_t end, std::string by);
  // Below the line of the byte before `at`, and below what was added there before. It gets the line break of the text.
  void add_line(std::uint32_t at, std::string_view line);

  [[nodiscard]] std::uint32_t line_begin(std::uint32_t byte) const;
  [[nodiscard]] std::uint32_t line_end(std::uint32_t byte) const; // behind its line break; of the text for the last

  [[nodiscard]] std::string apply() const;

private:
  struct Splice {
    std::uint32_t begin;
    std::uint32_t end;
    bool is_line;
    std::string by;
  };
  std::string_view text_;
  std::vector<Splice> splices_;
};

} // namespace coeval
