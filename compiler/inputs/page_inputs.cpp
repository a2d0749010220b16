#include "inputs/page_inputs.hpp"

#include <algorithm>
#include <array>

#include <boost/pending/disjoint_sets.hpp>
#include <boost/unordered/unordered_flat_map.hpp>

#include "inputs/gathered.hpp"
#include "links/asset_path.hpp"
#include "links/references.hpp"

namespace coeval {
namespace {

// Which of many things hang together.
using Families = boost::disjoint_sets_with_storage<>;

// Figures and accessories, and what stands in their files: nearly all of a knowledge base, in small pieces.
bool is_local(Kind kind) {
  return kind == Kind::figure || kind == Kind::issue || kind == Kind::accessory || kind == Kind::mould ||
         kind == Kind::run || kind == Kind::repro;
}

// Their pages list all that refers to them.
bool lists_referring(Kind kind) {
  return kind == Kind::card || kind == Kind::plant || kind == Kind::route || kind == Kind::mark ||
         kind == Kind::feature || kind == Kind::source;
}

template <class Item> void keep_once(std::vector<Item>& list) {
  std::ranges::sort(list);
  list.erase(std::unique(list.begin(), list.end()), list.end());
}

class InputsReader {
public:
  InputsReader(const Site& site, const PictureWords& picture_words)
      : site_(site), kb_(site.kb()), picture_words_(picture_words), files_(site.sources().files.size()),
        references_(kb_), labels_(kb_.entries.entries.size()), plants_(kb_.plants.size()) {
    read_files();
    if (!complete_) return;
    read_references();
    read_statements();
    read_grounds();
  }

  [[nodiscard]] bool complete() const { return complete_; }

  std::vector<std::optional<ContentHash>> by_file() {
    std::vector<std::optional<ContentHash>> around(files_.size());
    for (std::size_t file = 0; file < files_.size(); ++file)
      if (files_[file].local) around[file] = around_of(file);
    std::vector<std::optional<ContentHash>> all(files_.size());
    for (std::size_t file = 0; file < files_.size(); ++file) {
      if (!around[file]) continue;
      Gathered near;
      near.add(everywhere_).add(file_hash(file)).add(*around[file]);
      for (const std::size_t other : files_[file].near) near.add(around[other].value_or(file_hash(other)));
      all[file] = near.hash();
    }
    around_ = std::move(around);
    return all;
  }

  // After `by_file`. A page that lists what refers to its entry follows from the whole file of each of these.
  std::vector<std::optional<ContentHash>> by_entry() {
    std::vector<std::optional<ContentHash>> all(kb_.entries.entries.size());
    const boost::unordered_flat_map<std::uint32_t, std::vector<std::size_t>> referring = files_that_refer();
    const auto add_referring = [&](EntryIndex to, Gathered& inputs) {
      if (const auto files = referring.find(static_cast<std::uint32_t>(to)); files != referring.end())
        for (const std::size_t file : files->second) inputs.add(around(file));
    };
    for (std::size_t i = 0; i < all.size(); ++i) {
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      if (!lists_referring(kb_.entries[index].kind)) continue;
      Gathered inputs;
      inputs.add(everywhere_).add(around(file_of(index)));
      for (const ContentHash& line : lines_) inputs.add(line);
      add_referring(index, inputs);
      if (kb_.entries[index].kind == Kind::plant) inputs.add(plants_[kb_.position[i]]);
      if (kb_.entries[index].kind == Kind::route)
        for (const PlantIndex plant : {kb_.routes[kb_.position[i]].from, kb_.routes[kb_.position[i]].to})
          if (at(plant) < kb_.plants.size()) {
            inputs.add(plants_[at(plant)]);
            add_referring(kb_.plants[at(plant)].entry, inputs);
          }
      all[i] = inputs.hash();
    }
    return all;
  }

  // After `by_file`. Everything that goes into a slot, with its reproductions.
  std::map<std::string, ContentHash, std::less<>> by_slot() {
    std::map<std::string, std::vector<std::size_t>> files;
    const auto add = [&](AccessoryIndex accessory, EntryIndex entry) {
      files[kb_.accessories[at(accessory)].slot].push_back(file_of(entry));
    };
    for (std::size_t i = 0; i < kb_.accessories.size(); ++i)
      add(AccessoryIndex{static_cast<std::uint32_t>(i)}, kb_.accessories[i].entry);
    for (const Mould& mould : kb_.moulds) add(mould.accessory, mould.entry);
    for (const Run& run : kb_.runs) add(run.accessory, run.entry);
    for (const Repro& repro : kb_.repros) add(repro.accessory, repro.entry);
    std::map<std::string, ContentHash, std::less<>> all;
    for (auto& [slot, those] : files) {
      keep_once(those);
      Gathered inputs;
      inputs.add(everywhere_);
      for (const std::size_t file : those) inputs.add(around(file));
      all[slot] = inputs.hash();
    }
    return all;
  }

