#include "pages/reader_index.hpp"

#include <array>
#include <cstring>
#include <deque>
#include <span>
#include <stdexcept>

#include <boost/unordered/unordered_flat_map.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

using Json = nlohmann::json;

// As text, in which nothing is ever an unfinished character.
std::string text_of(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

// A JSON array of texts, or of arrays of numbers, that is written as it grows: as values, the verdicts of a large
// knowledge base take ten times the memory of their text.
class ArrayText {
public:
  ArrayText& open() {
    separate();
    text_ += '[';
    return *this;
  }
  ArrayText& close() {
    text_ += ']';
    return *this;
  }
  ArrayText& number(std::int64_t value) {
    separate();
    const fmt::format_int digits{value};
    text_.append(digits.data(), digits.size());
    return *this;
  }
  ArrayText& numbers(std::span<const int> values) {
    open();
    for (const int value : values) number(value);
    return close();
  }
  ArrayText& words(const std::string& text) {
    separate();
    const bool as_it_is =
        std::ranges::all_of(text, [](char c) { return c >= ' ' && c <= '~' && c != '"' && c != '\\'; });
    if (as_it_is)
      text_.append(1, '"').append(text).append(1, '"');
    else
      text_ += text_of(text);
    return *this;
  }
  [[nodiscard]] std::string finished() && { return std::move(text_ += "]"); }

private:
  void separate() {
    if (text_.back() != '[') text_ += ',';
  }
  std::string text_ = "[";
};

// Words by number: each is kept once.
class Texts {
public:
  explicit Texts(std::size_t room) { numbers_.reserve(room); }
  int operator()(std::string_view text) {
    if (const auto found = numbers_.find(text); found != numbers_.end()) return found->second;
    const int number = static_cast<int>(texts_.size());
    numbers_.emplace(texts_.emplace_back(text), number);
    return number;
  }
  [[nodiscard]] std::string all() const {
    ArrayText list;
    for (const std::string& text : texts_) list.words(text);
    return std::move(list).finished();
  }

private:
  std::deque<std::string> texts_; // stay where they are
  boost::unordered_flat_map<std::string_view, int, std::hash<std::string_view>> numbers_;
};

int basis_number(const std::optional<Basis>& basis) { return basis ? static_cast<int>(*basis) : -1; }

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : "; ") + part;
  return text;
}

// A part is numbers as they lie in memory. A text that it holds for the first time is the number of its bytes, then
// these; one that it holds again, is `again` less its place among the texts so far.
constexpr int again = -1;

class PartWriter {
public:
  PartWriter& number(int value) {
    part_.append(reinterpret_cast<const char*>(&value), sizeof value);
    return *this;
  }
  PartWriter& text(const std::string& text) {
    const auto [found, fresh] = places_.try_emplace(text, static_cast<int>(places_.size()));
    if (!fresh) return number(again - found->second);
    number(static_cast<int>(text.size()));
    part_ += text;
    return *this;
  }
  [[nodiscard]] std::string finished() && { return std::move(part_); }

private:
  std::string part_;
  boost::unordered_flat_map<std::string, int, std::hash<std::string>> places_;
};

// Texts come as their numbers in the index: each is looked up once for a part.
class PartReader {
public:
  PartReader(std::string_view part, Texts& texts) : part_(part), texts_(texts) {}
  int number() {
    int value = 0;
    std::memcpy(&value, take(sizeof value).data(), sizeof value);
    return value;
  }
  int text() {
    const int size = number();
    if (size <= again) return numbers_.at(static_cast<std::size_t>(again - size));
    return numbers_.emplace_back(texts_(take(static_cast<std::size_t>(size))));
  }

private:
  std::string_view take(std::size_t bytes) {
    if (bytes > part_.size()) throw std::logic_error{"index: a part ends too early"};
    const std::string_view taken = part_.substr(0, bytes);
    part_.remove_prefix(bytes);
    return taken;
  }
  std::string_view part_;
  Texts& texts_;
  std::vector<int> numbers_; // of the texts so far
};

class IndexWriter {
public:
  IndexWriter(const Site& site, const IndexParts& parts)
      : site_(site), kb_(site.kb()), parts_(parts), texts_(2 * site.kb().entries.entries.size()) {}

