// How many pages does one thread render, and how much HTML is that?
//
// Not a test: it prints what one run on one machine took. A page is a struct that is there already; what counts is its
// tree, its text and the slots of the template around it. Each kind of page is rendered for two seconds of processor
// time, the median of five parts of that is printed.
#include <algorithm>
#include <ctime>
#include <stdexcept>
#include <vector>

#include <fmt/format.h>

#include "html/render.hpp"

using namespace coeval;

namespace {

// Of the processor, so that what else runs on the machine counts little.
double seconds_used() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

Text words(std::string text, std::string to = {}) { return {{std::move(text), std::move(to), false}}; }

Proof proof(int steps) {
  Proof all;
  for (int i = 0; i < steps; ++i)
    all.push_back(
        {fmt::format("ring-top was in the press until 19{}-06 or later", 76 + i),
         Basis::observed,
         {words("sealed examples, a survey", "sources/sealed-examples-2019.html")},
         {"saltmere/accessories/signal-lantern.toml:31", "data/kb/saltmere/accessories/signal-lantern.toml", true}});
  return all;
}

Page base(PageKind kind, std::string path) {
  Page page;
  page.kind = kind;
  page.path = std::move(path);
  page.title = "Signal lantern";
  page.eyebrow = "Accessory";
  page.summary = "A hand lantern with a ring, moulded in four revisions from 1976.";
  page.crumbs = {{"Saltmere Patrol", "index.html", false}, {"Accessories", "accessories.html", false}};
  page.json_ld = R"({"@context": "https://schema.org", "@type": "Thing", "name": "Signal lantern"})";
  return page;
}

// A mark or a market: a few facts and a list.
Page small_page() {
  Page page = base(PageKind::mark, "marks/anchor.html");
  Facts facts;
  for (const char* label : {"Kind", "Where", "Said to mean", "Address"})
    facts.facts.push_back({label, words("moulded under the left foot")});
  List::Group group;
  for (int i = 0; i < 8; ++i)
    group.items.push_back({words(fmt::format("Ring top, brass {}", i), "accessories/lantern/ring-top/brass.html"),
                           words("1976 to 1978")});
  page.sections = {{"about", "", {}, {Paragraphs{{words("An anchor in a ring, two millimetres across.")}}, facts}},
                   {"carried", "carried", words("What carries it"), {List{{group}}}}};
  return page;
}

// An issue: three slots with six runs each, every verdict with its proof.
Page large_page() {
  Page page = base(PageKind::issue, "figures/keeper-maren/painted-buttons.html");
  for (int slot = 0; slot < 3; ++slot) {
    Verdicts block{words("hand: signal lantern"), {}};
    for (int run = 0; run < 6; ++run) {
      VerdictView view;
      view.anchor = fmt::format("signal-lantern.{}.{}", slot, run);
      view.subject = words("Ring top, brass yellow", "accessories/signal-lantern/ring-top/brass.html");
      view.verdict = static_cast<Verdict>(run);
      view.basis = Basis::observed;
      view.lab = std::array{72.1, 6.0, 48.5};
      for (int ground = 0; ground < 4; ++ground)
        view.grounds.push_back({static_cast<Ground>(ground), Answer::yes, Basis::documented,
                                "made and packed in the same months", proof(ground)});
      block.verdicts.push_back(std::move(view));
    }
    page.sections.push_back({"outfit", "", words("Hand"), {std::move(block)}});
  }
  return page;
}

void measure(const char* what, const Templates& templates, const Page& page) {
  const RenderOptions options{.base_url = "https://example.org/reference/",
                              .site_name = "Saltmere Patrol",
                              .date = "2026-11-25",
                              .picture = {}};
  const std::size_t size = render_page(templates, page, options).size();
  std::vector<double> rates;
  for (int part = 0; part < 5; ++part) {
    const double start = seconds_used();
    std::size_t pages = 0;
    std::size_t bytes = 0;
    double seconds = 0;
    do {
      for (int i = 0; i < 50; ++i) bytes += render_page(templates, page, options).size();
      pages += 50;
      seconds = seconds_used() - start;
    } while (seconds < 0.4);
    if (bytes != pages * size) throw std::logic_error("pages differ");
    rates.push_back(static_cast<double>(pages) / seconds);
  }
  std::ranges::sort(rates);
  fmt::print("{:<12} {:>8.0f} pages/s {:>10.0f} kB/s   {:>7} bytes a page\n", what, rates[2],
             rates[2] * static_cast<double>(size) / 1000, size);
}

} // namespace

int main() {
  Diagnostics found;
  const TemplateResult read = read_templates(builtin_template(), "site-template", found);
  if (!read.templates) return 1;
  Page empty = base(PageKind::not_found, "404.html");
  measure("frame alone", *read.templates, empty);
  measure("small page", *read.templates, small_page());
  measure("large page", *read.templates, large_page());
}
