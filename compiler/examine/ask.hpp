// examine/ask.hpp: what should a seller be asked before anything is paid?
//
// The looks that tell what is offered from what else it could be, the most telling first, each chosen for what the ones
// before it leave open: first those that a seller can do from afar, then those that only the part in the hand allows.
#pragma once

#include <vector>

#include "examine/examine.hpp"

namespace coeval {

struct Request {
  FeatureIndex feature{};
  double bits = 0;                       // of the question whether it is what is claimed
  std::vector<std::size_t> rules_out;    // candidates that it excludes for sure, if it shows what the claimed one shows
  std::vector<std::size_t> may_rule_out; // others that it excludes if the part shows it clearly
};

struct Requests {
  std::vector<std::size_t> others; // what it could be instead, before anything is asked
  std::vector<Request> of_seller;  // by photograph or measurement
  std::vector<Request> in_hand;
  std::vector<std::size_t> after_all; // what no harmless look tells from the claimed one for sure
};

// `seen` is what is known already. Nothing is asked where it excludes the claimed candidate.
[[nodiscard]] Requests what_to_ask(const FeatureTable& table, const std::vector<Observation>& seen,
                                   std::size_t claimed);

} // namespace coeval
