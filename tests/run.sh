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

# tell_failures RECORD: the last lines of every program that failed. The whole is further up, where a
# reader of the end alone does not see it.
tell_failures () {
  python3 - "$1" <<'END'
import json, sys
for line in open(sys.argv[1]):
    test = json.loads(line)
    if test["result"] in ("OK", "SKIP"):
        continue
    told = (test.get("stdout", "") + test.get("stderr", "")).splitlines()
    told = [line for line in told if not line.startswith("ok ")]
    print("\n%s: %s, exit %s" % (test["name"], test["result"], test["returncode"]))
    print("\n".join("    " + line for line in told[-40:]))
END
}

# run_tests FOLDER WORDS NAME PATIENCE [WHICH…]: builds what these tests need, runs them, and adds
# their single checks to the totals. NAME is the log's.
run_tests () {
  folder=$1 words=$2 name=$3 patience=$4
  shift 4
  status=0
  log=$folder/meson-logs/$name.txt
  : >"$log"
  meson test -C "$folder" --logbase "$name" --print-errorlogs --timeout-multiplier "$patience" "$@" \
    >"$folder/$name.log" 2>&1 || status=$?
  ok=$(grep -cE '^ok [0-9]+' "$log" || true)
  bad=$(grep -cE '^not ok [0-9]+' "$log" || true)
  if [ $status -ne 0 ]; then
    cat "$folder/$name.log"
    [ ! -s "$folder/meson-logs/$name.json" ] || tell_failures "$folder/meson-logs/$name.json"
    # A program that died counts as a failure though it printed no line of its own.
    [ "$bad" -gt 0 ] || bad=1
  fi
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
