"""The Atom feed, the sitemap and the web manifest of a published site against their specifications.

    python3 feeds.py SITE

Atom: RFC 4287, sections 4.1.1 (feed) and 4.1.2 (entry): what must be there exactly once, what at least once, dates as in RFC 3339.
Sitemap: sitemaps.org protocol 0.9: urlset/url/loc, absolute addresses below one base, W3C dates, at most 50,000. Manifest: W3C Web
Application Manifest: name, start_url within scope, icons with src.
"""
import json
import re
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

ATOM = "{http://www.w3.org/2005/Atom}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
RFC3339 = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$")
W3C_DATE = re.compile(r"\d{4}(-\d\d(-\d\d)?)?$")
IRI = re.compile(r"[a-z][a-z0-9+.-]*:\S+$")
BASE = "https://example.org/reference/"


def main(root):
    passed, failed = 0, []

    def hold(what, true):
        nonlocal passed
        if true:
            passed += 1
        else:
            failed.append(what)

    feed = ElementTree.parse(root / "feed.xml").getroot()
    hold("the root is atom:feed", feed.tag == ATOM + "feed")
    for name in ("id", "title", "updated"):
        hold(f"feed has one {name}", len(feed.findall(ATOM + name)) == 1)
    hold("feed's id is an IRI", IRI.match(feed.findtext(ATOM + "id") or ""))
    hold("feed's updated is RFC 3339", RFC3339.match(feed.findtext(ATOM + "updated") or ""))
    hold("feed has a link to itself", any(link.get("rel") == "self" for link in feed.findall(ATOM + "link")))
    entries = feed.findall(ATOM + "entry")
    hold("feed has entries", entries)
    authored = feed.find(ATOM + "author") is not None
    ids = [entry.findtext(ATOM + "id") for entry in entries]
    hold("entry ids differ", len(set(ids)) == len(ids))
    for entry in entries:
        for name in ("id", "title", "updated"):
            hold(f"entry has one {name}", len(entry.findall(ATOM + name)) == 1)
        hold("entry's id is an IRI", IRI.match(entry.findtext(ATOM + "id") or ""))
        hold("entry's updated is RFC 3339", RFC3339.match(entry.findtext(ATOM + "updated") or ""))
        hold("entry or feed has an author", authored or entry.find(ATOM + "author") is not None)
        hold("entry has content or an alternate link",
             entry.find(ATOM + "content") is not None
             or any(link.get("rel", "alternate") == "alternate" for link in entry.findall(ATOM + "link")))

    sitemap = ElementTree.parse(root / "sitemap.xml").getroot()
    hold("the root is urlset", sitemap.tag == MAP + "urlset")
    locations = [url.findtext(MAP + "loc") or "" for url in sitemap.findall(MAP + "url")]
    hold("sitemap has from 1 to 50,000 addresses", 1 <= len(locations) <= 50_000)
    hold("they differ", len(set(locations)) == len(locations))
    for location in locations:
        hold(f"{location} is below the base", location.startswith(BASE))
        hold(f"{location} was published", (root / (location[len(BASE):] or "index.html")).is_file())
    for modified in sitemap.iter(MAP + "lastmod"):
        hold("lastmod is a W3C date", W3C_DATE.match(modified.text or ""))

    manifest = json.loads((root / "site.webmanifest").read_text("utf-8"))
    hold("manifest has a name", manifest.get("name"))
    hold("manifest starts within the site", not str(manifest.get("start_url", "./")).startswith(("/", "http")))
    for icon in manifest.get("icons", []):
        hold(f"icon {icon.get('src')} was published", (root / icon["src"]).is_file())
    hold("manifest has icons", manifest.get("icons"))

    for what in failed[:30]:
        print(f"  not so: {what}")
    print(f"site/feeds: {passed} passed, {len(failed)} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
