// Fair-table mode: after one visit the whole reference works without a network. A page opened from a folder needs nothing of
// this: all its files are there.
"use strict";

(() => {
  if (!coeval.root || !location.protocol.startsWith("http") || !("serviceWorker" in navigator)) return;
  const place = document.querySelector("[data-offline]");
  const tell = (text) => {
    if (place) place.textContent = text;
  };
  navigator.serviceWorker.addEventListener("message", ({ data }) => {
    if (data && data.coeval === "kept") tell(`Kept on this device: ${data.files} files, all of the reference. It works without a network.`);
    if (data && data.coeval === "keeping") tell(`Keeping the reference on this device: ${data.done} of ${data.files} files.`);
    if (data && data.coeval === "failed") tell("Not kept on this device yet: some files could not be fetched or there is no room.");
  });
  navigator.serviceWorker
    .register(new URL("service-worker.js", coeval.root), { scope: coeval.root.pathname })
    .then(() => navigator.serviceWorker.ready)
    .then((registration) => registration.active.postMessage({ coeval: "state" }))
    .catch(() => {}); // a browser that keeps nothing still reads
})();
