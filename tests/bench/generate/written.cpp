#include "generate/written.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "generate/dice.hpp"

namespace generated {
namespace {

constexpr std::array<std::string_view, 32> qualities{
    "bent",   "blunt",   "broad", "capped",  "coiled", "crooked", "deep",   "double",  "flat",  "folding", "forked",
    "great",  "grooved", "heavy", "hinged",  "hollow", "hooded",  "hooked", "knotted", "light", "long",    "looped",
    "narrow", "notched", "plain", "pointed", "ribbed", "round",   "short",  "slim",    "stout", "wide"};
constexpr std::array<std::string_view, 32> things{
    "anchor", "apron",  "axe",   "bag",   "basket", "bell", "belt",   "boots",   "bucket", "cape",   "chest",
    "cloak",  "cord",   "crate", "flask", "hammer", "hat",  "helmet", "hook",    "horn",   "kettle", "ladder",
    "lamp",   "mallet", "map",   "net",   "oar",    "pole", "rope",   "satchel", "spade",  "whistle"};
constexpr std::array<std::string_view, 24> trades{"baker",  "carter", "clerk",   "cook",   "cooper",  "digger",
                                                  "driver", "farmer", "fiddler", "fisher", "glazier", "grocer",
                                                  "guard",  "keeper", "mason",   "miller", "nurse",   "painter",
                                                  "porter", "potter", "sailor",  "tailor", "tinker",  "weaver"};
constexpr std::array<std::string_view, 32> people{"ada",  "alf",  "bess", "bram", "cass", "cole", "dora", "edda",
                                                  "finn", "gale", "hal",  "ines", "ivo",  "jem",  "kit",  "lena",
                                                  "mab",  "nell", "odd",  "otis", "pim",  "quin", "rhea", "rolf",
                                                  "sal",  "tess", "ulla", "vern", "wat",  "wyn",  "yara", "zeb"};
constexpr std::array<std::string_view, 24> colours{
    "amber", "black", "blue",  "brass",  "brown", "cream", "green", "grey", "ivory", "lemon", "lilac", "maroon",
    "navy",  "ochre", "olive", "orange", "pink",  "red",   "rust",  "sand", "slate", "tan",   "white", "yellow"};
constexpr std::array<std::string_view, 10> tops{"ring",    "plain", "notch", "stud", "welded",
                                                "creased", "split", "domed", "cut",  "stepped"};
constexpr std::array<std::string_view, 8> slots{"hand", "off-hand", "head", "back",
                                                "body", "waist",    "feet", "companion"};
constexpr std::array<std::string_view, 12> remarks{
    "Looked at beside two others that came from the same shop, none of them opened.",
    "The last leaf of the book is gone, so the end was taken from the cards.",
    "Worn ones pass for the one before it until a lens finds paint left in the rim.",
    "One is known on a card that was never opened, and five loose.",
    "The tool was back on the press for a few weeks while the new one was cut.",
    "Collectors count it by the colour; count it by the shape.",
    "Nobody wrote down when it began, and the lot book has no names in it.",
    "A dimple under the foot is in nearly all of them.",
    "The seam was scraped by hand, and not always on the same side.",
    "Stock was moved between the two sheds that spring, so that either may turn up on a late card.",
    "The photograph shows the reverse only.",
    "Left out of the list of 1999, and put back in the next one."};

std::string two_words(std::string_view one, std::string_view other, std::uint32_t series) {
  return series == 0 ? fmt::format("{}-{}", one, other) : fmt::format("{}-{}-{}", one, other, series + 1);
}
std::string accessory_id(std::uint32_t number) {
  const auto all = static_cast<std::uint32_t>(qualities.size() * things.size());
  const std::uint32_t of_series = number % all;
  return two_words(qualities[of_series % qualities.size()], things[of_series / qualities.size()], number / all);
}
std::string figure_id(std::uint32_t number) {
  const auto all = static_cast<std::uint32_t>(trades.size() * people.size());
  const std::uint32_t of_series = number % all;
  return two_words(trades[of_series % trades.size()], people[of_series / trades.size()], number / all);
}
std::string mould_id(std::uint32_t family, std::uint32_t mould) {
  return fmt::format("{}-{}", tops[(family + mould) % tops.size()], mould + 1);
}
std::string run_id(const TrueRun& run) { return std::string{colours[run.colour % colours.size()]}; }

std::string month_of(Day day) { return coeval::iso(day).substr(0, 7); }
std::string year_of(Day day) { return coeval::iso(day).substr(0, 4); }

// Two months, or whatever else curators can say of the time between two days. Always true.
std::string dates_line(Dice& dice, std::string_view key, Lasted lasted, bool loose) {
  const std::string from = month_of(lasted.start);
  const std::string until = month_of(lasted.end);
  const auto line = [&](const std::string& value) { return fmt::format("{} = {}\n", key, value); };
  if (!loose) return line(fmt::format("\"{}/{}\"", from, until));
  const std::string wide_from = fmt::format("[{}..{}]", month_of(lasted.start - 120), month_of(lasted.start + 90));
  const std::string wide_until = fmt::format("[{}..{}]", month_of(lasted.end - 90), month_of(lasted.end + 120));
  switch (dice.weighted({14, 10, 8, 8, 10, 6, 4, 10, 8, 4, 18})) {
  case 0:
    return line(fmt::format("\"{}/{}\"", year_of(lasted.start), until));
  case 1:
    return line(fmt::format("\"{}/{}\"", from, year_of(lasted.end)));
  case 2:
    return line(fmt::format("\"{}/{}\"", year_of(lasted.start), year_of(lasted.end)));
  case 3:
    return line(fmt::format("\"{}~/{}\"", year_of(lasted.start), until));
  case 4:
    return line(fmt::format("{{ start = \"{}\", end = \"{}\" }}", wide_from, until));
  case 5:
    return line(fmt::format("{{ start = \"{}\", end = \"{}\" }}", from, wide_until));
  case 6:
    return line(fmt::format("{{ start = \"[..{}]\", end = \"{}~\" }}", from, until));
  case 7:
    return line(fmt::format("\"{}/\"", from));
  case 8:
    return line(fmt::format("\"/{}\"", until));
  case 9:
    return line(fmt::format("\"{}?/{}?\"", from, until));
  default:
    return {};
  }
}

class LineText {
public:
  LineText(const Plan& plan, const TrueLine& line, const FileSink& sink)
      : plan_(plan), line_(line), sink_(sink), dice_(~plan.seed, line.number),
        id_(fmt::format("line-{}", line.number + 1)) {}

