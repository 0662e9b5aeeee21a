# SPDX-License-Identifier: GPL-3.0-or-later
# Run by "meson devenv": the program that is found is the one of the build folder ($1), and it finds the
# demos, the help and the decoder of pictures.
set -eu
[ "$(command -v bandwright)" = "$1/src/bandwright" ]
[ -e "$BANDWRIGHT_DATA_DIR/demo/split-tide.bandwright" ]
[ -x "$BANDWRIGHT_LIBEXEC_DIR/bandwright-picture" ]
found=
IFS=:
for folder in $BANDWRIGHT_HELP_DIRS; do
  [ ! -e "$folder/C/index.page" ] || found=yes
done
[ "$found" = yes ]
# Where the sources lie is no word of the program's.
! grep -q -F -- "$BANDWRIGHT_DATA_DIR" "$1/src/bandwright"
