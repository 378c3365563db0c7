"""Reads pages as someone who cannot see them would, without a browser.

Usage: src/checks/pages.py PAGE.html...

Fails, with page and line, on: no language, not exactly one h1, a heading that skips a level, an id
given twice, an anchor that leads nowhere, a link, button, input, picture or table without a name, a
header cell without scope, and an address outside the page that the page would load. It runs no
script: what a script adds or asks for is not seen here.
"""
import sys
from html.parser import HTMLParser

NAMED = {"a", "button", "table", "svg", "caption", "title", "desc"}
LOADED = {"script": "src", "img": "src", "iframe": "src", "link": "href", "image": "href", "use": "href", "source": "src"}
HEADINGS = {f"h{n}": n for n in range(1, 7)}


class Page(HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.faults, self.ids, self.anchors, self.labelled = [], {}, [], []
        self.open, self.ones, self.level, self.lang = [], 0, 0, False
        self.labels, self.inputs = set(), []

    def fault(self, line, what):
        self.faults.append((line, what))

    def handle_starttag(self, tag, pairs):
        given, line = dict(pairs), self.getpos()[0]
        if tag == "html":
            self.lang = bool(given.get("lang"))
        if "id" in given:
            if given["id"] in self.ids:
                self.fault(line, f"id {given['id']!r} stands also in line {self.ids[given['id']]}")
            self.ids.setdefault(given["id"], line)
        self.heading(tag, line)
        if tag == "a" and (given.get("href") or "").startswith("#"):
            self.anchors.append((line, given["href"][1:]))
        address = given.get(LOADED.get(tag, "")) or ""
        if address and not address.startswith(("#", "data:")):
            self.fault(line, f"<{tag}> loads {address!r}")
        if tag == "th" and not given.get("scope"):
            self.fault(line, "<th> has no scope")
        if tag == "img" and not given.get("alt"):
            self.fault(line, "<img> has no alt")
        if tag == "label" and given.get("for"):
            self.labels.add(given["for"])
        if tag == "input" and given.get("type") != "hidden" and not given.get("aria-label"):
            self.inputs.append((line, given.get("id"), any(item[0] == "label" for item in self.open)))
        for word in (given.get("aria-labelledby") or "").split():
            self.labelled.append((line, word))
        if tag in NAMED or tag == "label":
            self.open.append([tag, line, given, ""])

    def heading(self, tag, line):
        if tag not in HEADINGS:
            return
        self.ones += tag == "h1"
        if HEADINGS[tag] > self.level + 1:
            self.fault(line, f"<{tag}> follows a heading of level {self.level}")
        self.level = HEADINGS[tag]

    def handle_data(self, data):
        for item in self.open:
            if item[0] not in ("table", "svg"):
                item[3] += data

    def handle_endtag(self, tag):
        if not self.open or self.open[-1][0] != tag:
            return
        _, line, given, text = self.open.pop()
        if tag in ("caption", "title", "desc") and text.strip() and self.open:
            owner = self.open[-1]
            if (owner[0], tag) in (("table", "caption"), ("svg", "title"), ("svg", "desc")):
                owner[3] = text
        named = text.strip() or given.get("aria-label") or given.get("aria-labelledby")
        hidden = given.get("aria-hidden") == "true"
        wanted = (tag == "a" and "href" in given) or tag in ("button", "table") or (tag == "svg" and not hidden)
        if wanted and not named:
            self.fault(line, f"<{tag}> has no name")

    def finish(self):
        if not self.lang:
            self.fault(1, "<html> has no lang")
        if self.ones != 1:
            self.fault(1, f"{self.ones} headings of level 1, expected 1")
        for line, target in self.anchors + self.labelled:
            if target and target not in self.ids:
                self.fault(line, f"#{target} leads nowhere")
        for line, name, inside in self.inputs:
            if not inside and name not in self.labels:
                self.fault(line, "<input> has no label")
        return sorted(self.faults)


def main(paths):
    if not paths:
        sys.exit(__doc__)
    bad = 0
    for path in paths:
        page = Page()
        with open(path, encoding="utf-8") as file:
            page.feed(file.read())
        page.close()
        faults = page.finish()
        bad += len(faults)
        for line, what in faults:
            print(f"{path}:{line}: {what}", file=sys.stderr)
        print(f"{path}: {len(page.ids)} ids, {len(page.anchors)} anchors, {len(faults)} faults")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
