// verdicts/route.hpp: could parts of a run reach the packer of an issue?
#pragma once

#include <boost/container/static_vector.hpp>

#include "verdicts/order.hpp"

namespace coeval {

struct RouteAnswer {
  Answer answer = Answer::undecided;
  std::optional<Basis> basis;
  std::string words;
  std::vector<Reason> proof;
  std::vector<std::string> would_settle;
};

// How much is told of an answer: nothing but itself and its basis, in words too, or with its proof.
enum class RouteTelling : std::uint8_t { answer, words, proof };

// A chain of routes carries the run's accessory from its plant to the packer, each hop open when the one before could
// feed it. No only where every plant that such a chain could start or pass from is said to have all its routes entered:
// silence is not a no. `leftover` is the policy on stock that holds for the issue; nothing for none. Chains of more
// than `most_hops` routes are not followed; where one could exist, the answer is undecided rather than no.
inline constexpr int most_hops = 4;
[[nodiscard]] RouteAnswer route_of(const LinkedKb& kb, Distances& distances, RunIndex run, IssueIndex issue,
                                   const Leftover* leftover, Basis weakest, RouteTelling telling);

// Where the search takes its answers about two spans from: could something from the one have gone into the other? The
// run and the issue are those that the search is for.
class Orders {
public:
  Orders() = default;
  virtual ~Orders() = default;
  Orders(const Orders&) = delete;
  Orders(Orders&&) = delete;
  Orders& operator=(const Orders&) = delete;
  Orders& operator=(Orders&&) = delete;
  [[nodiscard]] virtual OrderAnswer from_run(RouteIndex into) = 0;
  [[nodiscard]] virtual OrderAnswer from_route(RouteIndex from, RouteIndex into) = 0;
  [[nodiscard]] virtual OrderAnswer into_issue(RouteIndex from) = 0;
  // What proves such an answer. Needed only where a search is told with its proof.
  [[nodiscard]] virtual std::vector<Reason> proof(TimeSpanIndex /*from*/, TimeSpanIndex /*into*/,
                                                  const OrderAnswer& /*answer*/) {
    return {};
  }
};

// Where parts of a run were made and where the issue was packed, each where it is known on the basis that is asked for.
struct Journey {
  RunIndex run{};
  IssueIndex issue{};
  AccessoryIndex accessory{};
  std::optional<PlantIndex> plant;
  std::optional<PlantIndex> packer;
  Basis known = Basis::documented; // that both are, where they are
};
[[nodiscard]] Journey journey_of(const LinkedKb& kb, RunIndex run, IssueIndex issue, Basis weakest);

// Routes one after the other, as far as it does not depend on the run whether parts could have gone that way.
struct RouteChain {
  boost::container::static_vector<RouteIndex, most_hops> hops; // the nearest to the packer first
  Answer answer = Answer::yes;                                 // yes or undecided
  Basis basis{};
  std::vector<Reason> proof;
  std::size_t no_proof_before = 0; // of the reasons why other chains are impossible, how many were found before it
};

// All that leads from a plant to the packer of an issue and carries an accessory, the same for all runs of that from
// that plant.
struct RouteWays {
  std::vector<RouteChain> chains;
  bool open_ended = false;                 // some plant on the way may have routes that are not entered
  const std::string* incomplete = nullptr; // the name of the first such plant
  Basis no_basis = Basis::documented;      // that there are no more
  std::vector<Reason> no_proof;
};

// Nothing where the journey's plant or packer is not known, or where they are the same.
[[nodiscard]] RouteWays find_ways(const LinkedKb& kb, Orders& orders, const Journey& journey, Basis weakest,
                                  bool with_proof = false);

// Could parts of the run have gone one of the ways?
struct RouteFinding {
  Answer answer = Answer::undecided;
  std::optional<Basis> basis;
  std::optional<Basis> way; // the strongest on which a way is proven, leaving aside who made and packed it
  bool possible = false;    // some way is not ruled out
};
[[nodiscard]] RouteFinding find_route(Orders& orders, const Journey& journey, const RouteWays& ways, Basis weakest);

} // namespace coeval
