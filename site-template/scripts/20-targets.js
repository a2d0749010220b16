// A link to a verdict, a statement or a term opens what it points to.
"use strict";

(() => {
  function open() {
    const id = decodeURIComponent(location.hash.slice(1));
    const target = id && document.getElementById(id);
    if (!target) return;
    let opened = false;
    for (let part = target; part; part = part.parentElement) {
      if (part instanceof HTMLDetailsElement && !part.open) opened = part.open = true;
    }
    if (opened) target.scrollIntoView({ block: "start" });
  }
  addEventListener("hashchange", open);
  open();

  // On paper everything is open, and afterwards as it was.
  const opened = [];
  addEventListener("beforeprint", () => {
    for (const part of document.querySelectorAll("details:not([open])")) {
      part.open = true;
      opened.push(part);
    }
  });
  addEventListener("afterprint", () => {
    while (opened.length > 0) opened.pop().open = false;
  });
})();
