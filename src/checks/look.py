"""Helper of look.sh.

copies PAGE FOLDER   refuse outside requests and scripts but one of the page's own; write a frame around the page for each width
size DOM WIDTH       refuse sideways scrolling; print the height of the page in pixels

A headless browser has a least window width of its own, so the page is looked at inside a frame of
exactly the width wanted; the frame's script, not the page's, measures it.
"""
import base64
import re
import sys

FRAME = """<!DOCTYPE html><meta charset="utf-8"><style>body{{margin:0;overflow:hidden}}iframe{{border:0;width:{width}px;height:{height}px}}</style>
<iframe id="f" srcdoc=""></iframe><script>
const bytes = Uint8Array.from(atob("{page}"), c => c.charCodeAt(0));
const f = document.getElementById("f");
f.onload = () => {{
  const e = f.contentDocument.documentElement;
  document.body.dataset.wide = e.scrollWidth;
  document.body.dataset.high = e.scrollHeight;
  const beyond = [...f.contentDocument.querySelectorAll("body *")].filter(x => !x.closest(".scroll") && x.getBoundingClientRect().right > {width} + 0.5);
  document.body.dataset.beyond = beyond.slice(0, 5).map(x => x.tagName + "." + x.className).join(" ");
  f.style.height = e.scrollHeight + "px";
  f.style.marginTop = "-" + (location.search.slice(1) || 0) + "px";
}};
f.srcdoc = new TextDecoder().decode(bytes);
</script>
"""


def copies(page, folder):
    text = open(page, encoding="utf-8").read()
    if text.count("<script>") > 1:
        sys.exit("the page has more than one script")
    markup = re.sub(r"(?s)<script>.*?</script>", "", text)
    faults = re.findall(r"<script|<link|<iframe|<img|@import|\son\w+=|(?:src|href)=[\"'](?!#)[^\"']*", markup)
    if faults:
        sys.exit(f"the page runs or asks for something: {sorted(set(faults))[:5]}")
    encoded = base64.b64encode(text.encode()).decode()
    for width in (1280, 390):
        with open(f"{folder}/frame-{width}.html", "w", encoding="utf-8") as out:
            out.write(FRAME.format(width=width, height=900, page=encoded))


def size(dom, width):
    text = open(dom, encoding="utf-8").read()
    found = re.search(r'<body[^>]*data-wide="(\d+)" data-high="(\d+)" data-beyond="([^"]*)"', text)
    if not found:
        sys.exit("the page was not measured")
    wide, high, beyond = int(found[1]), int(found[2]), found[3]
    if wide > int(width) or beyond:
        sys.exit(f"at {width} pixels the page is {wide} wide; beyond the edge: {beyond or 'nothing'}")
    print(f"{width} pixels: {wide} wide, {high} high", file=sys.stderr)
    print(high)


if __name__ == "__main__":
    {"copies": copies, "size": size}[sys.argv[1]](*sys.argv[2:])
