// How does an editor or a code host read a diagnostic? As SARIF 2.1.0 (OASIS Static Analysis Results Interchange
// Format).
//
// Paths are relative to the root of the knowledge base, whose base id is KB. Labels and reasons are related locations.
#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "diagnose/render.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view schema =
    "https://raw.githubusercontent.com/oasis-tcs/sarif-spec/master/Schemata/sarif-schema-2.1.0.json";

// RFC 3986: everything but unreserved characters and the slashes between the parts of a path.
std::string percent_encoded(std::string_view path) {
  std::string uri;
  for (const char c : path) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
                       c == '.' || c == '_' || c == '~' || c == '/';
    uri += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
  }
  return uri;
}

// In SARIF's messages "[text](1)" is a link and "{0}" a placeholder (3.11.5 and 3.11.6); ours hold neither, but what
// they quote may. Brackets and braces are escaped only then, as most readers show the escapes.
std::string message_text(std::string_view text) {
  const bool link = text.find("](") != std::string_view::npos;
  bool placeholder = false;
  for (std::size_t brace = text.find('{'); brace != std::string_view::npos; brace = text.find('{', brace + 1))
    placeholder = placeholder || (brace + 1 < text.size() && text[brace + 1] >= '0' && text[brace + 1] <= '9');
  std::string escaped;
  for (const char c : text) {
    if (link && (c == '[' || c == ']' || c == '\\')) escaped += '\\';
    if (placeholder && (c == '{' || c == '}')) escaped += c;
    escaped += c;
  }
  return escaped;
}

Json message(std::string_view text) { return {{"text", message_text(text)}}; }

class SarifWriter {
public:
  SarifWriter(const std::vector<Diagnostic>& list, const SourceSet& sources) : list_(list), sources_(sources) {
    for (const Diagnostic& diagnostic : list) codes_.push_back(diagnostic.code);
    std::ranges::sort(codes_);
    codes_.erase(std::unique(codes_.begin(), codes_.end()), codes_.end());
  }

  Json write() {
    Json rules = Json::array();
    for (const Code code : codes_) rules.push_back(rule(row(code)));
    Json results = Json::array();
    for (const Diagnostic& diagnostic : list_) results.push_back(result(diagnostic));
    Json run{{"tool", {{"driver", {{"name", "coeval"}, {"rules", std::move(rules)}}}}},
             {"columnKind", "unicodeCodePoints"},
             {"originalUriBaseIds", {{"KB", {{"description", message("the root of the knowledge base")}}}}},
             {"results", std::move(results)}};
    return {{"$schema", schema}, {"version", "2.1.0"}, {"runs", Json::array({std::move(run)})}};
  }

private:
  static Json rule(const CatalogueRow& kind) {
    const std::string_view language = kind.example.starts_with("$ ") ? "console" : "toml";
    return {{"id", kind.name},
            {"shortDescription", {{"text", kind.title}}},
            {"fullDescription", {{"text", fmt::format("{}: {}", kind.title, kind.why)}}},
            {"help",
             {{"text", fmt::format("{}\n\nexample:\n{}", kind.repair, kind.example)},
              {"markdown", fmt::format("{}\n\n```{}\n{}\n```", kind.repair, language, kind.example)}}},
            {"defaultConfiguration", {{"level", name(kind.severity)}}}};
  }

  [[nodiscard]] bool known(Span place) const {
    return place.known() && static_cast<std::size_t>(place.file) < sources_.files.size();
  }

  // The root itself is "./".
  [[nodiscard]] Json artifact(const std::string& path) const {
    const std::string uri = path == sources_.root ? "./" : percent_encoded(path);
    return {{"uri", uri}, {"uriBaseId", "KB"}};
  }

  [[nodiscard]] Json region(Span place) const {
    const LineColumn begin = sources_[place.file].position(place.begin);
    const LineColumn end = sources_[place.file].position(std::max(place.begin, place.end));
    return {{"startLine", begin.line}, {"startColumn", begin.column}, {"endLine", end.line}, {"endColumn", end.column}};
  }

  [[nodiscard]] Json location(Span place, const std::string& path) const {
    if (known(place))
      return {{"physicalLocation",
               {{"artifactLocation", artifact(sources_[place.file].path())}, {"region", region(place)}}}};
    return path.empty() ? Json::object() : Json{{"physicalLocation", {{"artifactLocation", artifact(path)}}}};
  }

  static std::string reason_text(const Reason& reason, std::size_t number) {
    std::string text =
        fmt::format("{}. {} ({}", number, reason.statement, reason.definition ? "by definition" : name(reason.basis));
    for (std::size_t i = 0; i < reason.sources.size(); ++i) text += (i == 0 ? ": " : "; ") + reason.sources[i];
    return text + (reason.weakest ? "), doubt this one first" : ")");
  }

  [[nodiscard]] Json related(const Diagnostic& diagnostic) const {
    Json list = Json::array();
    const auto add = [&](Span place, const std::string& text) {
      Json item{{"id", list.size() + 1}};
      item.update(location(place, {}));
      item["message"] = message(text);
      list.push_back(std::move(item));
    };
    for (const Label& label : diagnostic.labels) add(label.place, label.text);
    for (std::size_t i = 0; i < diagnostic.reasons.size(); ++i)
      add(diagnostic.reasons[i].place, reason_text(diagnostic.reasons[i], i + 1));
    return list;
  }

  [[nodiscard]] Json fix(const Diagnostic& diagnostic) const {
    const Fix& repair = *diagnostic.fix;
    const std::string_view words = diagnostic.help.empty() ? row(diagnostic.code).repair : diagnostic.help;
    const Json replacement{{"deletedRegion", region(repair.place)},
                           {"insertedContent", {{"text", repair.replacement}}}};
    const Json change{{"artifactLocation", artifact(sources_[repair.place.file].path())},
                      {"replacements", Json::array({replacement})}};
    return {{"description", message(words)},
            {"artifactChanges", Json::array({change})},
            {"properties", {{"certain", repair.certain}}}};
  }

  [[nodiscard]] Json result(const Diagnostic& diagnostic) const {
    const CatalogueRow& kind = row(diagnostic.code);
    const auto rule_index = std::ranges::lower_bound(codes_, diagnostic.code) - codes_.begin();
    std::string text = diagnostic.message;
    if (!diagnostic.help.empty()) text += "\nhelp: " + diagnostic.help;
    Json json{
        {"ruleId", kind.name}, {"ruleIndex", rule_index}, {"level", name(kind.severity)}, {"message", message(text)}};
    Json place = location(diagnostic.place, diagnostic.path);
    json["locations"] = place.empty() ? Json::array() : Json::array({std::move(place)});
    if (Json list = related(diagnostic); !list.empty()) json["relatedLocations"] = std::move(list);
    if (diagnostic.fix && known(diagnostic.fix->place)) json["fixes"] = Json::array({fix(diagnostic)});
    return json;
  }

  const std::vector<Diagnostic>& list_;
  const SourceSet& sources_;
  std::vector<Code> codes_; // those that occur, in the order of the catalogue
};

} // namespace

std::string render_sarif(const std::vector<Diagnostic>& list, const SourceSet& sources) {
  return SarifWriter{list, sources}.write().dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace coeval