  // After `by_file`. A claim may stand in one file with thousands, so what it states is looked at by itself.
  std::vector<ContentHash> by_claim() {
    std::vector<ContentHash> all;
    for (std::size_t i = 0; i < kb_.claims.size(); ++i) {
      const EntryIndex claim = kb_.claims[i].entry;
      Gathered inputs;
      inputs.add(everywhere_).add(file_hash(file_of(claim)));
      add_report(site_.claim_report(ClaimIndex{static_cast<std::uint32_t>(i)}), inputs);
      add_targets(claim, inputs);
      for (const EntryIndex child : site_.backlinks().children[at(claim)]) add_targets(child, inputs);
      all.push_back(inputs.hash());
    }
    return all;
  }

private:
  // Of each entry whose page lists them.
  [[nodiscard]] boost::unordered_flat_map<std::uint32_t, std::vector<std::size_t>> files_that_refer() const {
    boost::unordered_flat_map<std::uint32_t, std::vector<std::size_t>> referring;
    for (std::size_t file = 0; file < files_.size(); ++file)
      for (const EntryIndex target : files_[file].targets) {
        EntryIndex listing = target;
        while (kb_.entries[listing].parent != no_entry) listing = kb_.entries[listing].parent;
        if (!lists_referring(kb_.entries[listing].kind)) continue;
        std::vector<std::size_t>& files = referring[static_cast<std::uint32_t>(listing)];
        if (files.empty() || files.back() != file) files.push_back(file);
      }
    return referring;
  }

  struct FileFacts {
    bool local = false;
    ContentHash hash;
    std::vector<EntryIndex> entries;
    std::vector<EntryIndex> targets; // outside of it, each once
    std::vector<std::size_t> near;   // files: see the head of page_inputs.hpp
  };

  [[nodiscard]] std::size_t file_of(EntryIndex entry) const {
    return static_cast<std::size_t>(kb_.entries[entry].place.file);
  }
  [[nodiscard]] const ContentHash& file_hash(std::size_t file) const { return files_[file].hash; }

  const ContentHash& around(std::size_t file) {
    if (!around_[file]) around_[file] = around_of(file);
    return *around_[file];
  }

  void read_files() {
    for (std::size_t file = 0; file < files_.size(); ++file) {
      const SourceFile& source = site_.sources().files[file];
      files_[file].hash = Gathered{}.add(source.path()).add(source.text()).hash();
    }
    for (std::size_t i = 0; i < kb_.entries.entries.size(); ++i) {
      const Entry& entry = kb_.entries.entries[i];
      if (!entry.place.known()) {
        complete_ = false;
        continue;
      }
      FileFacts& facts = files_[static_cast<std::size_t>(entry.place.file)];
      facts.entries.push_back(EntryIndex{static_cast<std::uint32_t>(i)});
      facts.local = facts.local || is_local(entry.kind);
    }
  }

  void refer(EntryIndex from, EntryIndex to) {
    if (file_of(from) == file_of(to)) return;
    FileFacts& source = files_[file_of(from)];
    source.targets.push_back(to);
    if (files_[file_of(to)].local) source.near.push_back(file_of(to));
    if (files_[file_of(to)].local) files_[file_of(to)].near.push_back(file_of(from));
  }

  void read_references() {
    for (const Reference& reference : references_.all()) refer(reference.from, reference.to);
    for (std::size_t i = 0; i < kb_.entries.entries.size(); ++i)
      if (const EntryIndex parent = kb_.entries.entries[i].parent; parent != no_entry) {
        const EntryIndex child{static_cast<std::uint32_t>(i)};
        refer(child, parent);
        refer(parent, child);
      }
    for (FileFacts& facts : files_) {
      keep_once(facts.targets);
      keep_once(facts.near);
    }
  }

