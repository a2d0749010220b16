// diagnose/catalogue.hpp: which mistakes can be reported, and what does each mean?
//
// One row per code. The name is stable: people suppress, search for and link to it. A test demands that every code
// occurs in a golden case.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace coeval {

enum class Severity : std::uint8_t { error, warning, note };
[[nodiscard]] std::string_view name(Severity severity);

enum class Code : std::uint8_t {
  // the world: files and folders
  unreadable_file,
  unreadable_folder,
  no_entries,
  file_too_large,
  too_many_files,
  link_leaves_kb,
  unreadable_revision,
  // the world: the folder that a site is published to
  unwritable_folder,
  disk_full,
  folder_locked,
  file_in_use,
  foreign_file,
  edited_file,
  broken_manifest,
  broken_json,
  // the folder that says how a site looks
  broken_template,
  template_part_missing,
  template_part_unknown,
  template_slot_missing,
  template_slot_unknown,
  template_blocked,
  // the text of an entry
  broken_utf8,
  broken_toml,
  unknown_table,
  unknown_key,
  missing_key,
  wrong_type,
  wrong_value,
  misplaced_table,
  empty_text,
  broken_id,
  broken_address,
  broken_date,
  broken_duration,
  broken_url,
  broken_country,
  broken_colour,
  // what entries say of each other
  duplicate_id,
  duplicate_value,
  unknown_address,
  ambiguous_address,
  wrong_kind,
  self_reference,
  unknown_source,
  line_needed,
  missing_reading,
  unwanted_reading,
  broken_reading,
  // rules of the data
  basis_without_source,
  incomplete_timing,
  unknown_feature,
  wrong_feature_value,
  broken_feature,
  no_tolerance,
  indistinguishable,
  picture_missing,
  picture_type,
  picture_broken,
  picture_unsafe,
  picture_located,
  unknown_slot,
  slot_differs,
  slot_taken_twice,
  pairing_conflict,
  pairing_without_place,
  pairing_misrouted,
  exclusive_conflict,
  no_outfit,
  unused_source,
  broken_numbers,
  // the chronology
  contradiction,
  impossible_interval,
  refuted_claim_possible,
  supported_claim_impossible,
  open_claim_decided,
  claim_now_proven,
  claim_not_proven,
  // a collector's shelf
  broken_amount,
  broken_condition,
  broken_csv,
  unnamed_thing,
  named_twice,
  slot_worn_twice,
  broken_look,
  days_backwards,
  unusable_fees,
  missing_rate,
  shelf_too_large,
  fixed_table,
};

struct CatalogueRow {
  Code code;
  std::string_view name; // "unknown-key": the code as printed
  Severity severity;
  std::string_view title;   // what the code stands for, in a few words
  std::string_view why;     // why it matters to somebody who relies on the knowledge base
  std::string_view example; // a short piece of TOML, or of a terminal, that shows it
  std::string_view repair;  // what to do
};

[[nodiscard]] std::span<const CatalogueRow> catalogue();
[[nodiscard]] const CatalogueRow& row(Code code);
[[nodiscard]] const CatalogueRow* find_row(std::string_view name);

} // namespace coeval