  void write() {
    sink_(id_ + "/line.toml", line_file());
    sink_(id_ + "/periods.toml", hub_spans("period", "dates", line_.periods));
    sink_(id_ + "/cards.toml", hub_spans("card", "used", line_.cards));
    sink_(id_ + "/plants.toml", plants_file());
    sink_(id_ + "/marks.toml", marks_file());
    sink_(id_ + "/sources.toml", sources_file());
    sink_(id_ + "/pictures/part.svg",
          "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 10\"><path d=\"M1 1h8v8z\"/></svg>\n");
    for (const Family& family : line_.families)
      sink_(fmt::format("{}/accessories/{}.toml", id_, accessory_id(family.number)), accessory_file(family));
    for (const TrueFigure& figure : line_.figures)
      sink_(fmt::format("{}/figures/{}.toml", id_, figure_id(figure.number)), figure_file(figure));
    if (!claims_.empty()) sink_(id_ + "/claims.toml", claims_);
  }

private:
  bool loosely() { return dice_.percent(plan_.loose); }
  std::string hub(std::string_view kind, std::uint32_t number) {
    return fmt::format("{}-{}-{}", id_, kind, number + 1);
  }

  std::string cite() {
    const std::uint32_t first = dice_.below(line_.sources);
    const auto one = [&](std::uint32_t source) {
      return fmt::format("\"{} p. {}\"", hub("source", source), 1 + dice_.below(200));
    };
    if (dice_.percent(42)) return one(first); // 45 of the demo's 107 moulds
    return one(first) + ", " + one((first + 1 + dice_.below(line_.sources - 1)) % line_.sources);
  }
  std::string backing(std::string_view basis) { return fmt::format("basis = \"{}\"\nsource = [{}]\n", basis, cite()); }
  // 93, 10 and 4 of the demo's moulds.
  std::string backing() {
    constexpr std::array<std::string_view, 3> names{"documented", "observed", "reported"};
    return backing(names[dice_.weighted({93, 10, 4})]);
  }
  std::string notes() {
    std::string text = fmt::format("notes = \"\"\"\n{}", remarks[dice_.below(remarks.size())]);
    for (std::uint32_t more = dice_.below(2); more > 0; --more)
      text += fmt::format(" {}", remarks[dice_.below(remarks.size())]);
    return text + "\"\"\"\n";
  }

