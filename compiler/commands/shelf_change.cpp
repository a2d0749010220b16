#include "commands/shelf_change.hpp"

#include "publish/file.hpp"

namespace coeval {

std::optional<int> change_shelf(const ShelfSession& session, const ShelfSettings& shelf,
                                const std::optional<std::string>& text, Diagnostics out) {
  if (text && change_file(shelf.file, session.sources().files.front().text(), *text, out)) return {};
  return session.refuse(out, text ? exit_world : exit_no, "the shelf was not changed");
}

} // namespace coeval
