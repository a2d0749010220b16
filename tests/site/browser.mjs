// The site in a browser: accessibility, checker, search, print, no scripts, file://, no network, hostile texts.
//
//     node browser.mjs SITE HOSTILE-SITE
//
// Chromium is Debian's, driven by playwright-core; accessibility rules are axe-core's for WCAG 2.0 to 2.2, A and AA.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { existsSync, readFileSync, readdirSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { extname, join, resolve, sep } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const [site, hostile] = process.argv.slice(2).map((path) => resolve(path));
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const executablePath = ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find(existsSync);
const types = { ".html": "text/html; charset=utf-8", ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml", ".json": "application/json",
  ".webmanifest": "application/manifest+json", ".xml": "application/xml", ".png": "image/png", ".toml": "text/plain; charset=utf-8", ".csv": "text/csv" };

function serve(root) {
  const server = createServer((request, response) => {
    let path = join(root, decodeURIComponent(new URL(request.url, "http://x").pathname));
    if (existsSync(path) && statSync(path).isDirectory()) path = join(path, "index.html");
    if (!path.startsWith(root + sep) || !existsSync(path)) {
      response.writeHead(404, { "content-type": "text/html" }).end(readFileSync(join(root, "404.html")));
      return;
    }
    response.writeHead(200, { "content-type": types[extname(path)] ?? "application/octet-stream" }).end(readFileSync(path));
  });
  return new Promise((done) => server.listen(0, "127.0.0.1", () => done({ server, base: `http://127.0.0.1:${server.address().port}/` })));
}

const pagesOf = (root) => readdirSync(root, { recursive: true }).filter((name) => name.endsWith(".html")).sort();

// One page of each kind: the largest, where most can go wrong.
function one_of_each_kind(root) {
  const kinds = new Map();
  for (const path of pagesOf(root)) {
    if (path === "one-file.html") continue;
    const parts = path.split("/");
    const kind = parts.length === 1 ? path : `${parts[0]}/${parts.length}`;
    const size = statSync(join(root, path)).size;
    if (!kinds.has(kind) || kinds.get(kind).size < size) kinds.set(kind, { path, size });
  }
  return [...kinds.values()].map(({ path }) => path);
}

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
let passed = 0;
const failures = [];
async function test(name, body) {
  const asked = process.env.COEVAL_SITE_TEST;
  if (asked && !name.includes(asked)) return;
  try {
    await body();
    ++passed;
  } catch (error) {
    failures.push(`${name}: ${String(error.message).split("\n").slice(0, 12).join("\n      ")}`);
  }
}

// A page that reports everything it should not do.
async function open(options = {}) {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width: 390, height: 844 }, ...options });
  const page = await context.newPage();
  const wrong = [];
  page.on("dialog", (dialog) => {
    wrong.push(`a dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  page.on("pageerror", (error) => wrong.push(`an error: ${error.message}`));
  page.on("console", (message) => message.type() === "error" && wrong.push(`the console: ${message.text()}`));
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (!["127.0.0.1", ""].includes(url.hostname) || !["http:", "file:", "data:", "blob:"].includes(url.protocol)) wrong.push(`a request to ${url.href}`);
  });
  return { context, page, wrong };
}

const { server, base } = await serve(site);
const other = await serve(hostile);
const kinds = one_of_each_kind(site);

// ---- accessibility: every kind, light and dark, phone and desk ----
for (const colorScheme of ["light", "dark"])
  for (const width of [390, 1280]) {
    const { context, page, wrong } = await open({ colorScheme, viewport: { width, height: 900 }, bypassCSP: true });
    for (const path of kinds)
      await test(`axe ${path} ${colorScheme} ${width}`, async () => {
        wrong.length = 0;
        await page.goto(base + path);
        await page.evaluate(axe);
        const found = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }));
        assert.deepEqual(
          found.violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => `${node.target} ${node.failureSummary}`).join(" | ")}`),
          [],
        );
        const overflow = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.ok(overflow <= 1, `the page is ${overflow} pixels too wide`);
        assert.deepEqual(wrong, []);
      });
    await context.close();
  }

// ---- the checker and the search, over http and from a folder ----
const index = new Function(`${readFileSync(join(site, "data/reader-index.js"), "utf8")}; return globalThis.coevalReaderIndex;`)();
const text = (number) => index.texts[number];

