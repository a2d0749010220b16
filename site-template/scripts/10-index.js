// The index behind the checker and the search: fetched once, when one of them is first used. It is a script and not a
// JSON file because a page opened from a folder (file://) may load scripts but not fetch. The one-file edition carries it
// inside.
"use strict";

const coeval = (() => {
  const here = document.currentScript && document.currentScript.src;
  const root = here ? new URL("../", here) : null; // nothing in the one-file edition

  let loading;
  function index() {
    loading ??= new Promise((resolve, reject) => {
      const inside = document.getElementById("reader-index");
      if (inside) {
        resolve(JSON.parse(inside.textContent));
        return;
      }
      const script = document.createElement("script");
      script.src = new URL("data/reader-index.js", root);
      script.onload = () => resolve(globalThis.coevalReaderIndex);
      script.onerror = () => {
        loading = undefined; // so that a second try is one
        reject(new Error(`could not load ${script.src}`));
      };
      document.head.append(script);
    });
    return loading;
  }

  // A path of the site as a link from this page.
  const link = (path) => (root ? new URL(path, root).href : `#${path.replace("#", ":")}`);

  // Elements without markup in strings: nothing that an entry says can become part of the page's structure.
  function element(tag, attributes, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (name === "text") made.textContent = value;
      else if (value !== undefined && value !== false) made.setAttribute(name, value === true ? "" : value);
    }
    made.append(...children);
    return made;
  }

  // A verdict's sign, from the symbols that every page carries.
  function sign(verdict) {
    const space = "http://www.w3.org/2000/svg";
    const drawing = document.createElementNS(space, "svg");
    drawing.setAttribute("class", `sign sign-${verdict}`);
    drawing.setAttribute("aria-hidden", "true");
    const use = document.createElementNS(space, "use");
    use.setAttribute("href", `#sign-${verdict}`);
    drawing.append(use);
    return drawing;
  }

  return { index, link, element, sign, root };
})();
