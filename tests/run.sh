#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing, builds, and passes every test as built for use; then, under the address
# and undefined-behaviour sanitizers, every test that needs no display and a smoke of the window.
# With --all the other tests with a display pass under the sanitizers too, which takes long.
# Ends with "N passed, N failed".
set -eu
cd "$(dirname "$0")/.."
. data/packages.sh

all=no
case ${1-} in
--all) all=yes ;;
'') ;;
*) echo "usage: sh tests/run.sh [--all]" >&2; exit 2 ;;
esac

install_missing $build_packages $test_packages
export LC_ALL=C.UTF-8
unset DISPLAY WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS 2>/dev/null || true

# Some hundred small programs are linked, and by the usual linker that takes a tenth of the whole time.
# Lines are enough to tell where a test failed: of variables nothing needs to be known.
if command -v ld.lld >/dev/null; then
  export CC_LD=lld
fi
lean=-Dc_args=-g1

# Programs wait for a display and a bus to start, and for processes they began: one more than there are
# processors keeps these busy.
export MESON_TESTTHREADS=${MESON_TESTTHREADS:-$(($(nproc) + 1))}

passed=0
failed=0

# again_alone: a hand among busy neighbours may miss a button. Where a few programs with a window are all
# that failed they are run once more, one by one: what fails then has failed, and what passes is told.
# Works on the variables of run_tests.
again_alone () {
  names=$(python3 tests/record.py windows "$record")
  [ -n "$names" ] || return 0
  # shellcheck disable=SC2086 # each name is a word
  MESON_TESTTHREADS=1 meson test -C "$folder" --no-rebuild --logbase alone --print-errorlogs \
    --timeout-multiplier "$patience" $names >"$folder/alone.log" 2>&1 || cat "$folder/alone.log"
  echo "Failed among others, and run once more alone: $names"
  alone=$folder/meson-logs/alone.json
}

# run_tests FOLDER WORDS NAME PATIENCE [WHICH…]: builds what these tests need, runs them, and adds
# their single checks to the totals. NAME is the log's.
run_tests () {
  folder=$1 words=$2 name=$3 patience=$4
  shift 4
  status=0
  alone=
  record=$folder/meson-logs/$name.json
  rm -f "$record"
  meson test -C "$folder" --logbase "$name" --print-errorlogs --timeout-multiplier "$patience" "$@" \
    >"$folder/$name.log" 2>&1 || status=$?
  if [ $status -ne 0 ]; then
    cat "$folder/$name.log"
    [ -s "$record" ] || exit 1
    python3 tests/record.py tell "$record"
    again_alone
  fi
  # shellcheck disable=SC2086 # none or one
  counts=$(python3 tests/record.py count "$record" $alone)
  ok=${counts% *} bad=${counts#* }
  [ $status -eq 0 ] || [ -n "$alone" ] || [ "$bad" -gt 0 ] || bad=1
  printf '%s: %d passed, %d failed\n' "$words" "$ok" "$bad"
  passed=$((passed + ok))
  failed=$((failed + bad))
}

configure build -Dtests=true $lean
build build
run_tests build "As built" testlog 1

# Without the head start of src/pch a file is found that leans on it.
[ $all = no ] || lean="$lean -Db_pch=false"
configure build-sanitized -Dtests=true $lean -Db_sanitize=address,undefined -Db_lundef=false -Doptimization=1
targets=$(ninja -C build-sanitized -t targets all)
# No test can say that it needs the catalogues and the translated help, which Meson gives no name to:
# they are made first.
build build-sanitized \
  $(echo "$targets" | sed -nE 's,^(data/help/[^ ]*\.page|po/[^ ]*\.mo): .*,\1,p')
if [ $all = yes ]; then
  run_tests build-sanitized "Under sanitizers" testlog 4
else
  # All but the benchmarks and the windows that are not looked at.
  build build-sanitized tests/window/test-window-draw tests/window/test-window-file \
    $(ninja -C build-sanitized -t query all | sed -n 's/^    //p' |
      grep -vE '^(tests/(bench/|window/test-window-)|meson-)')
  run_tests build-sanitized "Under sanitizers, no display" testlog 4 --no-rebuild \
    --no-suite window --no-suite desk --no-suite machine
  run_tests build-sanitized "Under sanitizers, a window" smoke 4 --no-rebuild --suite smoke
fi

echo
printf '%d passed, %d failed\n' "$passed" "$failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
