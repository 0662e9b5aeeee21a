#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# usage: encode-symbol.sh ENCODER SIZE DRAWING PICTURE. The encoder chooses its file's name by itself,
# so it works in a folder of its own and the picture is put where it is wanted.
set -eu
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$1" --output "$work" "$3" "$2x$2"
mv "$work"/*.png "$4"
