// export/room.hpp: how much room will a text take that is written piece by piece?
//
// Private to this room. A text that grows to 50 MB by itself is copied again and again on the way, which took a tenth
// of the time of all exports.
#pragma once

#include <cstddef>
#include <string>

namespace coeval {

// For a text that is to get `pieces` pieces of about the same size: tell it each time that one is done.
class RoomForPieces {
public:
  RoomForPieces(std::string& text, std::size_t pieces) : text_(text), begin_(text.size()), sample_(pieces / parts) {}
  void one_is_done() {
    if (++done_ == sample_) text_.reserve(begin_ + (text_.size() - begin_) * (parts + 1));
  }

private:
  static constexpr std::size_t parts = 16; // one of them is written before room is made for all, and one more
  std::string& text_;
  std::size_t begin_;
  std::size_t sample_;
  std::size_t done_ = 0;
};

} // namespace coeval