for (const [name, root] of [["http", base], ["file", pathToFileURL(site + "/").href]]) {
  await test(`checker ${name}`, async () => {
    const { context, page, wrong } = await open();
    await page.goto(`${root}checker.html`);
    await page.selectOption("#checker-figure", { label: "Keeper Maren" });
    const issue = index.issues.findIndex((row) => text(row[1]) === "keeper-maren/painted-buttons");
    await page.selectOption("#checker-issue", String(issue));
    await page.selectOption("#checker-accessory", "Signal lantern");
    const run = index.runs.findIndex((row) => text(row[1]) === "signal-lantern/plain-top/grey");
    await page.selectOption("#checker-run", String(run));
    const answer = await page.innerText(".checker-answer");
    assert.match(answer, /anachronistic/i);
    assert.match(answer, /at least 13 months too late/);
    assert.match(answer, /1981-01-31/); // the statement that it rests on
    assert.match(answer, /press-log-kt vol\. 6 p\. 11/);
    const to = new URL(await page.getAttribute('.checker-answer a[href*="#"]', "href"), page.url());
    await page.goto(to.href);
    assert.ok(await page.evaluate(() => {
      const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
      return target && (target.open || target.closest("details")?.open);
    }), "the proof that it leads to is not open");
    assert.deepEqual(wrong, []);
    await context.close();
  });

  await test(`checker from an address ${name}`, async () => {
    const { context, page } = await open();
    await page.goto(`${root}checker.html?issue=keeper-maren/painted-buttons&part=signal-lantern/ring-top/brass`);
    await page.waitForSelector(".checker-answer .verdict");
    assert.match(await page.innerText(".checker-answer"), /attested/i);
    await context.close();
  });

  for (const [question, first] of [["signal lantern", /Signal lantern/], ["signl lantern", /[Ss]ignal lantern/], ["keeper-maren", /Keeper Maren/], ["KEEPER MÁREN", /Keeper Maren/]])
    await test(`search ${name}: ${question}`, async () => {
      const { context, page, wrong } = await open();
      await page.goto(`${root}search.html`);
      await page.fill("#search-question", question);
      await page.waitForSelector(".search-results li");
      assert.match(await page.innerText(".search-results li:first-child"), first);
      const href = await page.getAttribute(".search-results li:first-child a", "href");
      await page.goto(new URL(href, page.url()).href);
      assert.equal(await page.locator("h1").count(), 1);
      assert.deepEqual(wrong, []);
      await context.close();
    });

  await test(`search finds nothing ${name}`, async () => {
    const { context, page } = await open();
    await page.goto(`${root}search.html?q=zzzzqqqq`);
    await page.waitForFunction(() => document.querySelector(".search-status")?.textContent !== "");
    assert.equal(await page.locator(".search-results li").count(), 0);
    await context.close();
  });
}

await test("search by feature", async () => {
  const { context, page } = await open();
  await page.goto(`${base}search.html?q=lantern ring`);
  await page.waitForSelector(".search-results li");
  assert.match(await page.innerText(".search-results"), /ring top/i);
  await context.close();
});

// ---- without scripts ----
await test("every kind reads without scripts", async () => {
  const { context, page, wrong } = await open({ javaScriptEnabled: false });
  for (const path of kinds) {
    await page.goto(base + path);
    const words = (await page.locator("main").innerText()).trim().length;
    assert.ok(words > 40, `${path} shows ${words} characters`);
  }
  await page.goto(`${base}checker.html`);
  assert.ok((await page.locator('main a[href*="matrices/"]').count()) > 0, "no matrix is offered instead of the checker");
  await page.goto(`${base}search.html`);
  assert.ok((await page.locator('main a[href*="names.html"]').count()) > 0, "no A to Z is offered instead of the search");
  assert.deepEqual(wrong, []);
  await context.close();
});

// ---- first paint ----
await test("first paint takes at most three requests", async () => {
  const { context, page } = await open();
  for (const path of ["index.html", "figures/keeper-maren.html", "accessories/signal-lantern.html"]) {
    const asked = [];
    const listen = (request) => !["image", "other", "manifest"].includes(request.resourceType()) && asked.push(request.url());
    page.on("request", listen);
    await page.goto(base + path, { waitUntil: "load" });
    page.off("request", listen);
    assert.ok(asked.length <= 3, `${path}: ${asked.join(" ")}`);
  }
  await context.close();
});

// ---- print ----
await test("pages print, and nothing of the navigation with them", async () => {
  const { context, page } = await open();
  for (const path of ["figures/keeper-maren/painted-buttons.html", "checklists/figures/keeper-maren.html", "accessories/signal-lantern.html"]) {
    await page.goto(base + path);
    await page.emulateMedia({ media: "print" });
    const shown = await page.evaluate(() => [...document.querySelectorAll("nav, form, [data-tool=checker], [data-tool=search]")].filter((part) => part.checkVisibility()).length);
    assert.equal(shown, 0, `${path} prints ${shown} of them`);
    const pdf = await page.pdf({ format: "A4" });
    assert.ok(pdf.length > 5_000);
    await page.emulateMedia({ media: "screen" });
  }
  await context.close();
});

