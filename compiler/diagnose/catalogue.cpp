#include "diagnose/catalogue.hpp"

#include <algorithm>
#include <vector>

#include "diagnose/catalogue_rows.hpp"

namespace coeval {

std::string_view name(Severity severity) {
  switch (severity) {
  case Severity::error:
    return "error";
  case Severity::warning:
    return "warning";
  case Severity::note:
    return "note";
  }
  return {};
}

std::span<const CatalogueRow> catalogue() {
  static const std::vector<CatalogueRow> rows = [] {
    std::vector<CatalogueRow> all;
    for (const auto part : {rows_of_the_world(), rows_of_publishing(), rows_of_templates(), rows_of_text(),
                            rows_of_links(), rows_of_marks(), rows_of_rules(), rows_of_chronology(), rows_of_shelves()})
      all.insert(all.end(), part.begin(), part.end());
    std::ranges::sort(all, {}, &CatalogueRow::code);
    return all;
  }();
  return rows;
}

// Every code has a row: a test holds it to that.
const CatalogueRow& row(Code code) { return catalogue()[static_cast<std::size_t>(code)]; }

const CatalogueRow* find_row(std::string_view name) {
  const auto rows = catalogue();
  const auto found = std::ranges::find(rows, name, &CatalogueRow::name);
  return found == rows.end() ? nullptr : &*found;
}

} // namespace coeval
