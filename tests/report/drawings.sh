#!/usr/bin/env bash
# The step sheet and the charts as other programs read them.
#   tests/report/drawings.sh PROGRAM FOLDER
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
program=$1 folder=$2
rm -rf "$folder"
mkdir -p "$folder"
cd "$folder"
fail() {
  echo "$*" >&2
  exit 1
}
missing() {
  [[ -z ${DAMPLINE_REQUIRED-} ]] || fail "$1 is not installed"
  echo "without $1"
}
session=$here/../../data/sessions/heron-drypoint.toml
sed 's/^title = .*/title = "H\\u00e9ron, \\u00bd (dry) \\\\ point"/' "$session" >day.toml
"$program" plan day.toml --quiet --pdf day.pdf --svg day.svg --json day.json || (($? == 1))
"$program" plan day.toml --quiet --pdf again.pdf --svg again.svg || (($? == 1))
cmp day.pdf again.pdf
cmp day.svg again.svg

if command -v qpdf >/dev/null; then
  qpdf --check day.pdf >/dev/null || fail "qpdf finds the PDF broken"
  head -c 3000 day.pdf >torn.pdf
  ! qpdf --check torn.pdf >/dev/null 2>&1 || fail "the check of PDFs cannot fail"
else
  missing qpdf
fi
if command -v pdftotext >/dev/null; then
  pdftotext -layout day.pdf day.txt 2>pdf.errors
  [[ ! -s pdf.errors ]] || fail "pdftotext: $(cat pdf.errors)"
  grep -q 'Héron, ½ (dry) \\ point' day.txt || fail "the title does not come back"
  # Every step's time and every caution is on paper; no text runs over the edge of a page.
  for time in $(grep -o '"start": "[^"]*' day.json | cut -c22-26 | sort -u); do
    grep -q "$time" day.txt || fail "$time is not on the sheet"
  done
  pdftotext -bbox day.pdf day.html
  awk -F'"' '/<word/ { if ($2 < 30 || $6 > 575 || $4 < 30 || $8 > 815) { print; bad = 1 } } END { exit bad }' day.html ||
    fail "words run over the edge"
  pages=$(pdfinfo day.pdf | sed -n 's/^Pages: *//p')
  ((pages >= 2 && pages <= 12)) || fail "$pages pages"
else
  missing pdftotext
fi
if command -v rsvg-convert >/dev/null; then
  rsvg-convert day.svg -o day.png || fail "the drawing cannot be drawn"
else
  missing rsvg-convert
fi
if command -v xmllint >/dev/null; then
  xmllint --noout day.svg || fail "the drawing is no XML"
else
  missing xmllint
fi
