// Whoever calls a statement documented, observed or reported must say where: else nobody can check it. What is only
// conjectured needs no source.
#include <fmt/format.h>

#include "rules/rule_list.hpp"

namespace coeval {

void check_basis_has_source(const RuleInput& input, Diagnostics& out) {
  for (const Entry& entry : input.kb.entries.entries) {
    const Field* basis = entry.find("basis");
    if (basis == nullptr || entry.broken || entry.find("source") != nullptr) continue;
    const std::string& said = std::get<KeptText>(basis->value);
    if (said == "conjectured") continue;
    Diagnostic missing;
    missing.code = Code::basis_without_source;
    missing.place = basis->place;
    missing.message = fmt::format("this is said to be {}, but no source is given", said);
    missing.help = "add source = [\"source-id place\"], or call it conjectured";
    out.report(std::move(missing));
  }
}

} // namespace coeval
