#include "verdicts/route.hpp"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

namespace coeval {
namespace {

class FoundOrders : public Orders {
public:
  FoundOrders(const LinkedKb& kb, Distances& distances, RunIndex run, IssueIndex issue, const Leftover* leftover,
              Basis weakest)
      : kb_(kb), distances_(distances), run_(kb.runs[at(run)].span), issue_(kb.issues[at(issue)].span),
        leftover_(leftover), weakest_(weakest) {}
  OrderAnswer from_run(RouteIndex into) override { return order(run_, span_of(into)); }
  OrderAnswer from_route(RouteIndex from, RouteIndex into) override { return order(span_of(from), span_of(into)); }
  OrderAnswer into_issue(RouteIndex from) override { return order(span_of(from), issue_); }
  std::vector<Reason> proof(TimeSpanIndex from, TimeSpanIndex into, const OrderAnswer& answer) override {
    return order_proof(distances_, from, into, leftover_, answer);
  }

private:
  [[nodiscard]] TimeSpanIndex span_of(RouteIndex route) const { return kb_.routes[at(route)].span; }
  OrderAnswer order(TimeSpanIndex from, TimeSpanIndex into) {
    return order_of(distances_, from, into, leftover_, weakest_);
  }

  const LinkedKb& kb_;
  Distances& distances_;
  TimeSpanIndex run_;
  TimeSpanIndex issue_;
  const Leftover* leftover_;
  Basis weakest_;
};

// Takes into account how the parts went on, and tells whether they can have.
bool goes_on(RouteChain& chain, const OrderAnswer& order, Basis& no_basis) {
  if (order.answer == Answer::no) no_basis = std::max(no_basis, *order.basis);
  if (order.answer == Answer::undecided) chain.answer = Answer::undecided;
  if (order.basis) chain.basis = std::max(chain.basis, *order.basis);
  return order.answer != Answer::no;
}

// Searches backwards from the packer.
class WaySearch {
public:
  WaySearch(const LinkedKb& kb, Orders& orders, const Journey& journey, Basis weakest, bool with_proof)
      : kb_(kb), orders_(orders), journey_(journey), weakest_(weakest), with_proof_(with_proof) {}

  RouteWays find() {
    visit(*journey_.packer);
    return std::move(ways_);
  }

private:
  [[nodiscard]] bool carries(const Route& route) const {
    return route.carries.empty() || std::ranges::find(route.carries, journey_.accessory) != route.carries.end();
  }

  void add_completeness(const Plant& here) {
    Reason reason = reason_for(fmt::format("every route into {} is entered", here.name), here.evidence);
    if (std::ranges::find(ways_.no_proof, reason.place, &Reason::place) == ways_.no_proof.end())
      ways_.no_proof.push_back(std::move(reason));
  }

  void leave_open(const Plant& plant) {
    if (!ways_.open_ended) ways_.incomplete = &plant.name;
    ways_.open_ended = true;
  }

  // `path_` holds the routes from this plant to the packer, the nearest to the packer first.
  void visit(PlantIndex plant) {
    const Plant& here = kb_.plants[at(plant)];
    if (!here.routes_complete || here.evidence.basis > weakest_) {
      leave_open(here);
    } else {
      ways_.no_basis = std::max(ways_.no_basis, here.evidence.basis);
      if (with_proof_) add_completeness(here);
    }
    for (const RouteIndex index : here.routes_in) {
      const Route& route = kb_.routes[at(index)];
      if (at(route.from) >= kb_.plants.size() || !carries(route)) continue;
      if (std::ranges::any_of(path_, [&](RouteIndex later) {
            const Route& other = kb_.routes[at(later)];
            return other.from == route.from || other.to == route.from;
          }))
        continue;
      if (path_.empty() && route.from == *journey_.packer) continue;
      follow(index);
    }
  }

  void follow(RouteIndex index) {
    // Could this route have fed every later hop, and the packing?
    const Route& route = kb_.routes[at(index)];
    RouteChain chain{.basis = route.evidence.basis};
    if (!into_issue(chain, index)) return;
    for (const RouteIndex later : path_)
      if (!from_route(chain, index, later)) return;
    path_.push_back(index);
    if (route.from == *journey_.plant) {
      for (const RouteIndex hop : path_) chain.basis = std::max(chain.basis, kb_.routes[at(hop)].evidence.basis);
      chain.hops = path_;
      chain.no_proof_before = ways_.no_proof.size();
      ways_.chains.push_back(std::move(chain));
    } else if (path_.size() >= most_hops) {
      leave_open(kb_.plants[at(route.from)]);
    } else {
      visit(route.from);
    }
    path_.pop_back();
  }

