#include "examine/candidates.hpp"

#include <algorithm>
#include <iterator>
#include <unordered_map>

namespace coeval {
namespace {

class Gathering {
public:
  explicit Gathering(const LinkedKb& kb) : kb_(kb), plastic_(plastic_colour(kb)) {
    for (std::size_t i = 0; i < kb.features.size(); ++i)
      features_.emplace(kb.features[i].id, FeatureIndex{static_cast<std::uint32_t>(i)});
  }

  void gather(AccessoryIndex index, std::vector<Candidate>& list) const {
    const Accessory& accessory = kb_.accessories[at(index)];
    const std::vector<Stated> of_accessory = overlaid({}, accessory.entry);
    const std::size_t first = list.size();
    std::unordered_map<std::uint32_t, std::size_t> place_of_run;
    std::unordered_map<std::uint32_t, std::vector<Stated>> of_moulds;
    for (const MouldIndex mould : accessory.moulds) {
      const std::vector<Stated>& of_mould =
          of_moulds.emplace(static_cast<std::uint32_t>(mould), overlaid(of_accessory, kb_.moulds[at(mould)].entry))
              .first->second;
      for (const RunIndex run : kb_.moulds[at(mould)].runs) {
        place_of_run.emplace(static_cast<std::uint32_t>(run), list.size() - first);
        list.push_back({run, overlaid(of_mould, kb_.runs[at(run)].entry)});
      }
    }
    for (const ReproIndex index_of_repro : accessory.repros) {
      const Repro& repro = kb_.repros[at(index_of_repro)];
      std::vector<Stated> copied = of_accessory;
      if (repro.of_run) {
        if (const auto found = place_of_run.find(static_cast<std::uint32_t>(*repro.of_run));
            found != place_of_run.end())
          copied = list[first + found->second].stated;
      } else if (repro.of_mould) {
        if (const auto found = of_moulds.find(static_cast<std::uint32_t>(*repro.of_mould)); found != of_moulds.end())
          copied = found->second;
      }
      list.push_back({index_of_repro, overlaid(copied, repro.entry)});
    }
  }

private:
  // What is stated with the entry's own features in place of those of `base`.
  [[nodiscard]] std::vector<Stated> overlaid(const std::vector<Stated>& base, EntryIndex index) const {
    std::vector<Stated> own;
    if (const auto* values = kb_.entries[index].get<Features>("features")) {
      own.reserve(values->size() + 1);
      for (const FeatureValue& value : *values) {
        const auto found = features_.find(value.feature);
        if (found == features_.end()) continue;
        const Feature& feature = kb_.features[at(found->second)];
        if (!meant(feature.kind, value)) continue;
        own.push_back({found->second, index, &value, value.lab.empty() ? nullptr : &value.lab,
                       value.tolerance ? value.tolerance : feature.tolerance});
      }
    }
    if (const auto* lab = own_colour(index))
      if (std::ranges::find(own, *plastic_, &Stated::feature) == own.end())
        own.push_back({*plastic_, index, nullptr, lab, kb_.features[at(*plastic_)].tolerance});
    if (own.empty()) return base;
    std::ranges::sort(own, {}, &Stated::feature);
    std::vector<Stated> both;
    both.reserve(base.size() + own.size());
    std::ranges::set_union(own, base, std::back_inserter(both), {}, &Stated::feature, &Stated::feature);
    return both;
  }

  [[nodiscard]] const Numbers* own_colour(EntryIndex index) const {
    const Entry* colour = plastic_ ? kb_.colour_of(index) : nullptr;
    return colour == nullptr ? nullptr : colour->get<Numbers>("lab");
  }

  // A value of another kind than its feature's is an error of the knowledge base, and states nothing.
  static bool meant(FeatureKind kind, const FeatureValue& value) {
    const auto all = [&]<class Type>(Type) {
      return value.lab.empty() && std::ranges::all_of(value.alternatives, [](const FeatureAtom& atom) {
               return std::holds_alternative<Type>(atom);
             });
    };
    switch (kind) {
    case FeatureKind::present:
      return all(bool{});
    case FeatureKind::count:
    case FeatureKind::measure:
      return all(double{});
    case FeatureKind::choice:
    case FeatureKind::text:
      return all(KeptText{});
    case FeatureKind::colour:
      return value.lab.size() == 3 ||
             (value.alternatives.size() == 1 && value.alternatives.front() == FeatureAtom{KeptText{same_as_figure}});
    }
    return false;
  }

  const LinkedKb& kb_;
  std::optional<FeatureIndex> plastic_;
  std::unordered_map<std::string_view, FeatureIndex> features_;
};

} // namespace

const Stated* Candidate::find(FeatureIndex feature) const {
  const auto place = std::ranges::lower_bound(stated, feature, {}, &Stated::feature);
  return place != stated.end() && place->feature == feature ? &*place : nullptr;
}

std::vector<Candidate> candidates_of(const LinkedKb& kb, std::optional<AccessoryIndex> accessory) {
  const Gathering gathering{kb};
  std::vector<Candidate> list;
  if (accessory) {
    gathering.gather(*accessory, list);
    return list;
  }
  list.reserve(kb.runs.size() + kb.repros.size());
  for (std::size_t i = 0; i < kb.accessories.size(); ++i)
    gathering.gather(AccessoryIndex{static_cast<std::uint32_t>(i)}, list);
  return list;
}

std::vector<Candidate> candidates_in_slot(const LinkedKb& kb, std::string_view slot) {
  const Gathering gathering{kb};
  std::vector<Candidate> list;
  for (std::size_t i = 0; i < kb.accessories.size(); ++i)
    if (kb.accessories[i].slot == slot) gathering.gather(AccessoryIndex{static_cast<std::uint32_t>(i)}, list);
  return list;
}

std::string_view address_of(const LinkedKb& kb, const PartIdentity& identity) {
  if (const auto* run = std::get_if<RunIndex>(&identity)) return kb.runs[at(*run)].address;
  return kb.repros[at(std::get<ReproIndex>(identity))].address;
}

AccessoryIndex accessory_of(const LinkedKb& kb, const PartIdentity& identity) {
  if (const auto* run = std::get_if<RunIndex>(&identity)) return kb.runs[at(*run)].accessory;
  return kb.repros[at(std::get<ReproIndex>(identity))].accessory;
}

std::optional<FeatureIndex> plastic_colour(const LinkedKb& kb) {
  std::vector<FeatureIndex> colours;
  for (std::size_t i = 0; i < kb.features.size(); ++i) {
    if (kb.features[i].kind != FeatureKind::colour) continue;
    if (kb.features[i].id == "body-colour") return FeatureIndex{static_cast<std::uint32_t>(i)};
    colours.push_back(FeatureIndex{static_cast<std::uint32_t>(i)});
  }
  if (colours.size() == 1) return colours.front();
  return {};
}

Lab lab_of(const Numbers& numbers) { return {numbers[0], numbers[1], numbers[2]}; }

} // namespace coeval
