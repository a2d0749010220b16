// publish/reports.hpp: how is it said that a site could not be published?
#pragma once

#include <functional>
#include <mutex>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "diagnose/diagnostic.hpp"

namespace coeval {

// What an errno means, in the same words on every machine.
[[nodiscard]] std::string write_failure_words(int error);

// The reports about one folder. From several threads; a list that two of them report to is locked meanwhile.
class PublishReports {
public:
  explicit PublishReports(std::string folder) : folder_(std::move(folder)) {} // as the user wrote it

  // `path` lies below the folder; empty for the folder itself.
  void failed(std::string_view path, int error, Diagnostics& out); // a full disk, or anything else of the world
  void not_a_folder(Diagnostics& out);
  void locked(Diagnostics& out);
  void broken_manifest(std::string_view path, Diagnostics& out);
  void foreign(std::string_view path, Diagnostics& out); // only the first are told one by one
  void more_foreign(Diagnostics& out);                   // how many were not
  void edit_replaced(std::string_view path, Diagnostics& out);
  void edit_kept(std::string_view path, Diagnostics& out);

private:
  void report(Code code, std::string_view path, std::string message, std::string help, Diagnostics& out);

  std::string folder_;
  std::mutex mutex_;
  bool failed_ = false; // a full disk fails every file: once is enough
  std::set<std::string, std::less<>> foreign_;
};

} // namespace coeval
