// The reference as pages.
#include "cli/command_line.hpp"

namespace coeval {

void add_site_commands(CommandLine& line) {
  const auto [publish, site] =
      line.add_with<PublishSettings>("publish", "write the whole reference as a folder of static pages", run_publish);
  line.add_kb(publish);
  publish.add_option("--to", site.to, "the folder; made where it is missing")->type_name("DIR")->required();
  publish.add_option("--base-url", site.base_url, "where it will stand, for canonical links and the sitemap")
      ->type_name("URL");
  publish.add_option("--since", site.since, "tell what changed since this folder or revision of git; may be repeated")
      ->type_name("OLD")
      ->allow_extra_args(false);
  publish.add_option("--template", site.templates, "a template of your own, like the folder site-template")
      ->type_name("DIR");

  const auto [preview, shown] =
      line.add_with<PreviewSettings>("preview", "show the site in a browser, and follow what you write", run_preview);
  line.add_kb(preview);
  preview.add_option("--port", shown.port, "on 127.0.0.1; any that is free unless said")
      ->type_name("PORT")
      ->check(CLI::Range(1, 65535));
  preview.add_option("--template", shown.templates, "a template of your own")->type_name("DIR");
}

} // namespace coeval
