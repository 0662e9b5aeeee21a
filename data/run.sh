#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing, builds, and does the main job: opens FILE (or a demo project) in the
# window; with no display it writes reports, printed sheets, chart, picture and model into out/.
set -eu
[ $# -eq 0 ] || file=$(realpath -- "$1")
cd "$(dirname "$0")/.."
. data/packages.sh

install_missing $build_packages
configure build -Dtests=false
build build

# What a maker tries on the demo is saved in a copy, which the next run opens again.
if [ -z "${file:-}" ]; then
  file=$PWD/out/harbour-lamp.bandwright
  mkdir -p out
  [ -e "$file" ] || cp data/demo/harbour-lamp.bandwright "$file"
  chmod u+w "$file"
fi
export BANDWRIGHT_DATA_DIR="$PWD/data"
export BANDWRIGHT_LIBEXEC_DIR="$PWD/build/src/picture"
export BANDWRIGHT_HELP_DIRS="$PWD/build/data/help:$PWD/data/help"
export GSETTINGS_SCHEMA_DIR="$PWD/build/data"

if [ -n "${WAYLAND_DISPLAY:-}${DISPLAY:-}" ]; then
  exec build/src/bandwright "$file"
fi

mkdir -p out
tool=build/src/bandwright-tool
$tool fit "$file" | tee out/fit.txt
$tool materials --csv "$file" >out/materials.csv
$tool words "$file" >out/words.txt
$tool sheet "$file" -o out/sheet.pdf
$tool strip "$file" -o out/strip.pdf
$tool chart "$file" -o out/chart.svg
$tool render "$file" -o out/picture.png --size 1200x1200 --turn 200 --tip 12
$tool model "$file" -o out/model.glb
echo
echo "There is no display, so the window stays closed. Written into out/:"
echo "  fit.txt        whether the band closes and grips"
echo "  materials.csv  what to buy"
echo "  words.txt      the band row by row"
echo "  sheet.pdf      the work sheet to weave by"
echo "  strip.pdf      a paper strip at true size, to check the measurements"
echo "  chart.svg      the chart of the band"
echo "  picture.png    the finished piece"
echo "  model.glb      the finished piece for other programs"
case $file in
"$PWD"/out/*) echo "and harbour-lamp.bandwright, the copy of the demo that all of it is of; run again, it is opened." ;;
esac