// ---- without a network, after one visit ----
await test("everything works without a network after one visit", async () => {
  const visited = await serve(site);
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  await page.goto(visited.base + "index.html");
  const kept = () => page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state === "activated");
  for (const begun = Date.now(); !(await kept()); await page.waitForTimeout(200)) assert.ok(Date.now() - begun < 120_000, "the files were not kept in time");
  visited.server.closeAllConnections();
  await new Promise((done) => visited.server.close(done));
  await context.setOffline(true);
  for (const path of ["index.html", ...kinds]) {
    await page.goto(visited.base + path);
    assert.equal(await page.locator("h1").count(), 1, path);
  }
  await page.goto(`${visited.base}checker.html?issue=keeper-maren/painted-buttons&part=signal-lantern/plain-top/grey`);
  await page.waitForSelector(".checker-answer .verdict");
  assert.match(await page.innerText(".checker-answer"), /anachronistic/i);
  await page.goto(`${visited.base}search.html?q=lantern`);
  await page.waitForSelector(".search-results li");
  const picture = await page.goto(`${visited.base}accessories/signal-lantern.html`).then(() =>
    page.evaluate(async () => {
      const image = document.querySelector("main img");
      image.loading = "eager";
      await image.decode();
      return image.naturalWidth;
    }));
  assert.ok(picture > 0, "a picture was not kept");
  await context.close();
});

// ---- the single-file edition ----
await test("the single-file edition opens from a folder and asks for nothing", async () => {
  const { context, page, wrong } = await open();
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  const where = pathToFileURL(join(site, "one-file.html")).href;
  await page.goto(where);
  assert.ok((await page.locator("main").innerText()).length > 100);
  await page.goto(`${where}#figures/keeper-maren.html`);
  assert.match(await page.evaluate(() => document.body.innerText), /Keeper Maren/);
  await page.goto(`${where}#checker.html`);
  await page.selectOption("#checker-figure", { label: "Keeper Maren" });
  await page.goto(`${where}#search.html`);
  await page.fill("#search-question", "signal lantern");
  await page.waitForSelector(".search-results li");
  await page.click(".search-results li:first-child a");
  assert.match(await page.evaluate(() => [...document.querySelectorAll("h1")].filter((head) => head.checkVisibility()).map((head) => head.textContent).join()), /lantern/i);
  assert.deepEqual(asked.filter((url) => !url.startsWith(where) && !url.startsWith("data:")), []);
  assert.deepEqual(wrong, []);
  await context.close();
});

// ---- hostile texts ----
const hostilePages = pagesOf(hostile).filter((path) => path !== "one-file.html");
const most = Number(process.env.COEVAL_SITE_PAGES ?? 80);
const step = Math.max(1, Math.floor(hostilePages.length / most));
await test("hostile texts: no dialog, no request, no broken page", async () => {
  const { context, page, wrong } = await open();
  let opened = 0;
  for (let i = 0; i < hostilePages.length; i += step) {
    await page.goto(other.base + hostilePages[i]);
    const state = await page.evaluate(() => ({
      heads: document.querySelectorAll("h1").length,
      mains: document.querySelectorAll("main").length,
      images: document.querySelectorAll('img[src="x"], svg[onload], body[onload], slot, template').length,
      wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    }));
    assert.deepEqual({ ...state, wide: state.wide <= 1 ? 0 : state.wide }, { heads: 1, mains: 1, images: 0, wide: 0 }, hostilePages[i]);
    assert.deepEqual(wrong, [], hostilePages[i]);
    ++opened;
  }
  assert.ok(opened > 30);
  await page.goto(`${other.base}search.html?q=script`);
  await page.waitForSelector(".search-results li");
  await page.goto(`${other.base}checker.html?issue=keeper-maren/painted-buttons&part=signal-lantern/plain-top/grey`);
  await page.waitForSelector(".checker-answer .verdict");
  assert.deepEqual(wrong, []);
  await context.close();
});

await browser.close();
server.close();
other.server.close();
for (const failure of failures) console.log(`  not so: ${failure}`);
console.log(`site/browser: ${passed} passed, ${failures.length} failed, ${kinds.length} kinds of page`);
process.exit(failures.length > 0 ? 1 : 0);
