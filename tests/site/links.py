"""Every page of a published site: do its links and anchors lead somewhere, is it light, and does it keep its own policy?

    python3 links.py SITE [--any-weight]

Parsed by Python's own html.parser. Limits are those the site promises: at most 100 kB of HTML a page, at most three requests for
the first paint, no request to another host, no inline script or style.
"""
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urldefrag, urlsplit

MOST_BYTES = 100_000
MOST_REQUESTS = 3  # the page, its style sheet, its script
ONE_FILE = "one-file.html"  # the whole reference: its weight and policy are its own


class Page(HTMLParser):
    def __init__(self):
        super().__init__()
        self.ids, self.links, self.loads, self.troubles = set(), [], [], []
        self.policy = None
        self.h1 = self.main = 0
        self.language = self.title = False
        self.in_script = None

    def handle_starttag(self, tag, attributes):
        at = dict(attributes)
        if "id" in at:
            if at["id"] in self.ids:
                self.troubles.append(f"the id {at['id']!r} is there twice")
            self.ids.add(at["id"])
        for name in at:
            if name.startswith("on"):
                self.troubles.append(f"<{tag}> has an event handler {name}")
        if "style" in at:
            self.troubles.append(f"<{tag}> has an inline style")
        if tag == "style":
            self.troubles.append("there is a <style> in the page")
        if tag == "a" and "href" in at:
            self.links.append(at["href"])
            if urlsplit(at["href"]).scheme in ("http", "https") and "noopener" not in (at.get("rel") or ""):
                self.troubles.append(f"{at['href']} leads out without rel")
        if tag == "script":
            data = at.get("type") in ("application/ld+json", "application/json")
            if "src" in at:
                self.loads.append(at["src"])
            elif not data:
                self.troubles.append("there is a script in the page")
        if tag == "link" and at.get("rel") == "stylesheet":
            self.loads.append(at["href"])
        if tag == "link" and at.get("rel") in ("icon", "manifest", "alternate"):
            self.links.append(at["href"])
        if tag in ("img", "iframe", "object", "embed", "video", "audio", "source"):
            self.links.append(at.get("src") or at.get("data") or "")
            if tag == "img" and "alt" not in at:
                self.troubles.append("an image has no alt")
            if tag == "img" and not ("width" in at and "height" in at):
                self.troubles.append(f"the image {at.get('src')} has no size")
        if tag == "meta" and at.get("http-equiv") == "Content-Security-Policy":
            self.policy = at.get("content", "")
        self.h1 += tag == "h1"
        self.main += tag == "main"
        self.language |= tag == "html" and bool(at.get("lang"))

    handle_startendtag = handle_starttag


def main(root, any_weight):
    pages, troubles, checked = {}, [], 0
    for path in sorted(root.rglob("*.html")):
        page = Page()
        page.feed(path.read_text("utf-8"))
        pages[path.relative_to(root).as_posix()] = page
    if len(pages) < 100:
        troubles.append(f"only {len(pages)} pages were published")
    heaviest = max((path for path in pages if path != ONE_FILE), key=lambda path: (root / path).stat().st_size)
    for path, page in pages.items():
        whole = path == ONE_FILE
        for trouble in page.troubles:
            if not (whole and trouble in ("there is a <style> in the page", "there is a script in the page")):
                troubles.append(f"{path}: {trouble}")
        size = (root / path).stat().st_size
        if not whole and not any_weight and size > MOST_BYTES:
            troubles.append(f"{path}: {size} bytes of HTML")
        if 1 + len(page.loads) > MOST_REQUESTS:
            troubles.append(f"{path}: {1 + len(page.loads)} requests for the first paint")
        if not page.policy or "unsafe" in page.policy or "default-src 'none'" not in page.policy:
            troubles.append(f"{path}: its policy is {page.policy!r}")
        if not page.language or (page.h1 != 1 and not whole) or page.main != 1:
            troubles.append(f"{path}: lang {page.language}, {page.h1} h1, {page.main} main")
        for link in page.links + page.loads:
            checked += 1
            split = urlsplit(link)
            if split.scheme in ("http", "https"):
                if link in page.loads:
                    troubles.append(f"{path}: loads {link} from another host")
                continue
            if whole and link.startswith("data:image/"):
                continue  # a picture inside
            if split.scheme or split.netloc:
                troubles.append(f"{path}: {link!r} is no link that is allowed")
                continue
            target, fragment = urldefrag(link)
            file = (root / path).parent.joinpath(unquote(urlsplit(target).path)).resolve() if target else root / path
            try:
                name = file.resolve().relative_to(root.resolve()).as_posix()
            except ValueError:
                troubles.append(f"{path}: {link!r} leaves the site")
                continue
            if not file.is_file():
                troubles.append(f"{path}: {link!r} leads nowhere")
            elif fragment and name in pages and unquote(fragment) not in pages[name].ids:
                troubles.append(f"{path}: {link!r} has no such place")
    for trouble in troubles[:40]:
        print(f"  {trouble}")
    print(f"site/links: {len(pages)} pages, {checked} links, {len(troubles)} troubles; heaviest page {heaviest}, "
          f"{(root / heaviest).stat().st_size} bytes")
    return 1 if troubles else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), "--any-weight" in sys.argv))
