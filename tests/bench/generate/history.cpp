#include "generate/history.hpp"

#include <algorithm>

#include "generate/dice.hpp"

namespace generated {
namespace {

// Stretches that follow each other through `whole`, each beginning after the one before it has ended.
std::vector<Lasted> stretches(Dice& dice, Lasted whole, std::uint32_t count) {
  std::vector<Lasted> list;
  const Day length = (whole.end - whole.start) / count;
  for (std::uint32_t i = 0; i < count; ++i) {
    const Day start = whole.start + i * length + dice.between(0, length / 4);
    list.push_back({start, start + length / 2 + dice.between(0, length / 4 - 1)});
  }
  return list;
}

class LineDraw {
public:
  LineDraw(const Plan& plan, std::uint32_t number) : plan_(plan), dice_(plan.seed, number) {
    line_.number = number;
    const Day begin = coeval::day_number({1955 + dice_.between(0, 30), 1, 1}) + dice_.between(0, 364);
    line_.sold = {begin, begin + 3'650}; // ten years, as the demo's
  }

  TrueLine draw(std::uint32_t runs, std::uint32_t& families, std::uint32_t& figures) {
    draw_hubs(runs);
    std::uint32_t drawn = 0;
    while (drawn < runs) {
      line_.families.push_back(draw_family(families++));
      for (const TrueMould& mould : line_.families.back().moulds)
        drawn += static_cast<std::uint32_t>(mould.runs.size());
    }
    date_by_others();
    // 42 figures to 40 accessories.
    const std::uint32_t wanted =
        std::max<std::uint32_t>(1, static_cast<std::uint32_t>(line_.families.size() * 21 / 20));
    for (std::uint32_t i = 0; i < wanted; ++i) line_.figures.push_back(draw_figure(figures++));
    return std::move(line_);
  }

private:
  // What many entries refer to: 13 periods, 15 cards, 6 marks, 7 plants, 12 routes whatever the size of the line.
  void draw_hubs(std::uint32_t runs) {
    line_.periods = stretches(dice_, line_.sold, 13);
    line_.cards = stretches(dice_, line_.sold, 15);
    for (int i = 0; i < 6; ++i) {
      const Day start = line_.sold.start + dice_.between(0, 2'400);
      line_.marks.push_back({start, start + dice_.between(720, 2'400)});
    }
    const auto supplies = [&](std::uint32_t from, std::uint32_t to) {
      const Day start = line_.sold.start + dice_.between(0, 720);
      line_.routes.push_back({from, to, {start, line_.sold.end - dice_.between(0, 1'000)}});
    };
    for (std::uint32_t plant = 1; plant < line_.plants; ++plant) supplies(0, plant);
    for (std::uint32_t plant = 1; plant < line_.plants; ++plant) supplies(plant, plant / 2);
    line_.sources = std::clamp<std::uint32_t>(runs / 8, 3, 74);
  }

  std::uint32_t draw_plant() { return dice_.weighted({40, 20, 12, 10, 8, 6, 4}); }

  Family draw_family(std::uint32_t number) {
    Family family{.number = number, .slot = dice_.below(8)};
    const std::uint32_t moulds = 2 + dice_.weighted({17, 19, 4});
    const Day life = dice_.between(900, 2'800);
    const Day begin = line_.sold.start + dice_.between(0, line_.sold.end - line_.sold.start - life);
    const Day each = life / moulds;
    for (std::uint32_t i = 0; i < moulds; ++i) {
      TrueMould mould;
      // Both ends of a later mould lie after those of an earlier, however they fall.
      mould.used.start = begin + i * each + dice_.between(0, each / 4);
      mould.used.end = begin + (i + 1) * each + dice_.between(-each / 4, each / 4);
      mould.clean = i > 0 && mould.used.start > family.moulds.back().used.end;
      draw_runs(mould);
      if (dice_.below(107) < 28) mould.mark = fitting_mark(mould.used);
      family.moulds.push_back(std::move(mould));
    }
    family.repros = dice_.weighted({11, 22, 6, 1});
    return family;
  }

  // The last of the line's marks is said to bind at its end, so what carries it lies within it.
  std::optional<std::uint32_t> fitting_mark(Lasted used) {
    const auto count = static_cast<std::uint32_t>(line_.marks.size());
    const std::uint32_t first = dice_.below(count);
    for (std::uint32_t i = 0; i < count; ++i) {
      const std::uint32_t mark = (first + i) % count;
      const bool binds = mark + 1 == count;
      if (line_.marks[mark].start <= used.start && (!binds || used.end <= line_.marks[mark].end)) return mark;
    }
    return {};
  }

  void draw_runs(TrueMould& mould) {
    const std::uint32_t count = 1 + dice_.weighted({1, 92, 13, 1});
    const Day length = (mould.used.end - mould.used.start) / count;
    const std::uint32_t colours = dice_.below(20);
    for (std::uint32_t i = 0; i < count; ++i) {
      TrueRun run;
      run.made.start = mould.used.start + i * length + dice_.between(0, length / 8);
      run.made.end = mould.used.start + (i + 1) * length - dice_.between(0, length / 8);
      run.plant = draw_plant();
      run.colour = colours + i;
      mould.runs.push_back(run);
    }
  }

  void date_by_others() {
    for (Family& family : line_.families) {
      for (TrueMould& mould : family.moulds) {
        if (!dice_.percent(plan_.links)) continue;
        mould.dated_by_period = dice_.one_in(4);
        const MouldAt other{dice_.below(line_.families.size()), 0};
        if (&line_.families[other.family] != &family) mould.dated_by = other;
      }
    }
  }

  TrueFigure draw_figure(std::uint32_t number) {
    TrueFigure figure{.number = number};
    const std::uint32_t issues = 2 + dice_.weighted({26, 14, 2});
    const Day begin = line_.sold.start + dice_.between(0, 2'000);
    const Day each = std::min<Day>(720, (line_.sold.end - begin) / issues);
    for (std::uint32_t i = 0; i < issues; ++i) {
      TrueIssue issue;
      issue.packed.start = begin + i * each + dice_.between(0, each / 4);
      issue.packed.end = begin + (i + 1) * each - dice_.between(1, each / 4);
      issue.follows = i > 0 && dice_.below(60) < 37;
      issue.packer = draw_plant();
      for (std::uint32_t card = 0; card < line_.cards.size(); ++card)
        if (line_.cards[card].start <= issue.packed.end && issue.packed.start <= line_.cards[card].end &&
            issue.cards.size() < 3)
          issue.cards.push_back(card);
      draw_outfit(issue, i == 0 ? nullptr : &figure.issues.back());
      draw_pairings(issue);
      figure.issues.push_back(std::move(issue));
    }
    return figure;
  }

  // A later issue mostly takes what the one before it took.
  void draw_outfit(TrueIssue& issue, const TrueIssue* before) {
    const std::uint32_t wanted = 1 + dice_.weighted({3, 50, 46, 2});
    if (before != nullptr && dice_.percent(60)) issue.takes = before->takes;
    for (std::uint32_t attempt = 0; issue.takes.size() < wanted && attempt < 20; ++attempt) {
      const std::uint32_t family = dice_.below(line_.families.size());
      const bool slot_is_free = std::ranges::none_of(
          issue.takes, [&](std::uint32_t taken) { return line_.families[taken].slot == line_.families[family].slot; });
      if (slot_is_free) issue.takes.push_back(family);
    }
  }

  // 1.25 for each issue, half of them on a card.
  void draw_pairings(TrueIssue& issue) {
    std::vector<TruePairing> possible;
    for (const std::uint32_t family : issue.takes) {
      const std::vector<TrueMould>& moulds = line_.families[family].moulds;
      for (std::uint32_t m = 0; m < moulds.size(); ++m)
        for (std::uint32_t r = 0; r < moulds[m].runs.size(); ++r)
          if (could_go(moulds[m].runs[r].made, issue.packed) && could_arrive(moulds[m].runs[r], issue))
            possible.push_back({family, m, r, {}, false});
    }
    const std::uint32_t wanted = dice_.weighted({25, 40, 25, 10});
    for (std::uint32_t i = 0; i < wanted && !possible.empty(); ++i) {
      const std::uint32_t chosen = dice_.below(possible.size());
      TruePairing pairing = possible[chosen];
      possible.erase(possible.begin() + chosen);
      const Lasted made = line_.families[pairing.family].moulds[pairing.mould].runs[pairing.run].made;
      if (dice_.one_in(2))
        for (const std::uint32_t card : issue.cards)
          if (could_go(made, line_.cards[card])) pairing.card = card;
      pairing.claimed = dice_.below(128) < 32;
      issue.found.push_back(pairing);
    }
  }

  [[nodiscard]] bool could_arrive(const TrueRun& run, const TrueIssue& issue) const {
    return run.plant == issue.packer || std::ranges::any_of(line_.routes, [&](const TrueRoute& route) {
             return route.from == run.plant && route.to == issue.packer && could_go(run.made, route.active) &&
                    could_go(route.active, issue.packed);
           });
  }

  const Plan& plan_;
  Dice dice_;
  TrueLine line_;
};

// Spreads the contradictions over the line's families, one in each.
void plant(TrueLine& line, std::uint32_t count) {
  for (std::uint32_t i = 0; i < count; ++i) {
    const auto at = static_cast<std::uint32_t>(std::uint64_t{i} * line.families.size() / count);
    Family& family = line.families[at];
    family.planted = i % 3 == 0 ? Planted::date : i % 3 == 1 ? Planted::succession : Planted::pairing;
    if (family.planted != Planted::pairing) continue;
    // The months in which the one ended and the other began must not meet.
    const Day before = family.moulds.front().used.start - 62;
    TrueIssue* early = nullptr;
    for (TrueFigure& figure : line.figures)
      for (TrueIssue& issue : figure.issues)
        if (early == nullptr && issue.packed.end < before && !issue.planted) early = &issue;
    if (early == nullptr) {
      family.planted = Planted::date;
      continue;
    }
    early->planted = at;
    if (std::ranges::find(early->takes, at) == early->takes.end()) early->takes.push_back(at);
  }
}

} // namespace

std::optional<TrueLine> History::next_line() {
  if (runs_ >= plan_.runs) return {};
  const std::uint32_t lines = std::max(1U, plan_.runs / plan_.runs_per_line);
  const std::uint32_t wanted = lines_ + 1 == lines ? plan_.runs - runs_ : plan_.runs / lines;
  TrueLine line = LineDraw{plan_, lines_}.draw(wanted, families_, figures_);
  ++lines_;
  for (const Family& family : line.families)
    for (const TrueMould& mould : family.moulds) runs_ += static_cast<std::uint32_t>(mould.runs.size());
  const std::uint32_t due = runs_ >= plan_.runs
                                ? plan_.contradictions
                                : static_cast<std::uint32_t>(std::uint64_t{plan_.contradictions} * runs_ / plan_.runs);
  plant(line, due - planted_);
  planted_ = due;
  return line;
}

} // namespace generated
