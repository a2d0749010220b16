#include "diagnose/diagnostic.hpp"

#include <algorithm>
#include <iterator>
#include <tuple>
#include <utility>

namespace coeval {
namespace {

// What stands first is compared first. A file as a whole comes before any place in a file: it may explain the rest.
auto order_of(const Diagnostic& diagnostic) {
  using Order =
      std::tuple<bool, FileIndex, std::uint32_t, const std::string&, Code, std::uint32_t, const std::string&,
                 const std::string&, const std::vector<Label>&, const std::vector<Reason>&, const std::optional<Fix>&>;
  const Span& place = diagnostic.place;
  return Order{place.known(),      place.file,      place.begin,       diagnostic.path,    diagnostic.code, place.end,
               diagnostic.message, diagnostic.help, diagnostic.labels, diagnostic.reasons, diagnostic.fix};
}

} // namespace

void Diagnostics::merge(Diagnostics other) {
  list_.insert(list_.end(), std::make_move_iterator(other.list_.begin()), std::make_move_iterator(other.list_.end()));
}

std::vector<Diagnostic> Diagnostics::sorted() const {
  std::vector<Diagnostic> list = list_;
  const auto before = [](const Diagnostic& a, const Diagnostic& b) { return order_of(a) < order_of(b); };
  std::sort(list.begin(), list.end(), before);
  const auto same = [](const Diagnostic& a, const Diagnostic& b) { return order_of(a) == order_of(b); };
  list.erase(std::unique(list.begin(), list.end(), same), list.end());
  return list;
}

bool Diagnostics::has_errors() const {
  return std::any_of(list_.begin(), list_.end(),
                     [](const Diagnostic& diagnostic) { return row(diagnostic.code).severity == Severity::error; });
}

std::size_t Diagnostics::count(Severity severity) const {
  const std::vector<Diagnostic> list = sorted();
  return static_cast<std::size_t>(std::count_if(list.begin(), list.end(), [&](const Diagnostic& diagnostic) {
    return row(diagnostic.code).severity == severity;
  }));
}

} // namespace coeval
