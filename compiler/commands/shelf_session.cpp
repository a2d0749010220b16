#include "commands/shelf_session.hpp"

#include "entries/read.hpp"
#include "files/load.hpp"

namespace coeval {

ShelfSession::ShelfSession(const Settings& settings, const ShelfSettings& shelf)
    : settings_(settings), session_(settings) {
  if (session_.exit) {
    exit = session_.exit;
    return;
  }
  Diagnostics out;
  auto loaded = load_file(shelf.file, out);
  const bool readable = loaded && !out.has_errors();
  const bool there = loaded.has_value();
  if (there) sources_ = std::move(*loaded);
  if (readable) shelf_ = link_shelf(read_entries(sources_, {}, out, Language::shelf), kb(), out);
  if (out.has_errors())
    exit = refuse(out, there ? exit_no : exit_world);
  else if (out.count(Severity::warning) > 0)
    print_error(render_text(out.sorted(), sources_, settings.err));
}

int ShelfSession::refuse(const Diagnostics& out, int code) const {
  if (settings_.format == Format::json)
    print(render_json(out.sorted(), sources_)); // instead of the answer
  else
    print_error(render_text(out.sorted(), sources_, settings_.err));
  print_error("coeval: no answer: the shelf must be without errors first\n");
  return code;
}

} // namespace coeval
