#include "commands/shelf_session.hpp"

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "entries/csv_tables.hpp"
#include "entries/read.hpp"
#include "files/load.hpp"
#include "shelf/dated_parts.hpp"

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
    print_error(render_text(told(out), sources_, settings.err));
  if (!exit) rule_out_by_marks(shelf_, kb(), session_.dates(), settings.weakest);
}

std::vector<Diagnostic> ShelfSession::told(const Diagnostics& out) const {
  std::vector<Diagnostic> list = out.sorted();
  name_cells(list, sources_);
  return list;
}

std::optional<PieceIndex> ShelfSession::find_piece(const std::string& id) const {
  std::vector<std::string_view> ids;
  for (std::size_t i = 0; i < shelf_.pieces.size(); ++i) {
    if (shelf_.pieces[i].id == id) return PieceIndex{static_cast<std::uint32_t>(i)};
    ids.push_back(shelf_.pieces[i].id);
  }
  const auto near = near_names(id, ids);
  print_error(fmt::format("coeval: the shelf has no piece `{}`{}{}\n", printable(id), near.empty() ? "" : "; ",
                          near.empty() ? "" : did_you_mean(near)));
  return {};
}

int ShelfSession::refuse(const Diagnostics& out, int code, std::string_view so) const {
  if (settings_.format == Format::json)
    print(render_json(told(out), sources_)); // instead of the answer
  else
    print_error(render_text(told(out), sources_, settings_.err));
  print_error(fmt::format("coeval: {}\n", so));
  return code;
}

} // namespace coeval
