// Numbers and sizes are written as they lie in memory, and every list and text behind its size, so that where one value
// ends is never a question of what is in it. Each struct is taken apart by name: one that gets a member more does not
// compile until that is put here too.
#include "pages/page_content.hpp"

#include <type_traits>

namespace coeval {
namespace {

class ContentWriter {
public:
  template <class... Values> void put_all(const Values&... values) { (put(values), ...); }

  [[nodiscard]] PageContent content() && { return std::move(content_); }

private:
  template <class Number>
  requires std::is_arithmetic_v<Number> || std::is_enum_v<Number>
  void put(const Number& number) { content_.text.append(reinterpret_cast<const char*>(&number), sizeof number); }
  void put(const std::string& text) {
    put(text.size());
    content_.text += text;
  }
  template <class Value> void put(const std::vector<Value>& list) {
    put(list.size());
    for (const Value& value : list) put(value);
  }
  template <class Value> void put(const std::optional<Value>& value) {
    put(value.has_value());
    if (value) put(*value);
  }
  void put(const std::pair<double, double>& point) { put_all(point.first, point.second); }
  void put(const std::array<double, 3>& lab) { put_all(lab[0], lab[1], lab[2]); }
  template <class... Kinds> void put(const std::variant<Kinds...>& value) {
    put(value.index());
    std::visit([this](const auto& kind) { this->put(kind); }, value);
  }

  // clang-format off
  void put(const Piece& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const Step& it) { const auto& [a, b, c, d] = it; put_all(a, b, c, d); }
  void put(const EvidenceView& it) { const auto& [a, b, c, d] = it; put_all(a, b, c, d); }
  void put(const BoundView& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const PointView& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const SpanView& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const GroundView& it) { const auto& [a, b, c, d, e] = it; put_all(a, b, c, d, e); }
  void put(const VerdictView& it) { const auto& [a, b, c, d, e, f, g, h, i] = it; put_all(a, b, c, d, e, f, g, h, i); }
  void put(const Paragraphs& it) { const auto& [a] = it; put_all(a); }
  void put(const Caution& it) { const auto& [a] = it; put_all(a); }
  void put(const Facts::Fact& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const Facts& it) { const auto& [a] = it; put_all(a); }
  void put(const EvidenceBlock& it) { const auto& [a] = it; put_all(a); }
  void put(const Bounds& it) { const auto& [a] = it; put_all(a); }
  void put(const Verdicts& it) { const auto& [a, b] = it; put_all(a, b); }
  void put(const Cell& it) { const auto& [a, b, c, d, e] = it; put_all(a, b, c, d, e); }
  void put(const Table& it) { const auto& [a, b, c, d] = it; put_all(a, b, c, d); }
  void put(const Plate& it) { const auto& [a] = it; put_all(a); }
  void put(const DrawingBlock& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const List::Item& it) { const auto& [a, b] = it; put_all(a, b); }
  void put(const List::Group& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const List& it) { const auto& [a] = it; put_all(a); }
  void put(const Checklist::Item& it) { const auto& [a, b] = it; put_all(a, b); }
  void put(const Checklist::Group& it) { const auto& [a, b] = it; put_all(a, b); }
  void put(const Checklist& it) { const auto& [a] = it; put_all(a); }
  void put(const KeyView::Answer& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const KeyView::Couplet& it) { const auto& [a, b, c, d, e] = it; put_all(a, b, c, d, e); }
  void put(const KeyView& it) { const auto& [a] = it; put_all(a); }
  void put(const Details& it) { const auto& [a, b] = it; put_all(a, b); }
  void put(const Section& it) { const auto& [a, b, c, d] = it; put_all(a, b, c, d); }
  void put(const Rectangle& it) { const auto& [a, b, c, d, e, f] = it; put_all(a, b, c, d, e, f); }
  void put(const Polyline& it) { const auto& [a, b, c] = it; put_all(a, b, c); }
  void put(const Curve& it) { const auto& [a, b, c, d, e] = it; put_all(a, b, c, d, e); }
  void put(const Lettering& it) { const auto& [a, b, c, d, e, f] = it; put_all(a, b, c, d, e, f); }
  void put(const Drawing& it) { const auto& [a, b, c, d, e] = it; put_all(a, b, c, d, e); }
  // clang-format on
  template <class Empty>
  requires std::is_empty_v<Empty> // Legend, Checker, Search
  void put(const Empty&) {}
  void put(const Picture& it) {
    const auto& [file, alt, credit, caption] = it;
    put_all(file, alt, credit, caption);
    content_.pictures.push_back(file);
  }

  PageContent content_;
};

} // namespace

PageContent content_of(const Page& page) {
  const auto& [kind, path, title, eyebrow, summary, crumbs, sections, json_ld] = page;
  ContentWriter writer;
  writer.put_all(kind, path, title, eyebrow, summary, crumbs, sections, json_ld);
  return std::move(writer).content();
}

} // namespace coeval