  std::string line_file() {
    std::string text = fmt::format("[line]\nid = \"{0}\"\nname = \"Line {1}\"\nslots = [", id_, line_.number + 1);
    for (const std::string_view slot : slots) text += fmt::format("\"{}\", ", slot);
    text += fmt::format("]\nsource = [");
    for (std::uint32_t i = 0; i < line_.sources; ++i) text += fmt::format("\"{} p. 1\", ", hub("source", i));
    text += "]\n\n[line.leftover]\nat-most = \"P9M\"\n" + backing("documented");
    text += "\n[line.allowance]\nmonth = \"P1M\"\nyear = \"P9M\"\n" + notes();
    return text;
  }

  std::string hub_spans(std::string_view kind, std::string_view key, const std::vector<Lasted>& spans) {
    std::string text;
    for (std::uint32_t i = 0; i < spans.size(); ++i) {
      text +=
          fmt::format("[[{0}]]\nid = \"{1}\"\nname = \"{0} {2}\"\nline = \"{3}\"\n", kind, hub(kind, i), i + 1, id_);
      text += dates_line(dice_, key, spans[i], false);
      if (i % 2 == 1) text += fmt::format("replaces = \"{}\"\nclean = true\n", hub(kind, i - 1));
      text += backing() + notes() + "\n";
    }
    return text;
  }

  std::string plants_file() {
    std::string text;
    for (std::uint32_t i = 0; i < line_.plants; ++i)
      text += fmt::format("[[plant]]\nid = \"{}\"\nname = \"Works {} of line {}\"\nroutes-complete = {}\n{}{}\n",
                          hub("plant", i), i + 1, line_.number + 1, i < 5, backing("documented"), notes());
    for (const TrueRoute& route : line_.routes) {
      text += fmt::format("[[route]]\nid = \"{}\"\nfrom = \"{}\"\nto = \"{}\"\n",
                          hub(fmt::format("from-{}-to", route.from + 1), route.to), hub("plant", route.from),
                          hub("plant", route.to));
      text += dates_line(dice_, "active", route.active, false) + backing() + "\n";
    }
    return text;
  }

  std::string marks_file() {
    std::string text;
    for (std::uint32_t i = 0; i < line_.marks.size(); ++i) {
      text += fmt::format("[[mark]]\nid = \"{}\"\nname = \"Mark {}\"\nkind = \"line\"\n", hub("mark", i), i + 1);
      text += dates_line(dice_, "used", line_.marks[i], false);
      if (i + 1 == line_.marks.size()) text += "end-binds = true\n";
      text += backing() + notes() + "\n";
    }
    return text;
  }

  std::string sources_file() {
    constexpr std::array<std::string_view, 5> kinds{"catalogue", "factory-record", "sealed-examples", "interview",
                                                    "newsletter"};
    std::string text;
    for (std::uint32_t i = 0; i < line_.sources; ++i)
      text += fmt::format(
          "[[source]]\nid = \"{}\"\ntitle = \"Source {} of line {}\"\nkind = \"{}\"\npublished = \"{}\"\n{}\n",
          hub("source", i), i + 1, line_.number + 1, kinds[i % kinds.size()], 1976 + i % 45, notes());
    return text;
  }

  std::string address(MouldAt at) const {
    const Family& family = line_.families[at.family];
    return accessory_id(family.number) + "/" + mould_id(family.number, at.mould);
  }
  std::string address(const TruePairing& pairing) const {
    return address(MouldAt{pairing.family, pairing.mould}) + "/" +
           run_id(line_.families[pairing.family].moulds[pairing.mould].runs[pairing.run]);
  }

