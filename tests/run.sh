#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing, builds, and passes every test: once as built for use, once more under the
# address and undefined-behaviour sanitizers. Ends with "N passed, N failed".
set -eu
cd "$(dirname "$0")/.."
. data/packages.sh

install_missing $build_packages $test_packages
export LC_ALL=C.UTF-8
unset DISPLAY WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS 2>/dev/null || true

passed=0
failed=0

# run_tests FOLDER WORDS: runs every test there and adds its single checks to the totals.
run_tests () {
  folder=$1
  build "$folder"
  status=0
  meson test -C "$folder" --no-rebuild --print-errorlogs --timeout-multiplier "$3" \
    >"$folder/tests.log" 2>&1 || status=$?
  log=$folder/meson-logs/testlog.txt
  ok=$(grep -cE '^ok [0-9]+' "$log" || true)
  bad=$(grep -cE '^not ok [0-9]+' "$log" || true)
  if [ $status -ne 0 ]; then
    cat "$folder/tests.log"
    # A program that died counts as a failure though it printed no line of its own.
    [ "$bad" -gt 0 ] || bad=1
  fi
  printf '%s: %d passed, %d failed\n' "$2" "$ok" "$bad"
  passed=$((passed + ok))
  failed=$((failed + bad))
}

configure build -Dtests=true
run_tests build "As built" 1
configure build-sanitized -Dtests=true -Db_sanitize=address,undefined -Db_lundef=false -Doptimization=1
run_tests build-sanitized "Under sanitizers" 4

echo
printf '%d passed, %d failed\n' "$passed" "$failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
