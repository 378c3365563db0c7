#!/bin/sh
# Looks at a report as people will: its markup (pages.py), what it does in a browser at two widths and on paper (browser.py), and,
# if a PDF of the same name lies beside it, that every sheet of the PDF has words, its number and the study digest. Pictures of all
# of it are left in the folder. Needs chromium, pdfinfo, pdftoppm, pdftotext and python3.
#
# Usage: src/checks/look.sh REPORT.html FOLDER [LEAST-MOST printed sheets]
set -eu

if [ $# -lt 2 ] || [ ! -f "$1" ]; then
    sed -n '2,6s/^# \{0,1\}//p' "$0" >&2
    exit 2
fi
here=$(cd "$(dirname "$0")" && pwd)
page=$1
mkdir -p "$2"
out=$(cd "$2" && pwd)

python3 "$here/pages.py" "$page"
python3 "$here/browser.py" --pages "${3:-1-1000}" --pictures "$out" "$page"

pdf=${page%.html}.pdf
[ -f "$pdf" ] || exit 0
pages=$(pdfinfo "$pdf" | sed -n 's/^Pages: *//p')
rm -f "$out"/pdf-*.png
pdftoppm -r 80 -png "$pdf" "$out/pdf"
pdftotext -layout "$pdf" "$out/pdf.txt"
n=0
while [ "$n" -lt "$pages" ]; do
    n=$((n + 1))
    words=$(pdftotext -f "$n" -l "$n" "$pdf" -)
    for wanted in "page $n of $pages" '[0-9a-f]\{64\}' '[a-z]\{3,\}.*'; do
        printf '%s' "$words" | tr '\n' ' ' | grep -q "$wanted" || {
            echo "page $n of the PDF lacks: $wanted" >&2
            exit 1
        }
    done
    [ "$(printf '%s' "$words" | wc -w)" -gt 20 ] || {
        echo "page $n of the PDF is all but empty" >&2
        exit 1
    }
done
echo "$pdf: $pages pages, all with words, number and digest"
