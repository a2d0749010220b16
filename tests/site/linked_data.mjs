// The JSON-LD of every page: does it expand, and is every type and property a term of schema.org?
//
//     node linked_data.mjs SITE
//
// Expansion is done by jsonld (the reference implementation of JSON-LD 1.1 in JavaScript). The vocabulary is read from schema-dts,
// which is generated from schema.org's own definitions. No network: the context is the vocabulary's prefix.
import { readFileSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import jsonld from "jsonld";

const site = process.argv[2];
const types = readFileSync(createRequire(import.meta.url).resolve("schema-dts").replace(/\.[a-z]+$/, ".d.ts"), "utf8");
const terms = new Set([...types.matchAll(/"@type": "(?:schema:)?([A-Za-z0-9]+)"/g)].map((found) => found[1]));
const properties = new Set([...types.matchAll(/"([a-z][A-Za-z0-9]+)"\?:/g)].map((found) => found[1]));
if (terms.size < 500 || properties.size < 800) throw new Error(`only ${terms.size} types and ${properties.size} properties were read`);

const documentLoader = async (url) => {
  if (!/^https?:\/\/schema\.org\/?$/.test(url)) throw new Error(`${url} is asked for`);
  return { documentUrl: url, document: { "@context": { "@vocab": "https://schema.org/" } } };
};

let pages = 0;
const troubles = [];
for (const file of readdirSync(site, { recursive: true }).filter((name) => name.endsWith(".html") && name !== "one-file.html").sort()) {
  const html = readFileSync(join(site, file), "utf8");
  const blocks = [...html.matchAll(/<script type="application\/ld\+json">([\s\S]*?)<\/script>/g)];
  if (blocks.length === 0) {
    if (file !== "404.html") troubles.push(`${file}: no JSON-LD`);
    continue;
  }
  ++pages;
  for (const [, text] of blocks) {
    try {
      const expanded = await jsonld.expand(JSON.parse(text), { documentLoader, base: "https://example.org/reference/" + file });
      if (expanded.length === 0) troubles.push(`${file}: expands to nothing`);
      const walk = (node) => {
        if (Array.isArray(node)) return node.forEach(walk);
        if (node === null || typeof node !== "object") return;
        for (const [key, value] of Object.entries(node)) {
          if (key === "@type") {
            for (const type of [value].flat())
              if (!terms.has(type.replace("https://schema.org/", ""))) troubles.push(`${file}: no type ${type}`);
          } else if (!key.startsWith("@") && !properties.has(key.replace("https://schema.org/", ""))) {
            troubles.push(`${file}: no property ${key}`);
          }
          if (key !== "@type") walk(value);
        }
      };
      walk(expanded);
    } catch (error) {
      troubles.push(`${file}: ${error.message}`);
    }
  }
}
for (const trouble of troubles.slice(0, 30)) console.log(`  ${trouble}`);
console.log(`site/linked-data: ${pages} pages, ${troubles.length} troubles`);
process.exit(troubles.length > 0 || pages === 0 ? 1 : 0);