  // All that is said of the points of each family, in its order. Families that only the calendar connects are apart.
  void read_statements() {
    const std::span<const Constraint> constraints = site_.dates().graph().constraints();
    families_ = Families{site_.dates().graph().points()};
    for (const Constraint& constraint : constraints)
      if (constraint.x != origin && constraint.y != origin) families_.union_set(at(constraint.x), at(constraint.y));
    stated_.resize(site_.dates().graph().points());
    Gathered statement;
    for (std::size_t i = 0; i < constraints.size(); ++i) {
      const Constraint& constraint = constraints[i];
      ContentHash& stated = stated_[families_.find_set(at(constraint.x == origin ? constraint.y : constraint.x))];
      statement.clear();
      statement.add(stated).add(constraint.x == origin).add(constraint.y == origin).add(constraint.most);
      const std::array chain{ConstraintIndex{static_cast<std::uint32_t>(i)}};
      for (const Reason& reason : site_.dates().tell_all(chain)) add_reason(reason, statement);
      stated = statement.hash();
    }
  }

  void add_reason(const Reason& reason, Gathered& inputs) {
    inputs.add(reason.statement).add(reason.basis).add(reason.definition).add(reason.weakest);
    add_place(reason.place, inputs);
    for (const std::string& citation : reason.sources) {
      inputs.add(citation);
      const auto source = kb_.addresses.find("source/" + citation.substr(0, citation.find(' ')));
      if (source) inputs.add(label_of(*source));
    }
  }

  void add_place(Span place, Gathered& inputs) const {
    if (!place.known()) return;
    const SourceFile& file = site_.sources()[place.file];
    inputs.add(file.path()).add(file.position(place.begin).line);
  }

  // What an entry is called, where its page is, and when it was on every basis.
  const ContentHash& label_of(EntryIndex index) {
    std::optional<ContentHash>& label = labels_[at(index)];
    if (label) return *label;
    const Entry& entry = kb_.entries[index];
    Gathered said;
    said.add(entry.kind).add(entry.id).add(kb_.address(index));
    for (const std::string_view key : {"name", "title", "says"})
      said.add(spec_of(entry.kind).find(key) == nullptr ? std::string_view{} : entry.text(key));
    if (entry.parent != no_entry) said.add(label_of(entry.parent));
    if (entry.kind == Kind::route) // is called after its ends
      for (const Reference& reference : references_.from(index))
        if (kb_.entries[reference.to].kind == Kind::plant) said.add(label_of(reference.to));
    if (const auto span = site_.backlinks().span[at(index)]) {
      for (const Point point : {start_of(*span), end_of(*span)})
        for (const Basis basis : all_bases) {
          const DayBounds known = site_.dates().bounds(point, basis);
          said.add(known.earliest.has_value()).add(known.earliest.value_or(0));
          said.add(known.latest.has_value()).add(known.latest.value_or(0));
        }
    }
    label = said.hash();
    return *label;
  }

  void add_stated(EntryIndex index, Gathered& inputs) {
    if (const auto span = site_.backlinks().span[at(index)]) {
      inputs.add(stated_[families_.find_set(at(start_of(*span)))]);
      inputs.add(stated_[families_.find_set(at(end_of(*span)))]);
    }
  }

  // A file as it stands, and what that refers to.
  [[nodiscard]] ContentHash file_and_labels(std::size_t file) {
    Gathered said;
    said.add(file_hash(file));
    for (const EntryIndex target : files_[file].targets) said.add(label_of(target));
    return said.hash();
  }

  void read_grounds() {
    Gathered all;
    all.add(kb_.lines.size());
    for (const Line& line : kb_.lines) all.add(label_of(line.entry));
    std::vector<std::size_t> with_features;
    for (const Feature& feature : kb_.features) with_features.push_back(file_of(feature.entry));
    keep_once(with_features);
    for (const std::size_t file : with_features) all.add(file_hash(file));
    everywhere_ = all.hash();

    for (std::size_t i = 0; i < kb_.lines.size(); ++i) {
      Gathered line;
      line.add(file_and_labels(file_of(kb_.lines[i].entry)));
      for (const TimeSpanIndex period : site_.backlinks().bands[i]) line.add(label_of(kb_.spans[at(period)].entry));
      lines_.push_back(line.hash());
    }
    read_plants();
  }

  // Of plants that routes connect, however far, with these routes.
  void read_plants() {
    Families connected{kb_.plants.size()};
    for (const Route& route : kb_.routes) connected.union_set(at(route.from), at(route.to));
    std::vector<Gathered> said(kb_.plants.size());
    for (std::size_t i = 0; i < kb_.plants.size(); ++i)
      said[connected.find_set(i)].add(file_and_labels(file_of(kb_.plants[i].entry)));
    for (const Route& route : kb_.routes) {
      Gathered& family = said[connected.find_set(at(route.from))];
      family.add(file_and_labels(file_of(route.entry)));
      add_stated(route.entry, family);
    }
    for (std::size_t i = 0; i < kb_.plants.size(); ++i) plants_[i] = said[connected.find_set(i)].hash();
  }

