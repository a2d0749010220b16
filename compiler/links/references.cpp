#include "links/references.hpp"

#include <numeric>

#include "links/addresses.hpp"

namespace coeval {
namespace {

class ReferenceReader {
public:
  explicit ReferenceReader(const LinkedKb& kb) : kb_(kb), addresses_(kb) {
    for (const KindSpec& spec : schema())
      if (!dates_key(spec.kind).empty()) lasting_.push_back(spec.kind);
  }

  std::vector<Reference> read() {
    for (std::size_t i = 0; i < kb_.entries.entries.size(); ++i) {
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      for (const KeySpec& key : spec_of(kb_.entries[index].kind).keys)
        if (const Field* field = kb_.entries[index].find(key.name)) read_field(index, *field);
    }
    return std::move(references_);
  }

private:
  void read_field(EntryIndex from, const Field& field) {
    switch (field.spec->type) {
    case ValueType::address:
    case ValueType::address_list:
    case ValueType::mark_list:
      read_addresses(from, field, field.spec->targets);
      break;
    case ValueType::span:
    case ValueType::span_list:
    case ValueType::point:
      read_addresses(from, field, lasting_);
      break;
    case ValueType::citations:
      read_citations(from, field);
      break;
    case ValueType::features:
      read_features(from, field);
      break;
    default:
      break;
    }
  }

  void add(EntryIndex from, const Field& field, std::size_t position, EntryIndex to, std::string detail) {
    references_.push_back({from, field.spec, static_cast<std::uint32_t>(position), to, std::move(detail)});
  }

  void read_addresses(EntryIndex from, const Field& field, std::span<const Kind> kinds) {
    const Words& words = std::get<Words>(field.value);
    for (std::size_t i = 0; i < words.size(); ++i) {
      std::string_view text = words[i].text;
      std::string detail;
      const char parting = field.spec->type == ValueType::point ? '.' : '=';
      if (const std::size_t end = text.rfind(parting); end != std::string_view::npos) {
        detail = text.substr(end + 1);
        text = text.substr(0, end);
      }
      if (const auto to = addresses_.resolve({text, {}, words[i].place, from}, kinds, reported_already_))
        add(from, field, i, *to, std::move(detail));
    }
  }

  void read_citations(EntryIndex from, const Field& field) {
    const Words& words = std::get<Words>(field.value);
    for (std::size_t i = 0; i < words.size(); ++i) {
      const std::string_view text = words[i].text;
      const std::size_t space = text.find(' ');
      const auto source = addresses_.find("source", text.substr(0, space));
      if (!source) continue;
      add(from, field, i, *source,
          space == std::string_view::npos ? std::string{} : std::string{text.substr(space + 1)});
    }
  }

  void read_features(EntryIndex from, const Field& field) {
    const auto& features = std::get<Features>(field.value);
    for (std::size_t i = 0; i < features.size(); ++i)
      if (const auto feature = kb_.find_feature(features[i].feature))
        add(from, field, i, kb_.features[at(*feature)].entry, {});
  }

  const LinkedKb& kb_;
  AddressReader addresses_;
  LinkTroubles reported_already_;
  std::vector<Kind> lasting_;
  std::vector<Reference> references_;
};

} // namespace

std::vector<Reference> references_of(const LinkedKb& kb) { return ReferenceReader{kb}.read(); }

ReferenceTable::ReferenceTable(const LinkedKb& kb)
    : references_(references_of(kb)), first_(kb.entries.entries.size() + 1) {
  for (const Reference& reference : references_) ++first_[at(reference.from) + 1];
  std::partial_sum(first_.begin(), first_.end(), first_.begin());
}

} // namespace coeval
