// diagnose/catalogue_rows.hpp: the rows of the catalogue, in the order of the codes, one list for each part of the
// enum.
//
// To add a code: its place in the enum (catalogue.hpp) and its row in the list of that part. Wording of title, why and
// repair: lower case, no full stop at the end; examples are of the invented line Saltmere Patrol and may be cut short.
#pragma once

#include <span>

#include "diagnose/catalogue.hpp"

namespace coeval {

[[nodiscard]] std::span<const CatalogueRow> rows_of_the_world();
[[nodiscard]] std::span<const CatalogueRow> rows_of_publishing();
[[nodiscard]] std::span<const CatalogueRow> rows_of_templates();
[[nodiscard]] std::span<const CatalogueRow> rows_of_text();
[[nodiscard]] std::span<const CatalogueRow> rows_of_links();
[[nodiscard]] std::span<const CatalogueRow> rows_of_marks();
[[nodiscard]] std::span<const CatalogueRow> rows_of_rules();
[[nodiscard]] std::span<const CatalogueRow> rows_of_chronology();
[[nodiscard]] std::span<const CatalogueRow> rows_of_shelves();

} // namespace coeval