  // When the one began and the other was in use, told without dates.
  std::string timing(std::string_view table, Lasted self, Lasted other, const std::string& name) {
    std::string order;
    if (self.start > other.end)
      order = fmt::format("after = \"{}.end\"\n", name) + (self.start - other.end > 100 ? "at-least = \"P1M\"\n" : "");
    else if (self.start < other.start)
      order = fmt::format("before = \"{}.start\"\n", name);
    else if (self.start > other.start)
      order = fmt::format("after = \"{}.start\"\n", name);
    else
      order = fmt::format("same-day-as = \"{}.start\"\n", name);
    return fmt::format("\n[[{}.timing]]\nthis = \"start\"\n{}{}", table, order, backing("observed"));
  }

  // Conjectured, and so the weakest statement of the contradiction, whatever the others are.
  static std::string planted(const Family& family, const std::string& id) {
    const std::string head = "\n[[mould.timing]]\nthis = \"start\"\nbasis = \"conjectured\"\n";
    if (family.planted == Planted::date)
      return head + fmt::format("on = \"{}\"\n", std::stoi(year_of(family.moulds.front().used.end)) + 3);
    const auto last = static_cast<std::uint32_t>(family.moulds.size() - 1);
    return head + fmt::format("after = \"{}/{}.end\"\n", id, mould_id(family.number, last));
  }

  std::string accessory_file(const Family& family) {
    const std::string id = accessory_id(family.number);
    std::string text =
        fmt::format("[accessory]\nid = \"{}\"\nname = \"{}\"\nslot = \"{}\"\nline = \"{}\"\nsource = [{}]\n{}", id, id,
                    slots[family.slot], id_, cite(), notes());
    text += "\n[accessory.features]\nseam = \"fine\"\nflex = \"rigid\"\nsound = \"click\"\n";
    for (std::uint32_t m = 0; m < family.moulds.size(); ++m) {
      const TrueMould& mould = family.moulds[m];
      text += fmt::format("\n[[mould]]\nid = \"{}\"\nname = \"{} top\"\n", mould_id(family.number, m),
                          tops[(family.number + m) % tops.size()]);
      // What a planted contradiction rests on is dated by months.
      text += dates_line(dice_, "used", mould.used, loosely() && family.planted == Planted::nothing);
      if (m > 0) {
        text += fmt::format("replaces = \"{}\"\n", mould_id(family.number, m - 1));
        if (mould.clean && dice_.one_in(2)) text += "clean = true\n";
      }
      if (mould.mark) text += fmt::format("marks = [\"{}\"]\n", hub("mark", *mould.mark));
      text += backing() + notes();
      text += fmt::format("[[mould.picture]]\nfile = \"../pictures/part.svg\"\nalt = \"Side view of the {} beside its "
                          "underside, with its "
                          "marks; the {} is marked.\"\ncredit = \"Generated, CC0\"\n",
                          id, tops[(family.number + m) % tops.size()]);
      text += fmt::format("\n[mould.features]\ntop = \"{}\"\nvents = {}\nheight-mm = {{ value = {}.{}, tolerance = 0.3 "
                          "}}\nweight-g = {{ value = "
                          "1.{}, tolerance = 0.05 }}\ngate = \"{}\"\nejector-pins = {}\n",
                          tops[(family.number + m) % tops.size()], 2 + m, 18 + 2 * m, dice_.below(5), 20 + 15 * m,
                          dice_.one_in(2) ? "pip" : "sunk", 1 + dice_.below(4));
      if (m == 0 && (family.planted == Planted::date || family.planted == Planted::succession))
        text += planted(family, id);
      if (mould.dated_by)
        text +=
            mould.dated_by_period
                ? period_timing(mould)
                : timing("mould", mould.used, line_.families[mould.dated_by->family].moulds[mould.dated_by->mould].used,
                         address(*mould.dated_by));
      for (const TrueRun& run : mould.runs) text += run_text(run, family.planted != Planted::nothing);
    }
    for (std::uint32_t i = 0; i < family.repros; ++i) text += repro_text(family, i);
    if (family.moulds.size() > 2 && dice_.below(19) < 3) claim_wrong_order(family, id);
    return text;
  }

