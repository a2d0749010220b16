// tests/unit/pages/harbour.hpp: a small knowledge base with one of everything that pages tell of.
#pragma once

#include <memory>

#include "in_memory_kb.hpp"
#include "pages/site.hpp"

namespace harbour {

// What is invented here mirrors nothing real.
inline std::vector<coeval::SourceFile> files() {
  return {{"accessory.toml", R"toml(
[accessory]
id = "lantern"
name = "Lantern"
slot = "hand"
source = ["log p. 1"]
features = { seam = "fine" }

[[mould]]
id = "ring"
name = "Ring top"
used = "1976-06/1979-12"
basis = "documented"
source = ["log p. 1"]
features = { top = "ring", height-mm = { value = 22.4, tolerance = 0.3 }, pins = 2 }
[[mould.picture]]
file = "ring.svg"
alt = "A lantern with a ring on top."
credit = "Contributors"
[[mould.run]]
id = "brass"
colour = { name = "brass", lab = [70, 5, 45] }
material = "styrene"
plant = "cork"
made = "1976-08-01/1978-12-31"
[[mould.run]]
id = "slate"
plant = "porto"
made = { start = "[..1979]", end = "1979-12" }
[[mould.run.exclusive]]
to = ["maren/second"]
basis = "observed"
source = ["log p. 8"]

[[mould]]
id = "plain"
name = "Plain top"
used = "1980-02/1984"
replaces = "ring"
clean = true
basis = "observed"
source = ["log p. 2"]
features = { top = "plain", height-mm = { value = 19.6, tolerance = 0.3 }, pins = 2 }
marks = ["anchor"]
[[mould.timing]]
this = "start"
after = "lantern/ring.end"
basis = "observed"
source = ["log p. 3"]
[[mould.timing]]
this = "end"
on = "1983?"
disputed = true
source = ["log p. 99"]
[[mould.run]]
id = "grey"
plant = "cork"
made = "1980-02-01/1983-12-31"
features = { seam = "none" }

[[repro]]
id = "recast"
of = "ring/brass"
method = "recast"
since = "1996~"
material = "resin"
colour = { name = "paint", lab = [68, 8, 40] }
features = { seam = "none", height-mm = { value = 21.9, tolerance = 0.1 }, pins = [2, 3] }
basis = "observed"
source = ["log p. 4"]
)toml"},
          {"figure.toml", R"toml(
[figure]
id = "maren"
name = "Maren"
role = "keeper"
features = { height-mm = 94 }
source = ["log p. 5"]

[[issue]]
id = "first"
name = "First"
packed = "1976-10-01/1979-06-30"
packer = "cork"
market = ["gb", "ie"]
card = ["six-back"]
offer = "carded"
paint = "navy"
basis = "documented"
source = ["log p. 5"]
[[issue.takes]]
accessory = "lantern"
notes = "Held high."
[[issue.pairing]]
run = "lantern/ring/brass"
card = "six-back"
basis = "observed"
source = ["log p. 6"]
notes = "Sealed."
[[issue.pairing]]
run = "lantern/plain/grey"
refuted = true
basis = "observed"
source = ["log p. 7"]

[[issue]]
id = "second"
packed = "1978-07-01/1982"
replaces = "first"
basis = "documented"
source = ["log p. 5"]
[[issue.takes]]
accessory = "lantern"
[[issue.takes]]
accessory = "lantern"
slot = "waist"

[[issue]]
id = "bare"
packed = "1981/1982"
bare = true
basis = "observed"
source = ["log p. 5"]

[[issue]]
id = "silent"
)toml"},
          {"rest.toml", R"toml(
[line]
id = "patrol"
name = "Patrol"
slots = ["hand", "waist"]
source = ["log"]
[line.leftover]
at-most = "P90D"
basis = "documented"
source = ["log p. 9"]
[[period]]
id = "early"
name = "Early years"
dates = "1976/1979"
source = ["log"]
[[card]]
id = "six-back"
name = "Six-back"
used = "1976-10/1978"
source = ["log"]
[[plant]]
id = "cork"
name = "Cork"
routes-complete = true
source = ["log"]
[[plant]]
id = "porto"
name = "Porto"
source = ["log"]
[[route]]
id = "porto-cork"
from = "porto"
to = "cork"
active = "1979/1981"
source = ["log"]
[[mark]]
id = "anchor"
name = "Anchor"
text = "an anchor"
used = "1980-01/.."
source = ["log"]
[[feature]]
id = "top"
name = "Top"
kind = "choice"
values = ["ring", "plain", "knob"]
by = "photograph"
effort = 0.5
look = "Seen from the side."
caution = "A broken ring leaves stumps."
[[feature.value]]
id = "ring"
look = "A closed loop."
[[feature]]
id = "seam"
name = "Seam"
kind = "choice"
values = ["fine", "none"]
tool = "lens"
[[feature]]
id = "height-mm"
name = "Height"
kind = "measure"
unit = "mm"
tool = "calliper"
by = "measurement"
tolerance = 0.2
[[feature]]
id = "pins"
name = "Pin marks"
kind = "count"
[[feature]]
id = "body-colour"
name = "Plastic"
kind = "colour"
tolerance = 1
tool = "colour-card"
[[feature]]
id = "smell"
name = "Smell"
kind = "choice"
values = ["sweet", "sharp"]
tool = "needle"
destructive = true
[[source]]
id = "log"
title = "The log"
kind = "book"
[[claim]]
id = "brass-first"
says = "Brass came first."
standing = "supported"
source = ["log p. 6"]
[[claim.pairing]]
run = "lantern/ring/brass"
issue = "maren/first"
[[claim]]
id = "ring-before-plain"
says = "The ring went before the plain top came."
standing = "supported"
source = ["log p. 3"]
[[claim.timing]]
of = "lantern/ring"
this = "end"
before = "lantern/plain.start"
)toml"}};
}

// A knowledge base and the site of it.
class Reference {
public:
  explicit Reference(std::vector<coeval::SourceFile> texts = files()) : kb_(std::move(texts)) {
    kb_.sources.assets = {"ring.svg"};
    site_ = std::make_unique<coeval::Site>(coeval::SiteInput{kb_.kb, kb_.dates, kb_.sources, {}});
  }
  [[nodiscard]] const in_memory::Kb& kb() const { return kb_; }
  [[nodiscard]] const coeval::Site& site() const { return *site_; }
  [[nodiscard]] coeval::Page page(std::string_view path) const {
    const auto found = std::ranges::find(site_->pages(), path, &coeval::PlannedPage::path);
    if (found == site_->pages().end()) throw std::out_of_range("no page is planned at " + std::string{path});
    return site_->page(*found);
  }

private:
  in_memory::Kb kb_;
  std::unique_ptr<coeval::Site> site_;
};

} // namespace harbour
