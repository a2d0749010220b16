// The single-file edition shows one page at a time: the one that the address's fragment names, at first the home page. Without
// scripts all of them stand there, one after the other. A page of the site has no such pages in it.
"use strict";

(() => {
  const pages = [...document.querySelectorAll("main > .page")];
  if (pages.length === 0) return;
  const site = document.title;
  let shown;

  function fragment() {
    try {
      return decodeURIComponent(location.hash.slice(1));
    } catch {
      return location.hash.slice(1); // not an address of ours
    }
  }

  const page_of = (element) => element.closest("main > .page");

  // The page that is asked for and the place on it; the page itself where there is no such place.
  function asked() {
    const id = fragment();
    const place = id && document.getElementById(id);
    if (place) return { page: page_of(place) ?? shown ?? pages[0], place };
    const page = pages.find((each) => each.id === id.split(":")[0]) ?? pages[0];
    return { page, place: page };
  }

  // What is hidden so can still be found by the browser's own search, where it can do that.
  function present(page) {
    shown = page;
    for (const each of pages) {
      if (each === page) each.removeAttribute("hidden");
      else if (!each.hasAttribute("hidden")) each.setAttribute("hidden", "until-found");
    }
    const title = page.querySelector("h1")?.textContent.trim();
    document.title = page === pages[0] || !title ? site : `${title} – ${site}`;
    for (const link of document.querySelectorAll(".masthead a, .colophon a")) {
      if (link.getAttribute("href") === `#${page.id}`) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
  }

  // Whoever reads by ear or by keyboard goes on where the link led.
  function focus(place) {
    const head = place === shown ? place.querySelector("h1") : place.querySelector(":scope > summary") ?? place;
    if (!head) return;
    if (head.tabIndex < 0) head.tabIndex = -1;
    head.focus({ preventScroll: true });
  }

  function open(place) {
    for (let part = place; part && part !== shown; part = part.parentElement)
      if (part instanceof HTMLDetailsElement) part.open = true;
  }

  function go(is_first) {
    const { page, place } = asked();
    present(page);
    open(place);
    if (!is_first) focus(place);
    const before = history.state?.scrolled;
    if (before !== undefined) scrollTo({ top: before, behavior: "instant" });
    else if (place === page) scrollTo({ top: 0, behavior: "instant" });
    else place.scrollIntoView({ block: "start", behavior: "instant" });
  }

  document.querySelector("main").classList.add("one-at-a-time");
  // Pages differ in height, so how far each was read is kept here and not left to the browser.
  history.scrollRestoration = "manual";
  let waiting;
  addEventListener(
    "scroll",
    () => {
      clearTimeout(waiting);
      waiting = setTimeout(() => history.replaceState({ scrolled: scrollY }, ""), 150);
    },
    { passive: true },
  );
  addEventListener("hashchange", () => {
    clearTimeout(waiting); // it was about the page that is left
    go(false);
  });

  // The browser found something on a hidden page: the address follows it.
  addEventListener("beforematch", (event) => {
    const page = page_of(event.target);
    if (!page || page === asked().page) return;
    history.pushState({ scrolled: scrollY }, "", `#${page.id}`);
    present(page);
  });

  go(true);
})();
