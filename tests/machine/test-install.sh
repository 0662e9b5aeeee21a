#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# usage: test-install.sh CHECKOUT
# Runs the README's line to install as it is written there, on a clean tree, with warnings as errors
# and by clang: every other test here is built by GCC. DESTDIR puts all of it into a staging folder.
set -eu
checkout=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/tree"
for name in README.md meson.build meson_options.txt src ui shaders tests data po; do
  cp -r "$checkout/$name" "$work/tree"
done

n=0
failed=0
# holds NAME COMMAND…: one check; what the command says is shown when it fails.
holds () {
  name=$1
  shift
  n=$((n + 1))
  if "$@" >"$work/said" 2>&1; then
    echo "ok $n - $name"
  else
    echo "not ok $n - $name"
    tail -n 30 "$work/said" | sed 's/^/# /'
    failed=1
  fi
}

echo 1..10
line='meson setup build && meson install -C build'
holds the_readme_tells_the_line grep -qx "$line" "$checkout/README.md"
# Nothing is optimized: what is tried is whether it builds and where it goes.
staged () {
  cd "$work/tree"
  env -u LDFLAGS -u CC_LD CC=clang CFLAGS="-O0 -g0" DESTDIR="$work/stage" sh -c "$line"
}
holds it_installs_from_a_clean_tree staged
wants_no_test_library () {
  test -f "$work/tree/build/meson-info/intro-dependencies.json" &&
    ! grep -q cmocka "$work/tree/build/meson-info/intro-dependencies.json"
}
holds it_wants_nothing_that_only_tests_need wants_no_test_library

root=$work/stage/usr/local
all_there () {
  for file in bin/bandwright bin/bandwright-tool libexec/bandwright-picture share/man/man1/bandwright.1 \
    share/applications/io.github.bandwright.Bandwright.desktop \
    share/metainfo/io.github.bandwright.Bandwright.metainfo.xml \
    share/mime/packages/io.github.bandwright.Bandwright.xml \
    share/glib-2.0/schemas/io.github.bandwright.Bandwright.gschema.xml \
    share/icons/hicolor/scalable/apps/io.github.bandwright.Bandwright.svg \
    share/icons/hicolor/48x48/apps/io.github.bandwright.Bandwright.png \
    share/icons/hicolor/128x128/apps/io.github.bandwright.Bandwright.png \
    share/locale/de/LC_MESSAGES/bandwright.mo share/bandwright/demo/harbour-lamp.bandwright; do
    test -f "$root/$file" || { echo "$file is not there"; return 1; }
  done
}
holds all_of_it_is_put_where_it_belongs all_there
nothing_elsewhere () { test "$(ls -A "$work/stage" "$work/stage/usr")" = "$(printf '%s:\nusr\n\n%s:\nlocal' "$work/stage" "$work/stage/usr")"; }
holds nothing_is_put_beside_the_prefix nothing_elsewhere
tells_the_licence () {
  grep -q /usr/share/common-licenses/GPL-3 "$root/share/doc/bandwright/copyright" || return 1
  [ ! -f /usr/share/common-licenses/GPL-3 ] ||
    test "$(readlink "$root/share/doc/bandwright/COPYING")" = /usr/share/common-licenses/GPL-3
}
holds the_licence_file_points_to_the_text tells_the_licence
holds the_metainfo_names_the_licence_file grep -q share/doc/bandwright/copyright \
  "$root/share/metainfo/io.github.bandwright.Bandwright.metainfo.xml"
holds the_installed_tool_answers "$root/bin/bandwright-tool" fit \
  "$root/share/bandwright/demo/split-tide.bandwright"

# As the freedesktop thumbnailer entries are used: TryExec is looked for in PATH, Exec's words are the
# command, %i the file, %o the picture, %s its size. File managers run it in a sandbox, so it gets
# neither a home nor a display, and one folder to write in.
entry=$root/share/thumbnailers/io.github.bandwright.Bandwright.thumbnailer
big_endian () { od -An -tu1 -j "$2" -N 4 "$1" | awk '{ print (($1 * 256 + $2) * 256 + $3) * 256 + $4 }'; }
thumbnail () {
  project=$1 picture=$2 size=$3
  test -x "$root/bin/$(sed -n 's/^TryExec=//p' "$entry")" || return 1
  set --
  for word in $(sed -n 's/^Exec=//p' "$entry"); do
    case $word in
    %i) set -- "$@" "$project" ;;
    %o) set -- "$@" "$picture" ;;
    %s) set -- "$@" "$size" ;;
    *) set -- "$@" "$word" ;;
    esac
  done
  (cd / && env -i PATH="$root/bin:/usr/bin:/bin" "$@")
}
the_picture_is_small () {
  for size in 128 256; do
    picture=$work/thumbnail-$size.png
    thumbnail "$root/share/bandwright/demo/harbour-lamp.bandwright" "$picture" $size || return 1
    test "$(head -c 8 "$picture" | od -An -tx1 | tr -d ' ')" = 89504e470d0a1a0a || return 1
    wide=$(big_endian "$picture" 16) high=$(big_endian "$picture" 20)
    echo "$wide x $high for $size"
    test "$wide" -le $size && test "$high" -le $size && test "$high" -gt $((size / 2)) || return 1
  done
}
holds the_installed_thumbnailer_makes_pictures the_picture_is_small
a_wrong_file_has_no_picture () {
  echo '{' >"$work/wrong.bandwright"
  if thumbnail "$work/wrong.bandwright" "$work/wrong.png" 128; then return 1; fi
  test ! -e "$work/wrong.png" &&
    grep -q "type=\"$(sed -n 's/^MimeType=\(.*\);$/\1/p' "$entry")\"" \
      "$root/share/mime/packages/io.github.bandwright.Bandwright.xml"
}
holds a_file_that_is_no_project_gets_none a_wrong_file_has_no_picture
exit $failed
