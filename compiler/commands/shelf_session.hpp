// commands/shelf_session.hpp: what do the commands about a collector's shelf share?
#pragma once

#include "commands/command.hpp"
#include "shelf/shelf.hpp"

namespace coeval {

struct ShelfSettings {
  std::string file = "shelf.toml"; // as given
};

// A shelf without errors beside a knowledge base without errors, ready for questions.
class ShelfSession {
public:
  // Compiles the knowledge base, reads the shelf and prints what is wrong with either; `exit` is set, and nothing else
  // may be asked, where there are errors. Warnings are printed and hinder nothing.
  ShelfSession(const Settings& settings, const ShelfSettings& shelf);
  std::optional<int> exit;

  [[nodiscard]] const Session& session() const { return session_; }
  [[nodiscard]] const LinkedKb& kb() const { return session_.kb(); }
  [[nodiscard]] const Chronology& dates() const { return session_.dates(); }
  [[nodiscard]] const LinkedShelf& shelf() const { return shelf_; }
  [[nodiscard]] const SourceSet& sources() const { return sources_; } // of the shelf

  // The piece with this id; where there is none, standard error says so with those that are near: exit with
  // `exit_usage`.
  [[nodiscard]] std::optional<PieceIndex> find_piece(const std::string& id) const;

  // Prints what is wrong, found only while answering, and what follows from it, and gives the exit code.
  [[nodiscard]] int refuse(const Diagnostics& out, int code = exit_no,
                           std::string_view so = "no answer: the shelf must be without errors first") const;

private:
  [[nodiscard]] std::vector<Diagnostic> told(const Diagnostics& out) const; // with the cells of a table named

  const Settings& settings_;
  Session session_;
  SourceSet sources_;
  LinkedShelf shelf_;
};

} // namespace coeval