  // What a file with figures or accessories says, and everything about what it refers to.
  ContentHash around_of(std::size_t file) {
    Gathered said;
    said.add(file_hash(file));
    for (const EntryIndex index : files_[file].entries) {
      const Entry& entry = kb_.entries[index];
      add_stated(index, said);
      if (entry.kind == Kind::picture)
        if (const Field* picture = entry.find("file")) said.add(picture_words_(asset_path(site_.sources(), *picture)));
      const std::uint32_t position = kb_.position[at(index)];
      if (entry.kind == Kind::figure && kb_.figures[position].line) said.add(lines_[at(*kb_.figures[position].line)]);
      if (entry.kind == Kind::accessory && kb_.accessories[position].line)
        said.add(lines_[at(*kb_.accessories[position].line)]);
    }
    for (const EntryIndex target : files_[file].targets) {
      said.add(label_of(target));
      const Kind kind = kb_.entries[target].kind;
      if (kind == Kind::mark) said.add(file_and_labels(file_of(target)));
      if (kind == Kind::plant) said.add(plants_[kb_.position[at(target)]]);
    }
    return said.hash();
  }

  void add_targets(EntryIndex from, Gathered& inputs) {
    for (const Reference& reference : references_.from(from)) {
      inputs.add(label_of(reference.to));
      add_stated(reference.to, inputs);
      if (kb_.entries[reference.to].kind == Kind::source) // where it was published is told to programs
        inputs.add(file_hash(file_of(reference.to)));
      if (const auto& around = around_[file_of(reference.to)]) inputs.add(*around);
    }
  }

  void add_report(const ClaimReport& report, Gathered& inputs) {
    inputs.add(report.answer).add(report.basis.has_value()).add(report.basis.value_or(Basis{}));
    for (const ClaimReport::Stated& stated : report.stated) {
      inputs.add(stated.words).add(stated.finding.answer);
      inputs.add(stated.finding.basis.has_value()).add(stated.finding.basis.value_or(Basis{}));
      for (const Reason& reason : stated.finding.proof) add_reason(reason, inputs);
    }
  }

  const Site& site_;
  const LinkedKb& kb_;
  const PictureWords& picture_words_;
  bool complete_ = true; // every entry has its place in a file
  std::vector<FileFacts> files_;
  ReferenceTable references_;
  Families families_{0};            // of points
  std::vector<ContentHash> stated_; // of each family, where its first point stands
  std::vector<std::optional<ContentHash>> labels_;
  ContentHash everywhere_;          // what every page may show
  std::vector<ContentHash> lines_;  // with their periods
  std::vector<ContentHash> plants_; // with all that routes connect them with
  std::vector<std::optional<ContentHash>> around_;
};

} // namespace

PageInputs::PageInputs(const Site& site, const PictureWords& picture_words) : kb_(site.kb()) {
  InputsReader reader{site, picture_words};
  if (!reader.complete()) return;
  by_file_ = reader.by_file();
  by_claim_ = reader.by_claim();
  by_entry_ = reader.by_entry();
  by_slot_ = reader.by_slot();
}

std::optional<ContentHash> PageInputs::of(const PlannedPage& page) const {
  if (by_file_.empty()) return {};
  Gathered inputs;
  if (page.kind == PageKind::key && page.entry == no_entry) {
    const auto slot = by_slot_.find(page.topic);
    if (slot == by_slot_.end()) return {};
    return inputs.add(slot->second).add(page.kind).add(page.path).hash();
  }
  if (page.entry == no_entry) return {};
  const Entry& entry = kb_.entries[page.entry];
  if (page.kind == PageKind::claim)
    inputs.add(by_claim_[kb_.position[at(page.entry)]]);
  else if (is_local(entry.kind) && by_file_[static_cast<std::size_t>(entry.place.file)])
    inputs.add(*by_file_[static_cast<std::size_t>(entry.place.file)]);
  else if (const auto& listing = by_entry_[at(page.entry)])
    inputs.add(*listing);
  else
    return {};
  return inputs.add(page.kind).add(page.path).add(kb_.address(page.entry)).hash();
}

} // namespace coeval
