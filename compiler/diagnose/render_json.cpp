#include <nlohmann/json.hpp>

#include "diagnose/render.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

// A place in a file, a file as a whole, or null where neither is known.
Json place_json(const SourceSet& sources, Span place, const std::string& path = {}) {
  if (!place.known() || static_cast<std::size_t>(place.file) >= sources.files.size())
    return path.empty() ? Json(nullptr) : Json{{"file", path}};
  const SourceFile& file = sources[place.file];
  const LineColumn begin = file.position(place.begin);
  const LineColumn end = file.position(place.end);
  return {{"file", file.path()},      {"line", begin.line},   {"column", begin.column}, {"end-line", end.line},
          {"end-column", end.column}, {"begin", place.begin}, {"end", place.end}};
}

Json reason_json(const SourceSet& sources, const Reason& reason) {
  return {{"statement", reason.statement}, {"basis", reason.definition ? Json(nullptr) : Json(name(reason.basis))},
          {"sources", reason.sources},     {"definition", reason.definition},
          {"weakest", reason.weakest},     {"place", place_json(sources, reason.place)}};
}

Json diagnostic_json(const SourceSet& sources, const Diagnostic& diagnostic) {
  const CatalogueRow& kind = row(diagnostic.code);
  Json labels = Json::array();
  for (const Label& label : diagnostic.labels)
    labels.push_back({{"text", label.text}, {"place", place_json(sources, label.place)}});
  Json reasons = Json::array();
  for (const Reason& reason : diagnostic.reasons) reasons.push_back(reason_json(sources, reason));
  Json fix = nullptr;
  if (diagnostic.fix)
    fix = {{"place", place_json(sources, diagnostic.fix->place)},
           {"replacement", diagnostic.fix->replacement},
           {"certain", diagnostic.fix->certain}};
  return {{"code", kind.name},
          {"severity", name(kind.severity)},
          {"message", diagnostic.message},
          {"help", diagnostic.help},
          {"place", place_json(sources, diagnostic.place, diagnostic.path)},
          {"labels", std::move(labels)},
          {"reasons", std::move(reasons)},
          {"fix", std::move(fix)}};
}

} // namespace

std::string render_json(const std::vector<Diagnostic>& list, const SourceSet& sources) {
  Json diagnostics = Json::array();
  for (const Diagnostic& diagnostic : list) diagnostics.push_back(diagnostic_json(sources, diagnostic));
  const Json document{{"format", "coeval-diagnostics"}, {"version", 1}, {"diagnostics", std::move(diagnostics)}};
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace coeval