  std::string period_timing(const TrueMould& mould) {
    const std::uint32_t period = dice_.below(line_.periods.size());
    return timing("mould", mould.used, line_.periods[period], "period/" + hub("period", period));
  }

  std::string run_text(const TrueRun& run, bool exact) {
    const std::string colour = run_id(run);
    const std::uint32_t light = 20 + dice_.below(70);
    std::string text = fmt::format(
        "\n[[mould.run]]\nid = \"{0}\"\ncolour = {{ name = \"{0}\", lab = [{1}.{2}, {3}.5, -{4}.5] }}\nmaterial = "
        "\"high-impact styrene\"\nplant = \"{5}\"\n",
        colour, light, dice_.below(10), dice_.below(40), dice_.below(40), hub("plant", run.plant));
    text += dates_line(dice_, "made", run.made, loosely() && !exact);
    text += fmt::format("features = {{ sink = {}, colour-seen = \"{}\", surface = \"{}\" }}\n", dice_.one_in(2), colour,
                        dice_.one_in(2) ? "gloss" : "satin");
    if (dice_.percent(5)) text += backing("reported");
    if (dice_.below(228) < 111) text += notes();
    return text;
  }

  std::string repro_text(const Family& family, std::uint32_t number) {
    const TrueMould& mould = family.moulds.front();
    return fmt::format("\n[[repro]]\nid = \"recast-{0}\"\nname = \"Recast {0}\"\nof = \"{1}/{2}\"\nmethod = "
                       "\"recast\"\nhow = \"cast in a rubber "
                       "mould from an original\"\nsince = \"{3}~\"\nmaterial = \"polyurethane "
                       "resin\"\n{4}{5}\n[repro.features]\nheight-mm = {{ "
                       "value = {6}.1, tolerance = 0.3 }}\nseam = \"none\"\nsound = \"clack\"\n",
                       number + 1, mould_id(family.number, 0), run_id(mould.runs.front()), 1994 + number,
                       backing("observed"), notes(), 15 - number);
  }

  // Said by collectors, and ruled out by the order of the moulds.
  void claim_wrong_order(const Family& family, const std::string& id) {
    if (family.planted != Planted::nothing) return;
    const auto last = static_cast<std::uint32_t>(family.moulds.size() - 1);
    claims_ +=
        fmt::format("[[claim]]\nid = \"{}-order-{}\"\nsays = \"The first {} came after the last had gone.\"\nstanding "
                    "= \"refuted\"\nwhy = \"It "
                    "is the other way round.\"\nsource = [{}]\n[[claim.timing]]\nof = \"{}/{}\"\nthis = "
                    "\"start\"\nafter = \"{}/{}.end\"\n\n",
                    id_, ++claimed_, id, cite(), id, mould_id(family.number, 0), id, mould_id(family.number, last));
  }

  std::string figure_file(const TrueFigure& figure) {
    const std::string id = figure_id(figure.number);
    std::string text = fmt::format("[figure]\nid = \"{}\"\nname = \"{}\"\nrole = \"of line {}\"\nline = "
                                   "\"{}\"\nfeatures = {{ height-mm = {{ value = "
                                   "94.6, tolerance = 0.4 }} }}\nsource = [{}]\n{}",
                                   id, id, line_.number + 1, id_, cite(), notes());
    for (std::uint32_t i = 0; i < figure.issues.size(); ++i) {
      const TrueIssue& issue = figure.issues[i];
      text += fmt::format("\n[[issue]]\nid = \"issue-{0}\"\nname = \"Issue {0}\"\n", i + 1);
      text += dates_line(dice_, "packed", issue.packed, loosely() && !issue.planted);
      text += fmt::format("packer = \"{}\"\nmarket = [\"gb\", \"ie\"]\n", hub("plant", issue.packer));
      if (!issue.cards.empty()) {
        text += "card = [";
        for (const std::uint32_t card : issue.cards) text += fmt::format("\"{}\", ", hub("card", card));
        text += "]\n";
      }
      text += fmt::format("offer = \"carded\"\npaint = \"{} coat, {} buttons\"\n", colours[dice_.below(colours.size())],
                          colours[dice_.below(colours.size())]);
      if (issue.follows) text += fmt::format("replaces = \"issue-{}\"\n", i);
      text += backing() + notes();
      for (const std::uint32_t family : issue.takes)
        text += fmt::format("\n[[issue.takes]]\naccessory = \"{}\"\n", accessory_id(line_.families[family].number));
      for (const TruePairing& pairing : issue.found)
        text += pairing_text(pairing, fmt::format("{}/issue-{}", id, i + 1));
      if (issue.planted)
        text += fmt::format("\n[[issue.pairing]]\nrun = \"{}\"\nbasis = \"conjectured\"\n",
                            address(TruePairing{*issue.planted, 0, 0, {}, false}));
    }
    return text;
  }

