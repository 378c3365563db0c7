"""Opens pages in a headless browser and watches what they do.

Usage: src/checks/browser.py [--pages LEAST-MOST] [--pictures FOLDER] PAGE.html...

Fails, with the page and what was seen, on: a warning or an error on the console, a request to
anything but the page itself, content beyond the edge at 1280 or 390 pixels, words that are missing
without scripts, a table that does not sort when its heading is clicked, a figure whose points cannot
be named, something to press or to look at without a name for those who cannot see it, and more or
fewer printed A4 sheets than --pages allows. With --pictures the page is left there as pictures, as
people with a wide screen and with a telephone see it, and as browser.pdf as it prints. Needs
chromium; speaks to it through a pipe.
"""
import base64
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--remote-debugging-pipe",
         "--disable-background-networking", "--disable-component-update", "--disable-sync", "--hide-scrollbars"]
SLICE = 2400
A4 = {"paperWidth": 8.27, "paperHeight": 11.69, "preferCSSPageSize": True}

BEYOND = """(() => { const w = WIDTH, e = document.documentElement;
  const out = [...document.querySelectorAll('body *')].filter(x => !x.closest('.scroll') && !x.closest('svg')
    && x.getBoundingClientRect().right > w + 0.5);
  return [e.scrollWidth > w ? 'the page is ' + e.scrollWidth + ' wide' : '',
    ...out.slice(0, 5).map(x => x.tagName.toLowerCase() + '.' + x.className + ' "' + x.textContent.trim().slice(0, 30) + '"')]
    .filter(x => x).join(', '); })()"""
WORDS = "document.body.textContent.replace(/\\s+/g, ' ').length - [...document.querySelectorAll('script,button')].reduce((n, x) => n + x.textContent.length, 0)"
OPEN_ALL = "document.querySelectorAll('details').forEach(d => d.open = true)"
SORT = """(() => { const faults = []; let n = 0;
  document.querySelectorAll('button.sort').forEach(b => { const th = b.closest('th'), t = b.closest('table');
    const count = t.tBodies[0].rows.length, text = [...t.tBodies[0].rows].map(r => r.textContent).sort().join();
    b.click(); const up = th.getAttribute('aria-sort'); b.click(); const down = th.getAttribute('aria-sort'); n++;
    const after = [...t.tBodies[0].rows].map(r => r.textContent).sort().join();
    if (up !== 'ascending' || down !== 'descending' || t.tBodies[0].rows.length !== count || text !== after)
      faults.push(th.textContent.trim()); });
  return JSON.stringify([n, faults.slice(0, 5), document.querySelectorAll('table.sortable').length]); })()"""
POINTS = """(() => { const faults = []; let n = 0;
  document.querySelectorAll('button.label-points').forEach(b => { const f = b.closest('figure'); n++;
    b.click(); const shown = f.querySelectorAll('g.point-labels text').length;
    b.click(); const left = f.querySelectorAll('g.point-labels').length;
    if (!shown || left) faults.push(f.textContent.trim().slice(0, 40)); });
  return JSON.stringify([n, faults.slice(0, 5)]); })()"""
NAMED_ROLES = {"button", "link", "img", "image", "table", "textbox", "combobox", "checkbox", "region", "figure"}


class Browser:
    def __init__(self, program, profile):
        here_in, there_out = os.pipe()
        there_in, here_out = os.pipe()
        def ends():
            os.dup2(there_in, 13); os.dup2(there_out, 14); os.dup2(13, 3); os.dup2(14, 4)
        self.process = subprocess.Popen([program, *FLAGS, f"--user-data-dir={profile}", "about:blank"], preexec_fn=ends,
                                        close_fds=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(there_in); os.close(there_out)
        self.source, self.sink = os.fdopen(here_in, "rb", 0), os.fdopen(here_out, "wb", 0)
        self.last, self.rest, self.events, self.session = 0, b"", [], None
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for room in ("Page", "Runtime", "Log", "Network", "Accessibility"):
            self.ask(room + ".enable")

    def message(self):
        while b"\0" not in self.rest:
            more = os.read(self.source.fileno(), 1 << 20)
            if not more:
                sys.exit("the browser ended")
            self.rest += more
        text, self.rest = self.rest.split(b"\0", 1)
        return json.loads(text)

    def ask(self, method, **params):
        self.last += 1
        call = {"id": self.last, "method": method, "params": params}
        if self.session:
            call["sessionId"] = self.session
        data = json.dumps(call).encode() + b"\0"
        while data:
            data = data[os.write(self.sink.fileno(), data):]
        while True:
            answer = self.message()
            if answer.get("id") == self.last:
                if "error" in answer:
                    sys.exit(f"{method}: {answer['error']['message']}")
                return answer["result"]
            self.events.append(answer)

    def value(self, expression):
        result = self.ask("Runtime.evaluate", expression=expression, returnByValue=True)
        if "exceptionDetails" in result:
            sys.exit(f"the check itself failed: {result['exceptionDetails']}")
        return result["result"].get("value")

    def open(self, address, width, height, scripts=True):
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)
        self.ask("Emulation.setScriptExecutionDisabled", value=not scripts)
        self.events = []
        self.ask("Page.navigate", url=address)
        while not any(e.get("method") == "Page.loadEventFired" for e in self.events):
            self.events.append(self.message())


