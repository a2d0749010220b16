// Two things found together must have met: an attested pairing whose part could not have reached the packer means that
// a route is missing, or that the pairing is not original.
#include <fmt/format.h>

#include "rules/rule_list.hpp"
#include "verdicts/route.hpp"

namespace coeval {

void check_pairings_have_routes(const RuleInput& input, const Chronology& chronology, Diagnostics& out) {
  if (!input.complete || !chronology.contradictions().empty()) return;
  const LinkedKb& kb = input.kb;
  Distances distances{chronology};
  for (const Route& route : kb.routes) { // every question below is about one of these
    distances.keep(start_of(route.span));
    distances.keep(end_of(route.span));
  }
  for (const Pairing& pairing : kb.pairings) {
    if (pairing.refuted || pairing.evidence.disputed) continue;
    const auto route_on_record = [&](RouteTelling telling) {
      return route_of(kb, distances, pairing.run, pairing.issue, kb.leftover_of(pairing.issue), Basis::conjectured,
                      telling);
    };
    if (route_on_record(RouteTelling::answer).answer != Answer::no) continue;
    RouteAnswer route = route_on_record(RouteTelling::proof);
    Diagnostic apart;
    apart.code = Code::pairing_misrouted;
    apart.place = pairing.evidence.place;
    apart.message = fmt::format("`{}` was found with `{}`, but {}", kb.runs[at(pairing.run)].address,
                                kb.issues[at(pairing.issue)].address, route.words);
    apart.reasons = std::move(route.proof);
    apart.help = "add the route that it took, or mark the pairing with disputed = true";
    out.report(std::move(apart));
  }
}

} // namespace coeval
