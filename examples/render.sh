#!/usr/bin/env bash
# Render sheets of a workbook as a person sees them: render.sh BOOK.xlsx OUT.png PAGE [PAGE ...]
# Needs soffice, pdftoppm and convert (libreoffice-calc, poppler-utils, imagemagick).
set -euo pipefail
book=$1 out=$2
shift 2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
soffice "-env:UserInstallation=file://$work/profile" --headless --convert-to pdf --outdir "$work" "$book" >/dev/null 2>&1
pdf=$work/$(basename "${book%.*}").pdf
for page in "$@"; do
  pdftoppm -r 80 -png -f "$page" -l "$page" "$pdf" "$work/page-$(printf %03d "$page")"
done
convert "$work"/page-*.png -trim -bordercolor white -border 12 -append -colors 32 "$out"
