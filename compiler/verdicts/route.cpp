#include "verdicts/route.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {
namespace {

class FoundOrders : public Orders {
public:
  FoundOrders(Distances& distances, const Leftover* leftover, Basis weakest, bool with_proof)
      : distances_(distances), leftover_(leftover), weakest_(weakest), with_proof_(with_proof) {}
  OrderAnswer between(TimeSpanIndex from, TimeSpanIndex into) override {
    return order_of(distances_, from, into, leftover_, weakest_, with_proof_);
  }

private:
  Distances& distances_;
  const Leftover* leftover_;
  Basis weakest_;
  bool with_proof_;
};

// Searches backwards from the packer. Everything found is kept for the answer of the whole search.
class RouteSearch {
public:
  RouteSearch(const LinkedKb& kb, Orders& orders, RunIndex run, IssueIndex issue, Basis weakest, RouteTelling telling)
      : kb_(kb), orders_(orders), run_(kb.runs[at(run)]), issue_(kb.issues[at(issue)]), weakest_(weakest),
        with_words_(telling != RouteTelling::answer), with_proof_(telling == RouteTelling::proof) {}

  RouteAnswer answer() {
    const PlantIndex packer = *issue_.packer;
    const PlantIndex plant = *run_.plant;
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
  [[nodiscard]] bool carries(const Route& route) const {
    return route.carries.empty() || std::ranges::find(route.carries, run_.accessory) != route.carries.end();
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
      if (std::ranges::any_of(path_,
                              [&](const Route* other) { return other->from == route.from || other->to == route.from; }))
        continue;
      if (path_.empty() && route.from == *issue_.packer) continue;
      follow(route);
    }
  }

  void follow(const Route& route) {
    // Could this route have fed every later hop, and the packing?
    RouteAnswer chain;
    chain.answer = Answer::yes;
    chain.basis = route.evidence.basis;
    bool ruled_out = false;
    const auto take = [&](TimeSpanIndex from, TimeSpanIndex into) {
      OrderAnswer order = orders_.between(from, into);
      if (order.answer == Answer::no) {
        ruled_out = true;
        no_basis_ = std::max(no_basis_, *order.basis);
        for (Reason& reason : order.proof) no_proof_.push_back(std::move(reason));
      }
      if (order.answer == Answer::undecided) chain.answer = Answer::undecided;
      if (order.basis) chain.basis = std::max(*chain.basis, *order.basis);
      for (Reason& reason : order.proof) chain.proof.push_back(std::move(reason));
    };
    const bool usable = route.evidence.basis <= weakest_;
    take(route.span, issue_.span);
    for (const Route* later : path_) {
      if (ruled_out) break;
      take(route.span, later->span);
    }
    if (ruled_out) return;
    if (route.from == *run_.plant) {
      take(run_.span, route.span);
      for (const Route* later : path_) {
        if (ruled_out) break;
        take(run_.span, later->span);
      }
      if (ruled_out) return;
      possible_ = true;
      if (chain.answer == Answer::yes && usable) found(route, std::move(chain));
      return;
    }
    if (static_cast<int>(path_.size()) + 1 >= most_hops) {
      if (!open_ended_) incomplete_ = &kb_.plants[at(route.from)].name;
      open_ended_ = true;
      return;
    }
    path_.push_back(&route);
    visit(route.from);
    path_.pop_back();
  }

  void found(const Route& first, RouteAnswer chain) {
    std::vector<const Route*> hops{&first};
    for (auto it = path_.rbegin(); it != path_.rend(); ++it) hops.push_back(*it);
    std::vector<Reason> proof;
    if (with_words_) chain.words = fmt::format("went from {}", kb_.plants[at(first.from)].name);
    for (const Route* hop : hops) {
      if (hop->evidence.basis > weakest_) return;
      chain.basis = std::max(*chain.basis, hop->evidence.basis);
      if (!with_words_) continue;
      chain.words += " to " + kb_.plants[at(hop->to)].name;
      proof.push_back(reason_for(
          fmt::format("{} supplied {}", kb_.plants[at(hop->from)].name, kb_.plants[at(hop->to)].name), hop->evidence));
    }
    proof.insert(proof.end(), chain.proof.begin(), chain.proof.end());
    chain.proof = with_proof_ ? std::move(proof) : std::vector<Reason>{};
    // The strongest evidence wins, then the shorter proof; the first found among equals.
    if (!best_ || std::pair{*chain.basis, chain.proof.size()} < std::pair{*best_->basis, best_->proof.size()})
      best_ = std::move(chain);
  }

  const LinkedKb& kb_;
  Orders& orders_;
  const Run& run_;
  const Issue& issue_;
  Basis weakest_;
  bool with_words_;
  bool with_proof_;

  std::vector<const Route*> path_;
  std::optional<RouteAnswer> best_;
  bool possible_ = false;                   // some chain is not ruled out
  bool open_ended_ = false;                 // some plant on the way may have routes that are not entered
  const std::string* incomplete_ = nullptr; // the name of the first such plant
  Basis no_basis_ = Basis::documented;
  std::vector<Reason> no_proof_;
};

} // namespace

RouteAnswer route_of(const LinkedKb& kb, Distances& distances, RunIndex run, IssueIndex issue, const Leftover* leftover,
                     Basis weakest, bool with_proof) {
  FoundOrders orders{distances, leftover, weakest, with_proof};
  return route_of(kb, orders, run, issue, weakest, with_proof ? RouteTelling::proof : RouteTelling::words);
}

RouteAnswer route_of(const LinkedKb& kb, Orders& orders, RunIndex run, IssueIndex issue, Basis weakest,
                     RouteTelling telling) {
  const Run& part = kb.runs[at(run)];
  const Issue& whole = kb.issues[at(issue)];
  const Evidence& made = kb.spans[at(part.span)].evidence;
  const Evidence& packed = kb.spans[at(whole.span)].evidence;
  const bool told = telling != RouteTelling::answer;
  const bool with_proof = telling == RouteTelling::proof;
  RouteAnswer result;
  if (!part.plant || made.basis > weakest) {
    if (!told) return result;
    result.words = "the plant that made it is not known";
    result.would_settle.push_back(fmt::format("which plant made {}", part.address));
    return result;
  }
  if (!whole.packer || packed.basis > weakest) {
    if (!told) return result;
    result.words = "the plant that packed the issue is not known";
    result.would_settle.push_back(fmt::format("which plant packed {}", whole.address));
    return result;
  }
  const Basis known = std::max(made.basis, packed.basis);
  if (*part.plant == *whole.packer) {
    result.answer = Answer::yes;
    result.basis = known;
    if (told) result.words = fmt::format("{} moulded it and packed the issue", kb.plants[at(*part.plant)].name);
  } else {
    result = RouteSearch{kb, orders, run, issue, weakest, telling}.answer();
    if (result.basis) result.basis = std::max(*result.basis, known);
  }
  if (result.answer != Answer::undecided && with_proof) {
    const Reason maker =
        reason_for(fmt::format("{} was made at {}", part.address, kb.plants[at(*part.plant)].name), made);
    const Reason packer =
        reason_for(fmt::format("{} was packed at {}", whole.address, kb.plants[at(*whole.packer)].name), packed);
    result.proof.insert(result.proof.begin(), {maker, packer});
  }
  if (!with_proof) result.proof.clear();
  return result;
}

} // namespace coeval
