// Keeps every file of one edition, so that the reference works without a network. The compiler puts a line before this text:
// `const edition = {version, files: {path: hash}}`. A new edition fetches only what changed, and replaces the old one whole:
// pages of two editions are never mixed.
"use strict";

const prefix = "coeval-edition-";
const kept = prefix + edition.version;
const listed = "list-of-files"; // under this name the cache holds which hash each file had
const atOnce = 6;

const url = (path) => new URL(path, registration.scope).href;

async function previous() {
  for (const name of await caches.keys()) {
    if (!name.startsWith(prefix) || name === kept) continue;
    const cache = await caches.open(name);
    const list = await cache.match(url(listed));
    if (list) return { cache, files: await list.json() };
  }
  return undefined;
}

async function tell(message) {
  for (const client of await clients.matchAll({ includeUncontrolled: true })) client.postMessage(message);
}

async function keep() {
  const cache = await caches.open(kept);
  const old = await previous();
  const paths = Object.keys(edition.files);
  let done = 0;
  async function next() {
    for (let path = paths.pop(); path !== undefined; path = paths.pop()) {
      const unchanged = old && old.files[path] === edition.files[path] ? await old.cache.match(url(path)) : undefined;
      const answer = unchanged ?? (await fetch(url(path), { cache: "no-cache" }));
      if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
      await cache.put(url(path), answer);
      if (++done % 50 === 0) await tell({ coeval: "keeping", done, files: Object.keys(edition.files).length });
    }
  }
  try {
    await Promise.all(Array.from({ length: atOnce }, next));
    await cache.put(url(listed), new Response(JSON.stringify(edition.files), { headers: { "content-type": "application/json" } }));
  } catch (error) {
    await caches.delete(kept);
    await tell({ coeval: "failed" });
    throw error;
  }
}

addEventListener("install", (event) => event.waitUntil(keep().then(() => skipWaiting())));

addEventListener("activate", (event) =>
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) if (name.startsWith(prefix) && name !== kept) await caches.delete(name);
      await clients.claim();
      await tell({ coeval: "kept", files: Object.keys(edition.files).length });
    })(),
  ),
);

addEventListener("message", (event) => {
  if (event.data && event.data.coeval === "state")
    event.waitUntil(
      caches.has(kept).then((there) => there && event.source.postMessage({ coeval: "kept", files: Object.keys(edition.files).length })),
    );
});

addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(registration.scope)) return;
  event.respondWith(
    (async () => {
      const asked = new URL(request.url);
      asked.search = ""; // ?q= and ?issue= are read by the page
      asked.hash = "";
      if (asked.pathname.endsWith("/")) asked.pathname += "index.html";
      const cache = await caches.open(kept);
      const answer = await cache.match(asked.href);
      if (answer) return answer;
      try {
        return await fetch(request);
      } catch (error) {
        const lost = request.mode === "navigate" ? await cache.match(url("404.html")) : undefined;
        if (lost) return lost;
        throw error;
      }
    })(),
  );
});