def told(events, address):
    """What the page said on the console or asked for."""
    for e in events:
        p, method = e.get("params", {}), e.get("method")
        if method == "Runtime.consoleAPICalled" and p["type"] in ("error", "warning", "assert"):
            yield "console: " + " ".join(str(a.get("value", a.get("description", ""))) for a in p["args"])
        elif method == "Runtime.exceptionThrown":
            details = p["exceptionDetails"]
            yield "script: " + details.get("exception", {}).get("description", details["text"]).split("\n")[0]
        elif method == "Log.entryAdded" and p["entry"]["level"] in ("error", "warning"):
            yield "browser: " + p["entry"]["text"]
        elif method == "Network.requestWillBeSent":
            url = p["request"]["url"]
            if url.split("#")[0] != address and not url.startswith("data:"):
                yield "asks for " + url[:100]


def nameless(nodes):
    for node in nodes:
        role = node.get("role", {}).get("value")
        if not node.get("ignored") and role in NAMED_ROLES and not node.get("name", {}).get("value", "").strip():
            yield f"a {role} has no name"


def pictures(browser, folder, width):
    height = int(browser.ask("Page.getLayoutMetrics")["cssContentSize"]["height"])
    for old in folder.glob(f"screen-{width}-*.png"):
        old.unlink()
    for top in range(0, height, SLICE):
        clip = {"x": 0, "y": top, "width": width, "height": min(SLICE, height - top), "scale": 1}
        data = browser.ask("Page.captureScreenshot", clip=clip, captureBeyondViewport=True)["data"]
        (folder / f"screen-{width}-{top:06d}.png").write_bytes(base64.b64decode(data))


def look(browser, path, least, most, folder):
    address = pathlib.Path(path).resolve().as_uri()
    faults = []
    browser.open(address, 1280, 900, scripts=False)
    plain = browser.ask("DOM.getDocument", depth=0) and browser.ask("Page.getLayoutMetrics")["cssContentSize"]
    text_off = browser.ask("DOMSnapshot.captureSnapshot", computedStyles=[])["strings"]
    for width in (390, 1280):
        browser.open(address, width, 900)
        faults += sorted(set(told(browser.events, address)))
        if folder:
            pictures(browser, folder, width)
        browser.value(OPEN_ALL)
        beyond = browser.value(BEYOND.replace("WIDTH", str(width)))
        if beyond:
            faults.append(f"at {width} pixels beyond the edge: {beyond}")
    known = set(s.strip() for s in text_off)
    said = browser.value("JSON.stringify([...document.querySelectorAll('h1,h2,h3,td,th,p,li')].filter(x => !x.children.length).map(x => x.textContent.trim()).filter(x => x))")
    missing = [t for t in json.loads(said) if t not in known]
    if missing or plain["height"] < 200:
        faults.append(f"without scripts these words are missing: {missing[:5]}")
    faults += sorted(set(nameless(browser.ask("Accessibility.getFullAXTree")["nodes"])))
    sorted_columns, unsorted, tables = json.loads(browser.value(SORT))
    pointed, unpointed = json.loads(browser.value(POINTS))
    if unsorted:
        faults.append(f"columns that do not sort: {unsorted}")
    if unpointed:
        faults.append(f"figures whose points cannot be named: {unpointed}")
    if browser.value("!!document.querySelector('script')") and (not sorted_columns or not pointed):
        faults.append(f"the script does nothing: {sorted_columns} columns sort, {pointed} figures name their points")
    browser.open(address, 1280, 900)
    printed = base64.b64decode(browser.ask("Page.printToPDF", **A4)["data"])
    if folder:
        (folder / "browser.pdf").write_bytes(printed)
    sheets = len(re.findall(rb"/Type\s*/Page\b", printed))
    if not least <= sheets <= most:
        faults.append(f"printed on {sheets} sheets, expected {least} to {most}")
    print(f"{path}: {sorted_columns} columns sort in {tables} tables, {pointed} figures name their points, {sheets} sheets, {len(faults)} faults")
    return faults


def main(arguments):
    least, most, folder = 1, 1000, None
    if arguments[:1] == ["--pages"]:
        least, most = map(int, arguments[1].split("-"))
        arguments = arguments[2:]
    if arguments[:1] == ["--pictures"]:
        folder = pathlib.Path(arguments[1])
        folder.mkdir(parents=True, exist_ok=True)
        arguments = arguments[2:]
    if not arguments:
        sys.exit(__doc__)
    program = os.environ.get("CHROMIUM") or shutil.which("chromium") or sys.exit("chromium is not there")
    bad = 0
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        browser = Browser(program, profile)
        try:
            for path in arguments:
                for fault in look(browser, path, least, most, folder):
                    print(f"{path}: {fault}", file=sys.stderr)
                    bad += 1
        finally:
            browser.process.kill()
            browser.process.wait()
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