  std::string write() {
    std::map<std::string_view, std::string> index{{"format", R"("coeval-reader-index")"}, {"version", "1"}};
    // In this order, as texts are numbered when they first come up.
    index["entries"] = entries();
    index["issues"] = issues();
    index["runs"] = runs();
    index["pairs"] = pairs();
    index["steps"] = std::move(steps_).finished();
    index["texts"] = texts_.all();
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
      list.numbers(std::array{texts_(singular_of(kb_.entries.entries[i].kind)), texts_(full_name_of(kb_, index)),
                              texts_(kb_.address(index)), texts_(path), texts_(more(index))});
    }
    return std::move(list).finished();
  }

  // What else somebody might look for: how it looks, and what it reads.
  std::string more(EntryIndex index) const {
    const Entry& entry = kb_.entries[index];
    std::vector<std::string> parts;
    if (const auto* features = entry.get<Features>("features"))
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
      list.numbers(std::array{texts_(name_of(kb_, issue.entry)), texts_(issue.address),
                              texts_(path_of(kb_, issue.entry)), texts_(kb_.figures[at(issue.figure)].name)});
    return std::move(list).finished();
  }

  std::string runs() {
    ArrayText list;
    for (std::size_t i = 0; i < kb_.runs.size(); ++i) {
      const Run& run = kb_.runs[i];
      list.numbers(std::array{texts_(run_name_of(kb_, RunIndex{static_cast<std::uint32_t>(i)})), texts_(run.address),
                              texts_(path_of(kb_, run.entry)), texts_(kb_.accessories[at(run.accessory)].name)});
    }
    return std::move(list).finished();
  }

  std::string pairs() {
    ArrayText list;
    Judge judge{kb_, site_.dates(), Basis::conjectured};
    for (std::size_t i = 0; i < kb_.issues.size(); ++i) {
      const IssueIndex issue{static_cast<std::uint32_t>(i)};
      const std::optional<std::string_view> found = parts_.find ? parts_.find(issue) : std::nullopt;
      const std::string made = found ? std::string{} : part_of(judge, issue);
      const std::string_view part = found ? *found : made;
      add_part(issue, part, list);
      if (parts_.keep) parts_.keep(issue, part);
    }
    return std::move(list).finished();
  }

  // The runs of all that an issue takes, in the order of its pairs.
  [[nodiscard]] std::vector<RunIndex> runs_for(IssueIndex issue) const {
    std::vector<RunIndex> runs;
    std::set<AccessoryIndex> seen;
    for (const Takes& takes : kb_.issues[at(issue)].takes) {
      if (!seen.insert(takes.accessory).second) continue;
      for (const MouldIndex mould : kb_.accessories[at(takes.accessory)].moulds)
        runs.insert(runs.end(), kb_.moulds[at(mould)].runs.begin(), kb_.moulds[at(mould)].runs.end());
    }
    return runs;
  }

  [[nodiscard]] std::string part_of(Judge& judge, IssueIndex issue) const {
    PartWriter part;
    for (const RunIndex run : runs_for(issue)) {
      const Judgement judgement = judge.judge(run, issue, true);
      part.number(static_cast<int>(judgement.verdict)).number(basis_number(judgement.basis));
      part.number(static_cast<int>(judgement.grounds.size()));
      for (const GroundAnswer& ground : judgement.grounds)
        part.number(static_cast<int>(ground.answer)).text(ground.words);
      const std::vector<Ground> deciding = deciding_grounds(judgement);
      std::size_t steps = 0;
      for (const Ground ground : deciding) steps += judgement.ground(ground).proof.size();
      part.number(static_cast<int>(steps));
      for (const Ground ground : deciding)
        for (const Reason& reason : judgement.ground(ground).proof) {
          part.text(reason.statement).number(reason.definition ? -1 : static_cast<int>(reason.basis));
          part.text(joined(reason.sources)).text(place(site_, reason.place).text);
        }
      part.number(static_cast<int>(judgement.would_settle.size()));
      for (const std::string& line : judgement.would_settle) part.text(line);
      part.text(gap_words(judgement));
    }
    return std::move(part).finished();
  }

  void add_part(IssueIndex issue, std::string_view part, ArrayText& list) {
    PartReader reader{part, texts_};
    std::vector<int> grounds, steps, settles;
    for (const RunIndex run : runs_for(issue)) {
      for (std::vector<int>* numbers : {&grounds, &steps, &settles}) numbers->clear();
      const int verdict = reader.number();
      const int basis = reader.number();
      for (int count = reader.number(); count > 0; --count) {
        grounds.push_back(reader.number());
        grounds.push_back(reader.text());
      }
      for (int count = reader.number(); count > 0; --count) {
        const int statement = reader.text();
        const int step_basis = reader.number();
        const int sources = reader.text();
        const int number = step({statement, step_basis, sources, reader.text()});
        if (std::ranges::find(steps, number) == steps.end()) steps.push_back(number);
      }
      for (int count = reader.number(); count > 0; --count) settles.push_back(reader.text());
      const int gap = reader.text();
      list.open().number(static_cast<std::int64_t>(at(issue))).number(static_cast<std::int64_t>(at(run)));
      list.number(verdict).number(basis).number(gap).numbers(grounds).numbers(steps).numbers(settles).close();
    }
  }

  // Statement, basis, sources and place.
  int step(const std::array<int, 4>& told) {
    const auto [found, fresh] = step_numbers_.try_emplace(told, static_cast<int>(step_numbers_.size()));
    if (fresh) steps_.numbers(told);
    return found->second;
  }

  const Site& site_;
  const LinkedKb& kb_;
  const IndexParts& parts_;
  Texts texts_;
  boost::unordered_flat_map<std::array<int, 4>, int> step_numbers_;
  ArrayText steps_;
};

} // namespace

std::string reader_index(const Site& site, const IndexParts& parts) { return IndexWriter{site, parts}.write(); }

} // namespace coeval
