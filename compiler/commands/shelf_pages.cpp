#include <filesystem>

#include <sys/stat.h>

#include <fmt/format.h>

#include "commands/days.hpp"
#include "commands/shelf_commands.hpp"
#include "commands/templates.hpp"
#include "html/render.hpp"
#include "private_pages/private_pages.hpp"
#include "publish/folder.hpp"

namespace coeval {
namespace {

// Style sheet and icon; the scripts of a site have nothing to do here.
bool is_wanted(std::string_view path) { return path.starts_with("styles/") || path == "icons/icon.svg"; }

} // namespace

int run_shelf_pages(const Settings& settings, const ShelfPagesSettings& typed) {
  const auto today = given_day(typed.on);
  if (!today) return exit_usage;
  const auto reference = checked_base_url(typed.reference);
  if (!reference) {
    print_error(fmt::format("coeval: `{}` is no address of a site: --reference https://example.org/reference/\n",
                            printable(typed.reference)));
    return exit_usage;
  }
  std::error_code ignored;
  if (std::filesystem::exists(std::filesystem::path{typed.to} / published_site_file, ignored)) {
    print_error(fmt::format("coeval: `{}` holds a published site, and a shelf is private; choose another folder\n",
                            printable(typed.to)));
    return exit_usage;
  }
  const ShelfSession session{settings, typed.shelf};
  if (session.exit) return *session.exit;
  const LoadedTemplates loaded = load_templates(typed.templates, Document::shelf);
  if (!loaded.diagnostics.empty()) print_error(render_text(loaded.diagnostics, loaded.sources, settings.err));
  if (!loaded.templates) return loaded.world_failed ? exit_world : exit_no;

  const LinkedKb& kb = session.kb();
  const LinkedShelf& shelf = session.shelf();
  const Ledger ledger = keep_ledger(shelf);
  if (ledger.too_large) {
    Diagnostics out;
    report_missing(shelf, ledger, out);
    return session.refuse(out);
  }
  PartJudge judge{kb, session.dates(), shelf, settings.weakest};
  const AuditReport audit{shelf, judge, audit_shelf(kb, shelf, judge), true, today};
  const ShelfSwap swap = plan_swap(kb, shelf, judge, {});
  // What is on its way is wanted no more.
  const ShelfSwap with_parcels = plan_swap(kb, shelf, judge, {.with_parcels = true});
  const std::vector<Wanted> wanted = find_wanted(kb, shelf, judge, with_parcels, settings.weakest);
  std::vector<FigureIndex> figures;
  for (std::size_t i = 0; i < kb.figures.size(); ++i) figures.push_back(FigureIndex{static_cast<std::uint32_t>(i)});
  const OwnedChecklist checklist = make_checklist(kb, shelf, judge, audit.audit, figures);
  const ReportInput report = session.session().report();
  const RenderOptions options{.site_name = shelf.name.empty() ? "My shelf" : shelf.name, .date = iso(*today)};

  umask(S_IRWXG | S_IRWXO); // nobody else on this machine is to read what is written here
  Diagnostics out;
  auto folder = OutputFolder::open(typed.to, out);
  if (folder) {
    for (const Page& page : private_pages({report, shelf, judge, audit, swap, wanted, checklist, ledger, *reference}))
      folder->write(page.path, render_page(*loaded.templates, page, options), out);
    for (const auto& [path, bytes] : template_files(*loaded.templates))
      if (is_wanted(path)) folder->write(path, bytes, out);
    folder->write(private_shelf_file, "These pages are private: they are no part of a published site.\n", out);
  }
  const auto counts = folder ? folder->finish(out) : std::nullopt;
  if (const std::vector<Diagnostic> said = out.sorted(); !said.empty())
    print_error(render_text(said, session.sources(), settings.err));
  if (!counts) return exit_world;
  print(fmt::format("{}: {} files written, {} unchanged, {} removed; private, for you alone\n", printable(typed.to),
                    counts->written, counts->unchanged, counts->removed));
  return exit_yes;
}

} // namespace coeval
