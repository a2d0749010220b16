"""A knowledge base whose every text tries to be something else: python3 hostile_kb.py KB INTO

Copies KB, and adds to each plain text in it (names, titles, notes, words for colours and features …) one of a list of hostile strings:
markup, scripts, quotes, template syntax, URL schemes, control characters, direction marks, odd Unicode, and names of 10,000 characters.
Ids, dates and addresses stay: the compiler refuses those that are none.
"""
import re
import shutil
import sys
from pathlib import Path

TEXT_KEYS = ("name", "title", "notes", "says", "why", "look", "caution", "paint", "material", "role", "place", "text", "author",
             "held-by", "how", "alt", "credit", "sold")

HOSTILE = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(2)>",
    "'><svg/onload=alert(3)>",
    "</title></head><body onload=alert(4)>",
    "</script><script>alert(5)</script>",
    "<!-- --!> <![CDATA[ ]]> <?php echo 6 ?>",
    "javascript:alert(7)",
    "https://example.invalid/\"onmouseover=\"alert(8)",
    "&lt;b&gt; &amp;amp; &#60;script&#62; &NotAnEntity;",
    "{{7*7}} ${7*7} <%= 7*7 %> #{7*7}",
    "<slot name=\"content\"></slot><template id=\"verdict\"></template>",
    "\\u0000\\u0001\\u0007\\u0008\\u000b\\u001b[31m\\u007f\\u0085\\u009f",
    "\\u202e\\u2066reversed\\u2067\\u2069\\u200f",
    "\\u2028\\u2029\\ufeff\\u200b\\u00ad\\u2060",
    "\\ufffe\\uffff\\U0001fffe\\U0010ffff\\ufdd0",
    "\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 \u0939\u093f\u0928\u094d\u0926\u0940 \u65e5\u672c\u8a9e",
    "Z\u0351\u036b\u0343\u036a\u0302\u036b\u033d\u034f\u0334\u0319\u0324a\u0357\u030f\u0321l\u0348\u0353g\u0337\u031co\u0322",
    "\U0001f469\u200d\U0001f469\u200d\U0001f467\u200d\U0001f466\U0001f3f4\U000e0067\U000e0062\U000e007f",
    "' OR 1=1 -- =cmd|' /C calc'!A0 @SUM(1+1)",
    "../../../../etc/passwd %2e%2e%2f file:///etc/passwd",
    "\\t\\r\\n \\u00a0 \\u3000",
    "unbroken" * 1250,
    "many words " * 900,
    "x" * 10000,
]


def hostile_strings():
    while True:
        for text in HOSTILE:
            yield text


def main(kb, into):
    shutil.copytree(kb, into)
    strings, changed = hostile_strings(), 0
    keys = "|".join(TEXT_KEYS)
    line = re.compile(rf'(?m)^((?:{keys})\s*=\s*")((?:[^"\\\n]|\\.)*)"(\s*(?:#.*)?)$')
    for path in sorted(into.rglob("*.toml")):
        text = path.read_text("utf-8")

        def poison(found):
            nonlocal changed
            if found[2] in ("maker", "licensee", "distributor"):  # a choice, not a text
                return found[0]
            changed += 1
            addition = next(strings)
            if len(addition) > 1000 and changed % 5:  # a few very long ones are enough, and every page stays openable
                addition = next(strings)
            escaped = "".join(c if c in "\\" else {'"': '\\"'}.get(c, c) for c in addition)
            escaped = re.sub(r"\\(?![uUtrn\"])", r"\\\\", escaped)
            return f'{found[1]}{found[2]} {escaped}"{found[3]}'

        path.write_text(line.sub(poison, text), "utf-8")
    print(f"site/hostile: {changed} texts made hostile")
    return 0 if changed > 300 else 1


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), Path(sys.argv[2])))