  bool into_issue(RouteChain& chain, RouteIndex from) {
    const OrderAnswer order = orders_.into_issue(from);
    if (with_proof_) prove(chain, span_of(from), kb_.issues[at(journey_.issue)].span, order);
    return goes_on(chain, order, ways_.no_basis);
  }
  bool from_route(RouteChain& chain, RouteIndex from, RouteIndex into) {
    const OrderAnswer order = orders_.from_route(from, into);
    if (with_proof_) prove(chain, span_of(from), span_of(into), order);
    return goes_on(chain, order, ways_.no_basis);
  }
  void prove(RouteChain& chain, TimeSpanIndex from, TimeSpanIndex into, const OrderAnswer& order) {
    std::ranges::move(orders_.proof(from, into, order),
                      std::back_inserter(order.answer == Answer::no ? ways_.no_proof : chain.proof));
  }
  [[nodiscard]] TimeSpanIndex span_of(RouteIndex route) const { return kb_.routes[at(route)].span; }

  const LinkedKb& kb_;
  Orders& orders_;
  const Journey& journey_;
  Basis weakest_;
  bool with_proof_;
  decltype(RouteChain::hops) path_;
  RouteWays ways_;
};

// Calls visit(hop) for those of the chain until that gives false: first the one that leaves the plant.
template <class Visit> void each_hop(const RouteChain& chain, const Visit& visit) {
  if (!visit(chain.hops.back())) return;
  for (std::size_t i = 0; i + 1 < chain.hops.size(); ++i)
    if (!visit(chain.hops[i])) return;
}

struct ChainFinding {
  Answer answer{};
  Basis basis{};
};

// Could the run have gone this way? Where not, `no_basis` takes in on what basis.
ChainFinding follow(Orders& orders, const RouteChain& way, Basis& no_basis) {
  ChainFinding found{way.answer, way.basis};
  each_hop(way, [&](RouteIndex hop) {
    const OrderAnswer order = orders.from_run(hop);
    if (order.answer == Answer::no) no_basis = std::max(no_basis, *order.basis);
    if (order.answer != Answer::yes) found.answer = order.answer;
    if (order.basis) found.basis = std::max(found.basis, *order.basis);
    return order.answer != Answer::no;
  });
  return found;
}

// Tells a way that has been found, or why there is none.
class WayTelling {
public:
  WayTelling(const LinkedKb& kb, Orders& orders, const Journey& journey, const RouteWays& ways, bool with_proof)
      : kb_(kb), orders_(orders), journey_(journey), ways_(ways), with_proof_(with_proof) {}

  // Of the ways that are proven on the basis, the one with the shortest proof; the first among equals.
  void tell_yes(RouteAnswer& answer, Basis basis) const {
    bool told = false;
    for (const RouteChain& way : ways_.chains) {
      Basis no_basis{};
      const ChainFinding found = follow(orders_, way, no_basis);
      if (found.answer != Answer::yes || found.basis != basis) continue;
      std::vector<Reason> proof;
      if (with_proof_) proof = proof_of(way);
      if (told && answer.proof.size() <= proof.size()) continue;
      told = true;
      answer.words = words_of(way);
      answer.proof = std::move(proof);
    }
  }

  void tell_undecided(RouteAnswer& answer, bool possible) const {
    if (possible) {
      answer.words = fmt::format("{} may have supplied {}; the dates do not decide it", from(), to());
      answer.would_settle.push_back(fmt::format("when parts went from {} to {}", from(), to()));
    } else {
      answer.words =
          fmt::format("no route from {} to {} is entered, and the routes into {} are not said to be complete", from(),
                      to(), *ways_.incomplete);
      answer.would_settle.push_back(fmt::format("whether {} ever supplied {}", from(), to()));
    }
  }

  // The reasons come in the order in which they were met.
  void tell_no(RouteAnswer& answer) const {
    answer.words = fmt::format("nothing went from {} to {}", from(), to());
    if (!with_proof_) return;
    std::size_t told = 0;
    const auto tell_others = [&](std::size_t up_to) {
      for (; told < up_to; ++told) answer.proof.push_back(ways_.no_proof[told]);
    };
    for (const RouteChain& way : ways_.chains) {
      tell_others(way.no_proof_before);
      std::ranges::move(proof_from_run(way, Answer::no), std::back_inserter(answer.proof));
    }
    tell_others(ways_.no_proof.size());
  }

private:
  [[nodiscard]] std::string_view from() const { return kb_.plants[at(*journey_.plant)].name; }
  [[nodiscard]] std::string_view to() const { return kb_.plants[at(*journey_.packer)].name; }

  [[nodiscard]] std::string words_of(const RouteChain& way) const {
    std::string words = fmt::format("went from {}", from());
    for (auto hop = way.hops.rbegin(); hop != way.hops.rend(); ++hop)
      words += " to " + kb_.plants[at(kb_.routes[at(*hop)].to)].name;
    return words;
  }

  [[nodiscard]] std::vector<Reason> proof_of(const RouteChain& way) const {
    std::vector<Reason> proof;
    for (auto index = way.hops.rbegin(); index != way.hops.rend(); ++index) {
      const Route& hop = kb_.routes[at(*index)];
      proof.push_back(reason_for(
          fmt::format("{} supplied {}", kb_.plants[at(hop.from)].name, kb_.plants[at(hop.to)].name), hop.evidence));
    }
    std::ranges::copy(way.proof, std::back_inserter(proof));
    std::ranges::move(proof_from_run(way, Answer::yes), std::back_inserter(proof));
    return proof;
  }

