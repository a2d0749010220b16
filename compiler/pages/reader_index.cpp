#include "pages/reader_index.hpp"

#include <unordered_map>

#include <nlohmann/json.hpp>

#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

using Json = nlohmann::json;

// Words by number: each is kept once.
class Texts {
public:
  int operator()(const std::string& text) {
    const auto [found, fresh] = numbers_.try_emplace(text, static_cast<int>(texts_.size()));
    if (fresh) texts_.push_back(text);
    return found->second;
  }
  [[nodiscard]] const Json& all() const { return texts_; }

private:
  std::unordered_map<std::string, int> numbers_;
  Json texts_ = Json::array();
};

// As text, in which nothing is ever an unfinished character.
std::string text_of(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

// A JSON array that is written as it grows: as values, the verdicts of a large knowledge base take ten times the memory
// of their text.
class ArrayText {
public:
  void push_back(const Json& item) { text_ += (text_.size() == 1 ? "" : ",") + text_of(item); }
  [[nodiscard]] std::string finished() && { return std::move(text_ += "]"); }

private:
  std::string text_ = "[";
};

int basis_number(const std::optional<Basis>& basis) { return basis ? static_cast<int>(*basis) : -1; }

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : "; ") + part;
  return text;
}

class IndexWriter {
public:
  explicit IndexWriter(const Site& site) : site_(site), kb_(site.kb()) {}

  std::string write() {
    std::map<std::string_view, std::string> index{{"format", R"("coeval-reader-index")"}, {"version", "1"}};
    // In this order, as texts are numbered when they first come up.
    index["entries"] = entries();
    index["issues"] = issues();
    index["runs"] = runs();
    index["pairs"] = pairs();
    index["steps"] = std::move(steps_).finished();
    index["texts"] = text_of(texts_.all());
    Json verdicts, bases, grounds, answers;
    for (std::size_t i = 0; i < verdict_count; ++i) verdicts.push_back(name(static_cast<Verdict>(i)));
    for (const Basis basis : all_bases) bases.push_back(name(basis));
    for (const Ground ground : {Ground::place, Ground::time, Ground::route, Ground::record})
      grounds.push_back(name(ground));
    for (const Answer answer : {Answer::yes, Answer::no, Answer::undecided}) answers.push_back(name(answer));
    index["verdicts"] = text_of(verdicts);
    index["bases"] = text_of(bases);
    index["grounds"] = text_of(grounds);
    index["answers"] = text_of(answers);

    std::string text;
    for (auto& [key, value] : index) {
      text.append(text.empty() ? "{" : ",").append(1, '"').append(key).append("\":").append(value);
      value = {};
    }
    return text += "}";
  }

private:
  std::string entries() {
    ArrayText list;
    for (std::size_t i = 0; i < kb_.entries.entries.size(); ++i) {
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      const std::string path = path_of(kb_, index);
      if (path.empty()) continue;
      list.push_back({texts_(singular_of(kb_.entries.entries[i].kind)), texts_(full_name_of(kb_, index)),
                      texts_(kb_.address(index)), texts_(path), texts_(more(index))});
    }
    return std::move(list).finished();
  }

  // What else somebody might look for: how it looks, and what it reads.
  std::string more(EntryIndex index) const {
    const Entry& entry = kb_.entries[index];
    std::vector<std::string> parts;
    if (const auto* features = entry.get<std::vector<FeatureValue>>("features"))
      for (const FeatureValue& value : *features) {
        if (!value.lab.empty()) continue;
        const auto feature = kb_.find_feature(value.feature);
        parts.push_back((feature ? kb_.features[at(*feature)].name : value.feature) + " " + value_words(kb_, value));
      }
    for (const std::string_view key : {"text", "paint", "material", "role", "place"})
      if (const std::string_view text = entry.text(key); !text.empty()) parts.emplace_back(text);
    if (const auto* marks = entry.get<Words>("marks"))
      for (const Word& mark : *marks) parts.push_back(mark.text);
    return joined(parts);
  }

  std::string issues() {
    ArrayText list;
    for (const Issue& issue : kb_.issues)
      list.push_back({texts_(name_of(kb_, issue.entry)), texts_(issue.address), texts_(path_of(kb_, issue.entry)),
                      texts_(kb_.figures[at(issue.figure)].name)});
    return std::move(list).finished();
  }

  std::string runs() {
    ArrayText list;
    for (std::size_t i = 0; i < kb_.runs.size(); ++i) {
      const Run& run = kb_.runs[i];
      list.push_back({texts_(run_name_of(kb_, RunIndex{static_cast<std::uint32_t>(i)})), texts_(run.address),
                      texts_(path_of(kb_, run.entry)), texts_(kb_.accessories[at(run.accessory)].name)});
    }
    return std::move(list).finished();
  }

  std::string pairs() {
    ArrayText list;
    Judge judge{kb_, site_.dates(), Basis::conjectured};
    for (std::size_t i = 0; i < kb_.issues.size(); ++i) {
      const IssueIndex issue{static_cast<std::uint32_t>(i)};
      std::set<AccessoryIndex> seen;
      for (const Takes& takes : kb_.issues[i].takes) {
        if (!seen.insert(takes.accessory).second) continue;
        for (const MouldIndex mould : kb_.accessories[at(takes.accessory)].moulds)
          for (const RunIndex run : kb_.moulds[at(mould)].runs) list.push_back(pair(judge.judge(run, issue, true)));
      }
    }
    return std::move(list).finished();
  }

  Json pair(const Judgement& judgement) {
    Json grounds = Json::array();
    for (const GroundAnswer& ground : judgement.grounds) {
      grounds.push_back(static_cast<int>(ground.answer));
      grounds.push_back(texts_(ground.words));
    }
    Json steps = Json::array();
    for (const Ground ground : deciding_grounds(judgement))
      for (const Reason& reason : judgement.ground(ground).proof) {
        const int number = step(reason);
        if (std::find(steps.begin(), steps.end(), Json(number)) == steps.end()) steps.push_back(number);
      }
    Json settles = Json::array();
    for (const std::string& line : judgement.would_settle) settles.push_back(texts_(line));
    return {at(judgement.issue),
            at(judgement.run),
            static_cast<int>(judgement.verdict),
            basis_number(judgement.basis),
            texts_(gap_words(judgement)),
            std::move(grounds),
            std::move(steps),
            std::move(settles)};
  }

  int step(const Reason& reason) {
    const auto [found, fresh] = step_numbers_.try_emplace(reason, static_cast<int>(step_numbers_.size()));
    if (fresh)
      steps_.push_back({texts_(reason.statement), reason.definition ? -1 : static_cast<int>(reason.basis),
                        texts_(joined(reason.sources)), texts_(place(site_, reason.place).text)});
    return found->second;
  }

  const Site& site_;
  const LinkedKb& kb_;
  Texts texts_;
  std::map<Reason, int> step_numbers_;
  ArrayText steps_;
};

} // namespace

std::string reader_index(const Site& site) { return IndexWriter{site}.write(); }

} // namespace coeval
