#!/bin/sh
# Shows a page as people will see it: wide screen, telephone and A4 paper as pictures in a folder.
# Fails if the page has to be scrolled sideways on a telephone, asks for anything from outside, or
# runs a script that is not its own. If a PDF of the same name lies beside it, that is shown too:
# its pages as pictures and its text, and it fails if a page has no number. Needs chromium,
# pdfinfo, pdftoppm, pdftotext and python3.
#
# Usage: src/checks/look.sh REPORT.html FOLDER
set -eu

if [ $# -ne 2 ] || [ ! -f "$1" ]; then
    sed -n '2,8s/^# \{0,1\}//p' "$0" >&2
    exit 2
fi
here=$(cd "$(dirname "$0")" && pwd)
page=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
mkdir -p "$2"
out=$(cd "$2" && pwd)
slice=2400
profile=$(mktemp -d)
trap 'rm -rf "$profile"' EXIT

browser() {
    "${CHROMIUM:-chromium}" --headless --no-sandbox --disable-gpu --disable-quic --no-first-run \
        --disable-background-networking --disable-component-update --disable-sync \
        --hide-scrollbars --user-data-dir="$profile/$(date +%s%N)" "$@" 2>>"$profile/log"
}

python3 "$here/look.py" copies "$page" "$profile"
for width in 1280 390; do
    browser --dump-dom "file://$profile/frame-$width.html" >"$profile/dom-$width.html"
    height=$(python3 "$here/look.py" size "$profile/dom-$width.html" "$width")
    rm -f "$out"/screen-"$width"-*.png
    from=0
    while [ "$from" -lt "$height" ]; do
        browser --window-size="$((width < 500 ? 500 : width)),$slice" \
            --screenshot="$out/screen-$width-$(printf '%05d' "$from").png" \
            "file://$profile/frame-$width.html?$from" >/dev/null
        from=$((from + slice))
    done
done
browser --no-pdf-header-footer --print-to-pdf="$out/paper.pdf" "file://$page" >/dev/null
rm -f "$out"/paper-*.png
pdftoppm -r 70 -png "$out/paper.pdf" "$out/paper"
echo "printed by the browser: $(pdfinfo "$out/paper.pdf" | sed -n 's/^Pages: *//p') pages" >&2

pdf=${page%.html}.pdf
if [ -f "$pdf" ]; then
    pages=$(pdfinfo "$pdf" | sed -n 's/^Pages: *//p')
    rm -f "$out"/pdf-*.png
    pdftoppm -r 80 -png "$pdf" "$out/pdf"
    pdftotext -layout "$pdf" "$out/pdf.txt"
    n=0
    while [ "$n" -lt "$pages" ]; do
        n=$((n + 1))
        pdftotext -f "$n" -l "$n" "$pdf" - | grep -q "page $n of $pages" || {
            echo "page $n of the PDF has no number" >&2
            exit 1
        }
    done
    echo "the PDF: $pages pages" >&2
fi
echo "pictures are in $out"
