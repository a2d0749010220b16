// Search over names, ids, features and marks. Every word must be found; a word may be the start of one, stand inside one, or
// be off by one letter. ?q= in the address asks at once, so that an answer can be sent to somebody.
"use strict";

(() => {
  const place = document.querySelector('[data-tool="search"]');
  if (!place) return;
  const { element } = coeval;
  const most = 60;

  const plain = (text) =>
    text
      .normalize("NFD")
      .replace(/\p{M}+/gu, "")
      .toLowerCase();
  const words = (text) => plain(text).match(/[\p{L}\p{N}.,]+/gu) ?? [];

  // At most one letter too many, too few, wrong or swapped with its neighbour.
  function nearly(one, other) {
    if (Math.abs(one.length - other.length) > 1 || one.length < 4) return false;
    let start = 0;
    while (start < one.length && one[start] === other[start]) ++start;
    const rest = [one.slice(start), other.slice(start)];
    return (
      rest[0].slice(1) === rest[1].slice(1) ||
      rest[0].slice(1) === rest[1] ||
      rest[0] === rest[1].slice(1) ||
      (rest[0][0] === rest[1][1] && rest[0][1] === rest[1][0] && rest[0].slice(2) === rest[1].slice(2))
    );
  }

  // How well one word of the question is met by an entry; 0 for not at all.
  function score(word, entry) {
    if (entry.names.includes(word)) return 40;
    if (entry.names.some((name) => name.startsWith(word))) return 30;
    if (entry.address.includes(word)) return 20;
    if (entry.more.some((other) => other.startsWith(word))) return 10;
    if (entry.names.some((name) => nearly(word, name))) return 5;
    return 0;
  }

  function find(entries, question) {
    const asked = words(question);
    if (asked.length === 0) return [];
    const found = [];
    for (const entry of entries) {
      let total = 0;
      for (const word of asked) {
        const points = score(word, entry);
        if (points === 0) {
          total = 0;
          break;
        }
        total += points;
      }
      if (total > 0) found.push({ entry, points: total - entry.names.length });
    }
    return found.sort((one, other) => other.points - one.points).map((each) => each.entry);
  }

  function read(index) {
    const text = (number) => index.texts[number];
    return index.entries.map(([kind, name, address, path, more]) => ({
      kind: text(kind),
      name: text(name),
      path: text(path),
      names: words(text(name)),
      address: plain(text(address)),
      more: words(text(more)),
      told: text(more),
    }));
  }

  const input = element("input", {
    type: "search",
    id: "search-question",
    name: "q",
    autocomplete: "off",
    spellcheck: "false",
    enterkeyhint: "search",
  });
  const status = element("p", { class: "search-status", role: "status" });
  const results = element("ol", { class: "search-results" });
  const form = element(
    "form",
    { role: "search", class: "search-form" },
    element("label", { for: "search-question", text: "Name, id, feature or mark" }),
    input,
  );
  form.addEventListener("submit", (event) => event.preventDefault());
  place.replaceChildren(form, status, results);

  let entries;
  async function show() {
    const question = input.value;
    const address = new URL(location.href);
    if (coeval.root) {
      if (question) address.searchParams.set("q", question);
      else address.searchParams.delete("q");
      history.replaceState(null, "", address);
    }
    if (!question.trim()) {
      status.textContent = "";
      results.replaceChildren();
      return;
    }
    try {
      entries ??= read(await coeval.index());
    } catch (error) {
      status.textContent = `The index could not be loaded (${error.message}). The list of names from A to Z works without it.`;
      return;
    }
    if (question !== input.value) return; // asked anew meanwhile
    const found = find(entries, question);
    status.textContent =
      found.length === 0
        ? "Nothing on record matches every word."
        : found.length > most
          ? `${found.length} found; the first ${most}:`
          : `${found.length} found`;
    results.replaceChildren(
      ...found.slice(0, most).map((entry) =>
        element(
          "li",
          {},
          element("a", { href: coeval.link(entry.path), text: entry.name }),
          " ",
          element("span", { class: "search-kind", text: entry.kind.toLowerCase() }),
          element("span", { class: "search-more", text: entry.told }),
        ),
      ),
    );
  }
  input.addEventListener("input", show);
  input.addEventListener("focus", () => coeval.index().catch(() => {}), { once: true });

  const asked = new URLSearchParams(location.search).get("q");
  if (asked) {
    input.value = asked;
    show();
  }
})();
