#!/usr/bin/env bash
# Render the first page of named sheets of a workbook as they print, one below the other:
#   render.sh BOOK.xlsx OUT.png SHEET [SHEET ...]    (a number instead of a name is that page: the Bid does not print its name)
# RESOLUTION=90 (dots an inch) and HEIGHT=600 (pixels kept of each page, from the top) may be set before it.
# Needs soffice, pdftotext, pdftoppm and convert (libreoffice-calc, poppler-utils, imagemagick).
set -euo pipefail
book=$1 out=$2
shift 2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
soffice "-env:UserInstallation=file://$work/profile" --headless --convert-to pdf --outdir "$work" "$book" >/dev/null 2>&1
pdf=$work/$(basename "${book%.*}").pdf

page_of() {                      # the first page whose footer or first line begins with this sheet's name
  pdftotext -layout "$pdf" - | awk -v sheet="$1" 'BEGIN {RS = "\f"} {
    lines = split($0, line, "\n")
    for (at = lines; at > 0 && line[at] !~ /Page [0-9]+ of/; at--) {}
    sub(/^ +/, "", line[at]); split(line[at], part, "   ")
    for (at = 1; at < lines && line[at] ~ /^ *$/; at++) {}
    sub(/^ +/, "", line[at]); split(line[at], first, "   ")
    if ((part[1] == sheet || first[1] == sheet) && !found) found = NR
  } END {if (found) print found}'
}

number=0
for sheet in "$@"; do
  [[ $sheet =~ ^[0-9]+$ ]] && page=$sheet || page=$(page_of "$sheet")
  [ -n "$page" ] || { echo "no sheet $sheet in $book" >&2; exit 1; }
  number=$((number + 1))
  picture=$work/sheet-$(printf %03d "$number")
  pdftoppm -r "${RESOLUTION:-90}" -png -singlefile -f "$page" -l "$page" "$pdf" "$picture"
  convert "$picture.png" -trim +repage -crop "x${HEIGHT:-600}+0+0" +repage -bordercolor white -border 12 "$picture.png"
done
convert "$work"/sheet-*.png -append +dither -colors 20 -depth 8 -define png:compression-level=9 "$out"