  // What proves the orders from the run that have this answer.
  [[nodiscard]] std::vector<Reason> proof_from_run(const RouteChain& way, Answer answer) const {
    std::vector<Reason> proof;
    each_hop(way, [&](RouteIndex hop) {
      const OrderAnswer order = orders_.from_run(hop);
      if (order.answer == answer)
        std::ranges::move(orders_.proof(kb_.runs[at(journey_.run)].span, kb_.routes[at(hop)].span, order),
                          std::back_inserter(proof));
      return order.answer != Answer::no;
    });
    return proof;
  }

  const LinkedKb& kb_;
  Orders& orders_;
  const Journey& journey_;
  const RouteWays& ways_;
  bool with_proof_;
};

} // namespace

Journey journey_of(const LinkedKb& kb, RunIndex run, IssueIndex issue, Basis weakest) {
  const Run& part = kb.runs[at(run)];
  const Issue& whole = kb.issues[at(issue)];
  const Basis made = kb.spans[at(part.span)].evidence.basis;
  const Basis packed = kb.spans[at(whole.span)].evidence.basis;
  Journey journey{.run = run, .issue = issue, .accessory = part.accessory};
  if (made <= weakest) journey.plant = part.plant;
  if (packed <= weakest) journey.packer = whole.packer;
  journey.known = std::max(made, packed);
  return journey;
}

RouteWays find_ways(const LinkedKb& kb, Orders& orders, const Journey& journey, Basis weakest, bool with_proof) {
  if (!journey.plant || !journey.packer || journey.plant == journey.packer) return {};
  return WaySearch{kb, orders, journey, weakest, with_proof}.find();
}

RouteFinding find_route(Orders& orders, const Journey& journey, const RouteWays& ways, Basis weakest) {
  RouteFinding result;
  if (!journey.plant || !journey.packer) return result;
  if (journey.plant == journey.packer) return {.answer = Answer::yes, .basis = journey.known};
  Basis no_basis = ways.no_basis;
  for (const RouteChain& way : ways.chains) {
    const ChainFinding found = follow(orders, way, no_basis);
    if (found.answer == Answer::no) continue;
    result.possible = true;
    // The strongest evidence wins.
    if (found.answer == Answer::yes && found.basis <= weakest && (!result.way || found.basis < *result.way))
      result.way = found.basis;
  }
  if (result.way) {
    result.answer = Answer::yes;
    result.basis = std::max(*result.way, journey.known);
  } else if (!result.possible && !ways.open_ended) {
    result.answer = Answer::no;
    result.basis = std::max(no_basis, journey.known);
  }
  return result;
}

namespace {

RouteAnswer tell_route(const LinkedKb& kb, Orders& orders, const Journey& journey, Basis weakest,
                       RouteTelling telling) {
  const bool with_proof = telling == RouteTelling::proof;
  const RouteWays ways = find_ways(kb, orders, journey, weakest, with_proof);
  const RouteFinding found = find_route(orders, journey, ways, weakest);
  RouteAnswer result{.answer = found.answer, .basis = found.basis};
  if (telling == RouteTelling::answer) return result;
  if (!journey.plant) {
    result.words = "the plant that made it is not known";
    result.would_settle.push_back(fmt::format("which plant made {}", kb.runs[at(journey.run)].address));
    return result;
  }
  if (!journey.packer) {
    result.words = "the plant that packed the issue is not known";
    result.would_settle.push_back(fmt::format("which plant packed {}", kb.issues[at(journey.issue)].address));
    return result;
  }
  const WayTelling ways_told{kb, orders, journey, ways, with_proof};
  if (*journey.plant == *journey.packer)
    result.words = fmt::format("{} moulded it and packed the issue", kb.plants[at(*journey.plant)].name);
  else if (found.way)
    ways_told.tell_yes(result, *found.way);
  else if (found.answer == Answer::no)
    ways_told.tell_no(result);
  else
    ways_told.tell_undecided(result, found.possible);
  if (result.answer != Answer::undecided && with_proof) {
    const Run& part = kb.runs[at(journey.run)];
    const Issue& whole = kb.issues[at(journey.issue)];
    const Reason maker = reason_for(fmt::format("{} was made at {}", part.address, kb.plants[at(*journey.plant)].name),
                                    kb.spans[at(part.span)].evidence);
    const Reason packer =
        reason_for(fmt::format("{} was packed at {}", whole.address, kb.plants[at(*journey.packer)].name),
                   kb.spans[at(whole.span)].evidence);
    result.proof.insert(result.proof.begin(), {maker, packer});
  }
  return result;
}

} // namespace

RouteAnswer route_of(const LinkedKb& kb, Distances& distances, RunIndex run, IssueIndex issue, const Leftover* leftover,
                     Basis weakest, RouteTelling telling) {
  FoundOrders orders{kb, distances, run, issue, leftover, weakest};
  return tell_route(kb, orders, journey_of(kb, run, issue, weakest), weakest, telling);
}

} // namespace coeval
