#include "examine/ask.hpp"

#include <algorithm>

#include "examine/alike.hpp"

namespace coeval {
namespace {

class Asking {
public:
  Asking(const FeatureTable& table, std::size_t claimed, std::vector<std::size_t> left)
      : table_(table), claimed_(claimed), left_(std::move(left)) {}

  // Takes looks, the most telling first, until none of these tells anything more.
  void ask(bool in_hand, std::vector<Request>& requests) {
    while (left_.size() > 1) {
      const Classes classes = Classes::claimed_or_not(table_.size(), claimed_, left_.size());
      const std::vector<Look> looks = rank_looks(table_, left_, classes, false);
      const auto next = std::ranges::find_if(looks, [&](const Look& look) {
        const bool by_hand = table_.feature(at(look.feature)).by == LookBy::in_hand;
        return by_hand == in_hand && std::ranges::find(taken_, look.feature) == taken_.end();
      });
      if (next == looks.end()) return;
      taken_.push_back(next->feature);
      requests.push_back(request(*next));
      for (const std::size_t candidate : requests.back().rules_out) std::erase(left_, candidate);
    }
  }

  [[nodiscard]] std::vector<std::size_t> others() const {
    std::vector<std::size_t> list = left_;
    std::erase(list, claimed_);
    return list;
  }

private:
  [[nodiscard]] Request request(const Look& look) const {
    Request request{look.feature, look.bits, {}, {}};
    const std::size_t column = at(look.feature);
    for (const std::size_t candidate : left_) {
      if (candidate == claimed_) continue;
      if (told_apart_by(table_, column, claimed_, candidate))
        request.rules_out.push_back(candidate);
      else if (may_tell_apart(table_, column, claimed_, candidate))
        request.may_rule_out.push_back(candidate);
    }
    return request;
  }

  const FeatureTable& table_;
  std::size_t claimed_;
  std::vector<std::size_t> left_;
  std::vector<FeatureIndex> taken_;
};

} // namespace

Requests what_to_ask(const FeatureTable& table, const std::vector<Observation>& seen, std::size_t claimed) {
  Requests requests;
  const Outcome outcome = examine(table, seen);
  if (outcome.stands[claimed].excludes != 0) return requests;
  Asking asking{table, claimed, outcome.left};
  requests.others = asking.others();
  asking.ask(false, requests.of_seller);
  asking.ask(true, requests.in_hand);
  requests.after_all = asking.others();
  return requests;
}

} // namespace coeval
