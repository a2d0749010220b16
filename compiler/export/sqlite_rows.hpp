// export/sqlite_rows.hpp: which rows go into the tables of the database?
//
// Private to this room. Rows come in portions, each of some tables that are filled together, so that what a portion
// holds can be compared with what an earlier database held before anything is written.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "export/database.hpp"
#include "export/graph.hpp"
#include "export/sqlite.hpp"
#include "verdicts/matrix.hpp"

namespace coeval {

// Where the rows of one portion go: into an empty database, into one in which they replace those that are there, or
// nowhere, to be summed.
class RowsOfPortion {
public:
  enum class Into : std::uint8_t { nowhere, empty, filled };
  RowsOfPortion(Database* database, Into into) : database_(into == Into::nowhere ? nullptr : database), into_(into) {}

  [[nodiscard]] Insertion into(std::string_view table, int columns);
  // The full-text index has to be filled in one go, or its bytes tell what was there before.
  [[nodiscard]] Insertion into_search();
  void search_is_full();
  [[nodiscard]] ContentHash sum() const { return sum_.hash(); }

private:
  Database* database_;
  Into into_;
  RowSum sum_;
};

struct Portion {
  std::string name;
  std::function<void(RowsOfPortion& rows)> fill; // the same rows every time
};

// All of them. They look at what they are made of, which must outlive them.
[[nodiscard]] std::vector<Portion> portions_of(const LinkedKb& kb, const Chronology& chronology,
                                               const SourceSet& sources, const ExportGraph& days,
                                               const std::vector<VerdictRow>& verdicts);

} // namespace coeval
