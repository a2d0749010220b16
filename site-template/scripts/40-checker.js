// The checker: choose an issue and a part, get the verdict and its proof. The choice stands in the address
// (?issue=ADDRESS&part=ADDRESS), so that an answer can be sent to somebody.
"use strict";

(() => {
  const place = document.querySelector('[data-tool="checker"]');
  if (!place) return;
  const { element, sign } = coeval;

  function choice(id, label, hint) {
    const select = element("select", { id });
    return {
      select,
      row: element("p", { class: "checker-choice" }, element("label", { for: id, text: label }), select),
      fill(items, chosen) {
        select.replaceChildren(
          element("option", { value: "", text: hint }),
          ...items.map(({ value, text, group }) => ({ option: element("option", { value, text }), group })).reduce(
            (all, { option, group }) => {
              if (!group) {
                all.push(option);
                return all;
              }
              const last = all.at(-1);
              if (last instanceof HTMLOptGroupElement && last.label === group) last.append(option);
              else all.push(element("optgroup", { label: group }, option));
              return all;
            },
            [],
          ),
        );
        select.disabled = items.length === 0;
        if (chosen !== undefined) select.value = chosen;
        if (select.selectedIndex < 0) select.value = "";
      },
    };
  }

  const figure = choice("checker-figure", "Figure", "choose a figure");
  const issue = choice("checker-issue", "Issue", "choose an issue");
  const accessory = choice("checker-accessory", "Part", "choose a part");
  const run = choice("checker-run", "Mould and colour", "choose a run");
  const answer = element("div", { class: "checker-answer", "aria-live": "polite" });
  const form = element("form", { class: "checker-form" }, figure.row, issue.row, accessory.row, run.row);
  form.addEventListener("submit", (event) => event.preventDefault());

  let index;
  const text = (number) => index.texts[number];
  const distinct = (list) => [...new Set(list)];

  function fillIssues(chosen) {
    const items = index.issues
      .map((row, number) => ({ value: String(number), text: text(row[0]), figure: text(row[3]) }))
      .filter((item) => item.figure === figure.select.value);
    issue.fill(items, chosen ?? (items.length === 1 ? items[0].value : ""));
    fillAccessories();
  }

  function fillAccessories(chosen) {
    if (issue.select.value === "") {
      accessory.fill([]);
      fillRuns();
      return;
    }
    const number = Number(issue.select.value);
    const taken = new Set(index.pairs.filter((pair) => pair[0] === number).map((pair) => text(index.runs[pair[1]][3])));
    const all = distinct(index.runs.map((row) => text(row[3]))).sort((one, other) => one.localeCompare(other));
    accessory.fill(
      [
        ...all.filter((name) => taken.has(name)).map((name) => ({ value: name, text: name, group: "It takes" })),
        ...all.filter((name) => !taken.has(name)).map((name) => ({ value: name, text: name, group: "Other parts" })),
      ],
      chosen ?? accessory.select.value,
    );
    fillRuns();
  }

  function fillRuns(chosen) {
    const items = index.runs
      .map((row, number) => ({ value: String(number), text: text(row[0]), accessory: text(row[3]) }))
      .filter((item) => item.accessory === accessory.select.value);
    run.fill(items, chosen ?? (items.length === 1 ? items[0].value : ""));
    show();
  }

  function steps(pair) {
    return pair[6].map((number) => {
      const [statement, basis, sources, where] = index.steps[number];
      const how = basis < 0 ? "by the meaning of the words" : index.bases[basis];
      return element(
        "li",
        {},
        element("bdi", { text: text(statement) }),
        element(
          "span",
          { class: "step-source" },
          element("span", { class: basis < 0 ? "basis" : `basis basis-${how}`, text: how }),
          text(sources) ? ": " : "",
          element("bdi", { text: text(sources) }),
          text(where) ? " " : "",
          element("code", { text: text(where) }),
        ),
      );
    });
  }

  function verdict(pair) {
    const [, , word, basis, gap, grounds, , settles] = pair;
    const issueRow = index.issues[pair[0]];
    const runRow = index.runs[pair[1]];
    const name = index.verdicts[word];
    const strengths = distinct(pair[6].map((number) => index.steps[number][1]).filter((strength) => strength >= 0)).sort();
    if (strengths.length === 0 && basis >= 0) strengths.push(basis);
    const evidence = basis < 0 ? "" : `on ${strengths.map((strength) => index.bases[strength]).join(" and ")} evidence`;
    const about = [text(gap), evidence].filter(Boolean).join(", ");
    const parts = [
      element("p", { class: `verdict verdict-${name}` }, sign(name), element("strong", { text: name })),
      element("p", { text: about || "neither proven nor ruled out by what is known" }),
      element(
        "table",
        { class: "grounds" },
        element("caption", { text: "The four grounds" }),
        element(
          "tbody",
          {},
          ...index.grounds.map((ground, number) =>
            element(
              "tr",
              {},
              element("th", { scope: "row", text: ground }),
              element("td", { text: index.answers[grounds[2 * number]] }),
              element("td", { text: text(grounds[2 * number + 1]) }),
            ),
          ),
        ),
      ),
    ];
    if (pair[6].length > 0)
      parts.push(element("h3", { text: "Because" }), element("ol", { class: "proof" }, ...steps(pair)));
    if (settles.length > 0)
      parts.push(
        element("h3", { text: "It would be settled by finding out" }),
        element("ul", {}, ...settles.map((number) => element("li", { text: text(number) }))),
      );
    const anchor = text(runRow[1]).replaceAll("/", ".");
    parts.push(
      element(
        "p",
        {},
        element("a", { href: coeval.link(`${text(issueRow[2])}#${anchor}`), text: "The whole proof" }),
        ", ",
        element("a", { href: coeval.link(text(issueRow[2])), text: "the issue" }),
        ", ",
        element("a", { href: coeval.link(text(runRow[2])), text: "the part" }),
      ),
    );
    return parts;
  }

  function noPlace(issueNumber, runNumber) {
    const takesAny = index.pairs.some((pair) => pair[0] === issueNumber);
    const part = text(index.runs[runNumber][3]);
    return takesAny
      ? [
          element("p", { class: "verdict verdict-no-place" }, sign("no-place"), element("strong", { text: "no-place" })),
          element("p", { text: `Nothing on record says that this issue takes it: ${part} is not among its parts.` }),
          element("p", {}, element("a", { href: coeval.link(text(index.issues[issueNumber][2])), text: "What the issue takes" })),
        ]
      : [element("p", { text: "What this issue was sold with is not on record, or it was sold with nothing." }),
          element("p", {}, element("a", { href: coeval.link(text(index.issues[issueNumber][2])), text: "The issue" }))];
  }

  function show() {
    const chosen = issue.select.value !== "" && run.select.value !== "";
    if (coeval.root) {
      const address = new URL(location.href);
      for (const [name, list, select] of [["issue", "issues", issue.select], ["part", "runs", run.select]]) {
        if (select.value === "") address.searchParams.delete(name);
        else address.searchParams.set(name, text(index[list][Number(select.value)][1]));
      }
      history.replaceState(null, "", address);
    }
    if (!chosen) {
      answer.replaceChildren();
      return;
    }
    const [issueNumber, runNumber] = [Number(issue.select.value), Number(run.select.value)];
    const pair = index.pairs.find((row) => row[0] === issueNumber && row[1] === runNumber);
    answer.replaceChildren(...(pair ? verdict(pair) : noPlace(issueNumber, runNumber)));
  }

  async function start() {
    try {
      index = await coeval.index();
    } catch (error) {
      const again = element("button", { type: "button", text: "Try again" });
      again.addEventListener("click", start);
      place.prepend(element("p", { role: "status", text: `The index could not be loaded (${error.message}). ` }, again));
      return;
    }
    place.replaceChildren(form, answer);
    const figures = distinct(index.issues.map((row) => text(row[3]))).sort((one, other) => one.localeCompare(other));
    const asked = new URLSearchParams(location.search);
    const issueNumber = index.issues.findIndex((row) => text(row[1]) === asked.get("issue"));
    const runNumber = index.runs.findIndex((row) => text(row[1]) === asked.get("part"));
    figure.fill(
      figures.map((name) => ({ value: name, text: name })),
      issueNumber < 0 ? "" : text(index.issues[issueNumber][3]),
    );
    figure.select.addEventListener("change", () => fillIssues());
    issue.select.addEventListener("change", () => fillAccessories());
    accessory.select.addEventListener("change", () => fillRuns());
    run.select.addEventListener("change", show);
    fillIssues(issueNumber < 0 ? undefined : String(issueNumber));
    if (issueNumber >= 0 && runNumber >= 0) {
      fillAccessories(text(index.runs[runNumber][3]));
      fillRuns(String(runNumber));
    }
  }
  start();
})();
