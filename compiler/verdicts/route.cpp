#include "verdicts/route.hpp"

#include <algorithm>
#include <iterator>

#include <boost/container/static_vector.hpp>

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

// Searches backwards from the packer. Everything found is kept for the answer of the whole search.
class RouteSearch {
public:
  RouteSearch(const LinkedKb& kb, Orders& orders, const Journey& journey, Basis weakest, RouteTelling telling)
      : kb_(kb), orders_(orders), journey_(journey), weakest_(weakest), with_words_(telling != RouteTelling::answer),
        with_proof_(telling == RouteTelling::proof) {}

  RouteAnswer answer() {
    const PlantIndex packer = *journey_.packer;
    const PlantIndex plant = *journey_.plant;
    visit(packer);
    if (best_) return *best_;
    RouteAnswer result;
    const std::string_view from = kb_.plants[at(plant)].name;
    const std::string_view to = kb_.plants[at(packer)].name;
    if (!with_words_) {
      if (possible_ || open_ended_) return result;
      result.answer = Answer::no;
      result.basis = no_basis_;
      return result;
    }
    if (possible_) {
      result.words = fmt::format("{} may have supplied {}; the dates do not decide it", from, to);
      result.would_settle.push_back(fmt::format("when parts went from {} to {}", from, to));
      return result;
    }
    if (open_ended_) {
      result.words =
          fmt::format("no route from {} to {} is entered, and the routes into {} are not said to be complete", from, to,
                      *incomplete_);
      result.would_settle.push_back(fmt::format("whether {} ever supplied {}", from, to));
      return result;
    }
    result.answer = Answer::no;
    result.basis = no_basis_;
    result.words = fmt::format("nothing went from {} to {}", from, to);
    result.proof = std::move(no_proof_);
    return result;
  }

private:
  // What is known so far of a chain that ends at the packer.
  struct Chain {
    Answer answer = Answer::yes;
    Basis basis{};
    std::vector<Reason> proof;
  };

  [[nodiscard]] bool carries(const Route& route) const {
    return route.carries.empty() || std::ranges::find(route.carries, journey_.accessory) != route.carries.end();
  }

  void add_completeness(const Plant& here) {
    Reason reason = reason_for(fmt::format("every route into {} is entered", here.name), here.evidence);
    if (std::ranges::find(no_proof_, reason.place, &Reason::place) == no_proof_.end())
      no_proof_.push_back(std::move(reason));
  }