  // 81 of the demo's are observed, 29 reported, 18 documented.
  std::string pairing_text(const TruePairing& pairing, const std::string& issue) {
    constexpr std::array<std::string_view, 3> names{"observed", "reported", "documented"};
    const std::string card = pairing.card ? fmt::format("card = \"{}\"\n", hub("card", *pairing.card)) : std::string{};
    const std::string pair = fmt::format("run = \"{}\"\n", address(pairing));
    if (pairing.claimed)
      claims_ += fmt::format("[[claim]]\nid = \"{}-found-{}\"\nsays = \"The two came together.\"\nstanding = "
                             "\"supported\"\nproven = true\nwhy = "
                             "\"Sealed examples show it.\"\nsource = [{}]\n[[claim.pairing]]\n{}issue = \"{}\"\n{}\n",
                             id_, ++claimed_, cite(), pair, issue, card);
    return "\n[[issue.pairing]]\n" + pair + card + backing(names[dice_.weighted({81, 29, 18})]) + notes();
  }

  const Plan& plan_;
  const TrueLine& line_;
  const FileSink& sink_;
  Dice dice_;
  std::string id_;
  std::string claims_;
  std::uint32_t claimed_ = 0;
};

std::string features_file() {
  std::string text;
  const auto feature = [&](std::string_view id, std::string_view kind, std::string_view more) {
    text += fmt::format("[[feature]]\nid = \"{0}\"\nname = \"{0}\"\nkind = \"{1}\"\n{2}look = \"Hold it to the light "
                        "and turn it once.\"\n\n",
                        id, kind, more);
  };
  const auto words = [](const auto& list) {
    std::string line = "values = [";
    for (const std::string_view word : list) line += fmt::format("\"{}\", ", word);
    return line + "]\n";
  };
  feature("seam", "choice", "values = [\"fine\", \"none\", \"scraped\"]\n");
  feature("flex", "choice", "values = [\"rigid\", \"soft\"]\n");
  feature("sound", "choice", "values = [\"click\", \"clack\"]\ntool = \"ear\"\n");
  feature("top", "choice", words(tops));
  feature("vents", "count", "");
  feature("height-mm", "measure", "unit = \"mm\"\ntolerance = 0.3\ntool = \"calliper\"\nby = \"measurement\"\n");
  feature("weight-g", "measure", "unit = \"g\"\ntolerance = 0.05\ntool = \"scale\"\n");
  feature("gate", "choice", "values = [\"pip\", \"sunk\"]\n");
  feature("ejector-pins", "count", "");
  feature("sink", "present", "");
  feature("colour-seen", "choice", words(colours) + "by = \"photograph\"\n");
  feature("surface", "choice", "values = [\"gloss\", \"satin\"]\n");
  feature("body-colour", "colour", "tolerance = 4\ntool = \"colour-card\"\n");
  return text;
}

} // namespace

Written write_history(const Plan& plan, const FileSink& sink) {
  Written written;
  const FileSink counted = [&](const std::string& path, const std::string& text) {
    ++written.files;
    if (path.ends_with(".toml")) written.toml_bytes += text.size();
    sink(path, text);
  };
  counted("features.toml", features_file());
  History history{plan};
  while (const auto line = history.next_line()) {
    LineText{plan, *line, counted}.write();
    for (const Family& family : line->families)
      for (const TrueMould& mould : family.moulds) written.runs += mould.runs.size();
  }
  return written;
}

} // namespace generated
