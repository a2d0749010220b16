#include "commands/carried_marks.hpp"

#include <fmt/format.h>

#include "links/readings.hpp"
#include "verdicts/marks.hpp"

namespace coeval {

std::optional<std::vector<CarriedMark>> read_marks(const Session& session, const std::vector<std::string>& typed) {
  const LinkedKb& kb = session.kb();
  std::vector<CarriedMark> marks;
  bool understood = true;
  for (const std::string& text : typed) {
    const WrittenMark written = split_mark(text);
    const auto entry = session.find(written.mark, {Kind::mark});
    if (!entry) {
      understood = false;
      continue;
    }
    const MarkIndex mark{kb.position[at(*entry)]};
    const MarkReading read = read_mark(kb, mark, written.reading);
    if (read.trouble) {
      print_error(fmt::format("coeval: {}; {}\n", printable(read.trouble->message), printable(read.trouble->repair)));
      understood = false;
      continue;
    }
    marks.push_back({mark, read.reading, {}});
  }
  if (marks.size() > most_marks) {
    print_error(fmt::format("coeval: {} marks are more than the {} that are asked about at once; leave out what does "
                            "not matter\n",
                            marks.size(), most_marks));
    understood = false;
  }
  if (!understood) return {};
  return marks;
}

} // namespace coeval
