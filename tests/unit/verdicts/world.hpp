// tests/unit/verdicts/world.hpp: a figure, an accessory and two plants, in which one thing at a time is changed.
#pragma once

#include "in_memory_kb.hpp"
#include "verdicts/judge.hpp"

namespace world {

// Everything documented and exact, so that the run fits the issue; a test replaces what it is about.
struct World {
  std::string line = "[line]\nid = \"patrol\"\nname = \"Patrol\"\n";
  std::string leftover = "[line.leftover]\nat-most = \"P90D\"\nbasis = \"documented\"\nsource = [\"log p. 9\"]\n";
  std::string made = "made = \"1976-08-01/1978-12-31\"\n";
  std::string run_plant = "plant = \"cork\"\n";
  std::string below_run;
  std::string packed = "packed = \"1976-10-01/1979-12-31\"\n";
  std::string packer = "packer = \"cork\"\n";
  std::string issue_backing = "basis = \"documented\"\nsource = [\"log p. 2\"]\n";
  std::string takes = "[[issue.takes]]\naccessory = \"lantern\"\n";
  std::string below_issue;
  std::string plants = "[[plant]]\nid = \"cork\"\nname = \"Cork\"\n[[plant]]\nid = \"porto\"\nname = \"Porto\"\n";
  std::string more;

  [[nodiscard]] std::vector<coeval::SourceFile> files() const {
    return {{"accessory.toml", "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
                               "[[mould]]\nid = \"ring\"\nbasis = \"documented\"\nsource = [\"log p. 1\"]\n"
                               "[[mould.run]]\nid = \"brass\"\n" +
                                   made + run_plant + below_run},
            {"figure.toml", "[figure]\nid = \"maren\"\nname = \"Maren\"\n[[issue]]\nid = \"first\"\n" + packed +
                                packer + issue_backing + takes + below_issue},
            {"world.toml",
             line + leftover + plants + "[[source]]\nid = \"log\"\ntitle = \"Log\"\nkind = \"book\"\n" + more}};
  }
};

// The verdict on the one run with the one issue, with what it says of itself.
struct Said {
  coeval::Judgement judgement;
  coeval::Diagnostics out;

  explicit Said(const World& world, coeval::Basis weakest = coeval::Basis::conjectured) {
    const in_memory::Kb kb{world.files()};
    if (!kb.codes().empty() || !kb.dates.contradictions().empty())
      throw std::logic_error("the test's knowledge base is not sound:\n" + kb.troubles());
    coeval::Judge judge{kb.kb, kb.dates, weakest};
    judgement = judge.judge(kb.run("lantern/ring/brass"), kb.issue("maren/first"), true);
  }

  // "fits on documented", "open".
  [[nodiscard]] std::string verdict() const {
    return with_basis(std::string{name(judgement.verdict)}, judgement.basis);
  }
  [[nodiscard]] std::string ground(coeval::Ground which) const {
    const coeval::GroundAnswer& answer = judgement.ground(which);
    return with_basis(std::string{name(answer.answer)}, answer.basis);
  }
  [[nodiscard]] std::string words(coeval::Ground which) const { return judgement.ground(which).words; }
  [[nodiscard]] std::vector<std::string> proof(coeval::Ground which) const {
    std::vector<std::string> sentences;
    for (const coeval::Reason& reason : judgement.ground(which).proof) sentences.push_back(reason.statement);
    return sentences;
  }

private:
  static std::string with_basis(std::string text, std::optional<coeval::Basis> basis) {
    return basis ? text + " on " + std::string{name(*basis)} : text;
  }
};

inline std::string verdict(const World& world, coeval::Basis weakest = coeval::Basis::conjectured) {
  return Said{world, weakest}.verdict();
}

} // namespace world
