// What a page is about, for programs, in the terms of schema.org (https://schema.org/).
//
// A page is a WebPage, or the narrower kind that is true of it; what it is of stands under `about` (or `mainEntity`),
// and the way down to it is a BreadcrumbList. Nothing is said that the page does not say.
#include <nlohmann/json.hpp>

#include "export/export.hpp"
#include "export/linked_data.hpp"
#include "pages/builders.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

// Absolute where the site knows its own address, else relative to its root.
std::string address_of(const Site& site, std::string_view path) {
  return site.options().base_url + std::string{path == "index.html" && !site.options().base_url.empty() ? "" : path};
}

std::string_view page_type(PageKind kind) {
  switch (kind) {
  case PageKind::home:
    return "WebSite";
  case PageKind::index_of:
  case PageKind::names:
  case PageKind::disputes:
    return "CollectionPage";
  case PageKind::schema:
    return "TechArticle";
  case PageKind::data:
    return "Dataset";
  default:
    return "WebPage";
  }
}

Json property(std::string_view name, std::string_view value) {
  return {{"@type", "PropertyValue"}, {"name", name}, {"value", value}};
}

// A figure, issue, accessory or run: the model of a product, not a piece on offer.
Json model_of(const Site& site, EntryIndex index) {
  const LinkedKb& kb = site.kb();
  const Entry& entry = kb.entries[index];
  Json json{{"@type", "ProductModel"}, {"name", full_name_of(kb, index)}, {"productID", kb.address(index)}};
  add_term(json, "material", entry.text("material"));
  if (entry.parent != no_entry)
    json["isVariantOf"] = {{"@type", "ProductModel"},
                           {"name", full_name_of(kb, entry.parent)},
                           {"url", address_of(site, link_to(kb, entry.parent).to)}};
  if (const auto span = site.backlinks().span[at(index)])
    json["additionalProperty"] = Json::array({property(tell_span(site, *span).label, short_span(site, *span))});
  return json;
}

Json claim_json(const Site& site, EntryIndex index) {
  const Entry& entry = site.kb().entries[index];
  Json json = claim_terms(entry);
  Json appearances = Json::array();
  if (const auto* sources = entry.get<Words>("source"))
    for (const Word& source : *sources) {
      const auto found = site.kb().addresses.find("source/" + source.text.substr(0, source.text.find(' ')));
      if (found) appearances.push_back(source_terms(site.kb().entries[*found]));
    }
  if (!appearances.empty()) json["appearance"] = std::move(appearances);
  return json;
}

// What the page is of; null where it is of nothing in particular.
Json about(const Site& site, const PlannedPage& planned) {
  const LinkedKb& kb = site.kb();
  if (planned.kind == PageKind::key && planned.entry == no_entry) return nullptr; // of a slot
  switch (planned.kind) {
  case PageKind::figure:
  case PageKind::issue:
  case PageKind::accessory:
  case PageKind::run:
  case PageKind::matrix:
  case PageKind::key:
    return model_of(site, planned.entry);
  case PageKind::checklist:
    if (kb.entries[planned.entry].kind == Kind::figure) return model_of(site, planned.entry);
    return {{"@type", "Thing"}, {"name", name_of(kb, planned.entry)}};
  case PageKind::plant:
    return plant_terms(kb.entries[planned.entry]);
  case PageKind::source:
    return source_terms(kb.entries[planned.entry]);
  case PageKind::claim:
    return claim_json(site, planned.entry);
  case PageKind::feature:
    return feature_terms(kb.entries[planned.entry]);
  case PageKind::market:
    return {{"@type", "Country"}, {"identifier", country_words(planned.topic)}};
  case PageKind::line:
  case PageKind::repro:
  case PageKind::period:
  case PageKind::card:
  case PageKind::route:
  case PageKind::mark:
    return {{"@type", "Thing"}, {"name", full_name_of(kb, planned.entry)}};
  default:
    return nullptr;
  }
}

// "1976-08-01/1978-01-31", an ISO 8601 interval, where both ends are bounded: the whole stretch that is possible.
std::string coverage(const Site& site, EntryIndex entry) {
  if (entry == no_entry || !site.backlinks().span[at(entry)]) return {};
  const auto [start, end] = ends_of(site, *site.backlinks().span[at(entry)]);
  return start.earliest && end.latest ? iso(*start.earliest) + "/" + iso(*end.latest) : std::string{};
}

Json distribution(const Site& site) {
  Json list = Json::array();
  for (const ExportFile& file : exported_files(site.kb()))
    list.push_back({{"@type", "DataDownload"},
                    {"name", file.holds},
                    {"encodingFormat", file.type},
                    {"contentUrl", address_of(site, file.path)}});
  return list;
}

Json breadcrumbs(const Site& site, const Page& page) {
  Json items = Json::array();
  for (const Piece& crumb : page.crumbs)
    items.push_back({{"@type", "ListItem"},
                     {"position", items.size() + 1},
                     {"name", crumb.text},
                     {"item", address_of(site, crumb.to)}});
  items.push_back({{"@type", "ListItem"},
                   {"position", items.size() + 1},
                   {"name", page.title},
                   {"item", address_of(site, page.path)}});
  return {{"@type", "BreadcrumbList"}, {"itemListElement", std::move(items)}};
}

} // namespace

std::string json_ld_of(const Site& site, const PlannedPage& planned, const Page& page) {
  if (planned.kind == PageKind::not_found) return {};
  const std::string address = address_of(site, page.path);
  Json main{{"@type", page_type(planned.kind)}};
  if (!site.options().base_url.empty()) main["@id"] = address;
  main["name"] = page.title;
  if (!address.empty()) main["url"] = address;
  add_term(main, "description", page.summary);
  if (planned.kind == PageKind::home) add_term(main, "dateModified", site.options().date);
  add_term(main, "temporalCoverage", coverage(site, planned.entry));
  if (planned.kind == PageKind::data) main["distribution"] = distribution(site);
  if (Json of = about(site, planned); !of.is_null()) main["about"] = std::move(of);
  Json graph = Json::array({std::move(main)});
  if (!page.crumbs.empty()) graph.push_back(breadcrumbs(site, page));
  const Json document{{"@context", "https://schema.org"}, {"@graph", std::move(graph)}};
  return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace coeval