  // `path_` holds the routes from this plant to the packer, the nearest to the packer first.
  void visit(PlantIndex plant) {
    const Plant& here = kb_.plants[at(plant)];
    if (!here.routes_complete || here.evidence.basis > weakest_) {
      if (!open_ended_) incomplete_ = &here.name;
      open_ended_ = true;
    } else {
      no_basis_ = std::max(no_basis_, here.evidence.basis);
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
    Chain chain{Answer::yes, route.evidence.basis, {}};
    if (!into_issue(chain, index)) return;
    for (const RouteIndex later : path_)
      if (!from_route(chain, index, later)) return;
    if (route.from == *journey_.plant) {
      if (!from_run(chain, index)) return;
      for (const RouteIndex later : path_)
        if (!from_run(chain, later)) return;
      possible_ = true;
      if (chain.answer == Answer::yes) found(route, std::move(chain));
      return;
    }
    if (static_cast<int>(path_.size()) + 1 >= most_hops) {
      if (!open_ended_) incomplete_ = &kb_.plants[at(route.from)].name;
      open_ended_ = true;
      return;
    }
    path_.push_back(index);
    visit(route.from);
    path_.pop_back();
  }

  // Takes the answer into account, and tells whether the chain is still possible.
  template <class Proof> bool feeds(Chain& chain, const OrderAnswer& order, const Proof& proof) {
    if (order.answer == Answer::no) no_basis_ = std::max(no_basis_, *order.basis);
    if (order.answer == Answer::undecided) chain.answer = Answer::undecided;
    if (order.basis) chain.basis = std::max(chain.basis, *order.basis);
    if (with_proof_)
      std::ranges::move(proof(order), std::back_inserter(order.answer == Answer::no ? no_proof_ : chain.proof));
    return order.answer != Answer::no;
  }
  bool into_issue(Chain& chain, RouteIndex from) {
    return feeds(chain, orders_.into_issue(from), [&](const OrderAnswer& order) {
      return orders_.proof(span_of(from), kb_.issues[at(journey_.issue)].span, order);
    });
  }
  bool from_route(Chain& chain, RouteIndex from, RouteIndex into) {
    return feeds(chain, orders_.from_route(from, into),
                 [&](const OrderAnswer& order) { return orders_.proof(span_of(from), span_of(into), order); });
  }
  bool from_run(Chain& chain, RouteIndex into) {
    return feeds(chain, orders_.from_run(into), [&](const OrderAnswer& order) {
      return orders_.proof(kb_.runs[at(journey_.run)].span, span_of(into), order);
    });
  }
  [[nodiscard]] TimeSpanIndex span_of(RouteIndex route) const { return kb_.routes[at(route)].span; }

  void found(const Route& first, Chain chain) {
    boost::container::static_vector<const Route*, most_hops> hops{&first};
    for (auto later = path_.rbegin(); later != path_.rend(); ++later) hops.push_back(&kb_.routes[at(*later)]);
    for (const Route* hop : hops) chain.basis = std::max(chain.basis, hop->evidence.basis);
    if (chain.basis > weakest_) return;
    RouteAnswer answer{.answer = Answer::yes, .basis = chain.basis};
    if (with_words_) {
      answer.words = fmt::format("went from {}", kb_.plants[at(first.from)].name);
      for (const Route* hop : hops) {
        answer.words += " to " + kb_.plants[at(hop->to)].name;
        if (with_proof_)
          answer.proof.push_back(
              reason_for(fmt::format("{} supplied {}", kb_.plants[at(hop->from)].name, kb_.plants[at(hop->to)].name),
                         hop->evidence));
      }
      std::ranges::move(chain.proof, std::back_inserter(answer.proof));
    }
    // The strongest evidence wins, then the shorter proof; the first found among equals.
    if (!best_ || std::pair{*answer.basis, answer.proof.size()} < std::pair{*best_->basis, best_->proof.size()})
      best_ = std::move(answer);
  }

  const LinkedKb& kb_;
  Orders& orders_;
  const Journey& journey_;
  Basis weakest_;
  bool with_words_;
  bool with_proof_;

  boost::container::static_vector<RouteIndex, most_hops> path_;
  std::optional<RouteAnswer> best_;
  bool possible_ = false;                   // some chain is not ruled out
  bool open_ended_ = false;                 // some plant on the way may have routes that are not entered
  const std::string* incomplete_ = nullptr; // the name of the first such plant
  Basis no_basis_ = Basis::documented;
  std::vector<Reason> no_proof_;
};

} // namespace

RouteAnswer route_of(const LinkedKb& kb, Distances& distances, RunIndex run, IssueIndex issue, const Leftover* leftover,
                     Basis weakest, RouteTelling telling) {
  FoundOrders orders{kb, distances, run, issue, leftover, weakest};
  return route_of(kb, orders, journey_of(kb, run, issue, weakest), weakest, telling);
}

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

RouteAnswer route_of(const LinkedKb& kb, Orders& orders, const Journey& journey, Basis weakest, RouteTelling telling) {
  const bool told = telling != RouteTelling::answer;
  const bool with_proof = telling == RouteTelling::proof;
  RouteAnswer result;
  if (!journey.plant) {
    if (!told) return result;
    result.words = "the plant that made it is not known";
    result.would_settle.push_back(fmt::format("which plant made {}", kb.runs[at(journey.run)].address));
    return result;
  }
  if (!journey.packer) {
    if (!told) return result;
    result.words = "the plant that packed the issue is not known";
    result.would_settle.push_back(fmt::format("which plant packed {}", kb.issues[at(journey.issue)].address));
    return result;
  }
  if (*journey.plant == *journey.packer) {
    result.answer = Answer::yes;
    result.basis = journey.known;
    if (told) result.words = fmt::format("{} moulded it and packed the issue", kb.plants[at(*journey.plant)].name);
  } else {
    result = RouteSearch{kb, orders, journey, weakest, telling}.answer();
    if (result.basis) result.basis = std::max(*result.basis, journey.known);
  }
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
  if (!with_proof) result.proof.clear();
  return result;
}

} // namespace coeval
