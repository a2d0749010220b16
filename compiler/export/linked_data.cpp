#include "export/linked_data.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

std::string_view work_type(std::string_view kind) {
  if (kind == "book") return "Book";
  if (kind == "law") return "Legislation";
  if (kind == "photograph") return "Photograph";
  if (kind == "web-page") return "WebPage";
  return "CreativeWork";
}

// ISO 3166-1 alpha-2 in capitals; empty for other codes.
std::string present_country(const Entry& entry) {
  const auto* words = entry.get<Words>("country");
  std::string code = words == nullptr || words->empty() ? std::string{} : words->front().text;
  if (code.size() != 2) return {};
  for (char& c : code)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return code;
}

} // namespace

void add_term(Json& json, std::string_view key, std::string_view text) {
  if (!text.empty()) json[std::string{key}] = text;
}

Json plant_terms(const Entry& plant) {
  Json address{{"@type", "PostalAddress"}};
  add_term(address, "addressLocality", plant.text("place"));
  add_term(address, "addressCountry", present_country(plant));
  Json json{{"@type", "Place"}, {"name", entry_name(plant)}};
  if (address.size() > 1) json["address"] = std::move(address);
  return json;
}

Json source_terms(const Entry& source) {
  Json json{{"@type", work_type(source.text("kind"))}, {"name", entry_name(source)}};
  if (const auto* published = source.get<WrittenDate>("published")) {
    const bool plain_date = published->edtf.level == 0 && published->edtf.shape == EdtfShape::date;
    if (plain_date) json["datePublished"] = published->text;
  }
  add_term(json, "url", source.text("url"));
  return json;
}

Json claim_terms(const Entry& claim) { return {{"@type", "Claim"}, {"text", claim.text("says")}}; }

Json feature_terms(const Entry& feature) {
  Json json{{"@type", "DefinedTerm"}, {"name", entry_name(feature)}, {"termCode", feature.id}};
  add_term(json, "description", feature.text("look"));
  return json;
}

} // namespace coeval
