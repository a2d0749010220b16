// The JSON-LD of every page, and of the whole knowledge base: does it expand, and is every type and property a term of schema.org or,
// in the latter, of CIDOC CRM?
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

// CIDOC CRM's names as public mappings have them; P7 and P14 are from memory.
const crm = new Set(["E12_Production", "E52_Time-Span", "P108_has_produced", "P108i_was_produced_by", "P4_has_time-span", "P7_took_place_at",
  "P14_carried_out_by", "P81a_end_of_the_begin", "P81b_begin_of_the_end", "P82a_begin_of_the_begin", "P82b_end_of_the_end"]
  .map((name) => "http://www.cidoc-crm.org/cidoc-crm/" + name));

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
const whole = JSON.parse(readFileSync(join(site, "data/kb.jsonld"), "utf8"));
const expanded = await jsonld.expand(whole, { documentLoader: (url) => { throw new Error(`${url} is asked for`); } });
const named = new Set(expanded.flatMap((node) => [node["@id"], ...(node["http://www.cidoc-crm.org/cidoc-crm/P108i_was_produced_by"] ?? []).map((of) => of["@id"])]));
let days = 0;
const examine = (node) => {
  if (Array.isArray(node)) return node.forEach(examine);
  if (node === null || typeof node !== "object") return;
  for (const [key, value] of Object.entries(node)) {
    const known = (name, among) => crm.has(name) || (name.startsWith("https://schema.org/") && among.has(name.replace("https://schema.org/", "")));
    if (key === "@type" && Array.isArray(value)) {
      for (const type of value) if (!known(type, terms)) troubles.push(`kb.jsonld: no type ${type}`);
    } else if (!key.startsWith("@") && !known(key, properties)) {
      troubles.push(`kb.jsonld: no property ${key}`);
    }
    if (key.includes("/P8")) {
      ++days;
      if (value[0]["@type"] !== "http://www.w3.org/2001/XMLSchema#date" || !/^-?\d{4,}-\d\d-\d\d$/.test(value[0]["@value"]))
        troubles.push(`kb.jsonld: ${key} is no day, ${JSON.stringify(value)}`);
    }
    if (key !== "@type") examine(value);
  }
  if (Object.keys(node).length === 1 && node["@id"] && !named.has(node["@id"])) troubles.push(`kb.jsonld: nothing is named ${node["@id"]}`);
};
examine(expanded);
if (expanded.length < 100 || days < 100) troubles.push(`kb.jsonld: only ${expanded.length} things and ${days} days`);
for (const trouble of troubles.slice(0, 30)) console.log(`  ${trouble}`);
console.log(`site/linked-data: ${pages} pages, ${troubles.length} troubles`);
process.exit(troubles.length > 0 || pages === 0 ? 1 : 0);
