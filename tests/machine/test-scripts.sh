#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# usage: test-scripts.sh CHECKOUT
# What the two commands of the README say where they cannot do their work: no right to install, no
# right to write. Each runs as an ordinary user in a machine made of a few stand-ins.
set -eu
checkout=$1
work=$(mktemp -d)
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
mkdir "$work/checkout" "$work/bin"
cp -r "$checkout/data" "$work/checkout/data"
mkdir "$work/checkout/tests"
cp "$checkout/tests/run.sh" "$work/checkout/tests"

# A machine with none of the packages and no sudo: nothing else is in its path.
for tool in sh dirname basename realpath grep cat rm mkdir; do
  ln -s "$(command -v $tool)" "$work/bin/$tool"
done
stand_in () {
  printf '#!/bin/sh\n%s\n' "$2" >"$work/bin/$1"
  chmod 755 "$work/bin/$1"
}
stand_in dpkg-query 'exit 1'
stand_in apt-get 'echo "E: are you root?" >&2; exit 100'
stand_in id 'echo 1000'
chmod -R a+rX "$work"

# as_user COMMAND…: nobody's rights where the tests themselves run as root.
as_user () {
  if [ "$(id -u)" -eq 0 ]; then
    setpriv --reuid=65534 --regid=65534 --clear-groups env -i PATH="$work/bin" HOME=/nowhere "$@"
  else
    env -i PATH="$work/bin" HOME=/nowhere "$@"
  fi
}

n=0
failed=0
# says NAME WORDS COMMAND…: the command fails and says the words.
says () {
  name=$1 words=$2
  shift 2
  n=$((n + 1))
  if as_user "$@" >"$work/said" 2>&1; then
    echo "not ok $n - $name"
    failed=1
  elif grep -q -- "$words" "$work/said"; then
    echo "ok $n - $name"
  else
    echo "not ok $n - $name"
    sed 's/^/# /' "$work/said"
    failed=1
  fi
}

echo 1..6
chmod a+w "$work/checkout"
packages="apt-get install --no-install-recommends gcc libc6-dev meson"
says the_first_command_without_sudo_tells_what_an_administrator_runs \
  "$packages" sh "$work/checkout/data/run.sh"
says the_second_command_without_sudo_tells_what_an_administrator_runs \
  "$packages" sh "$work/checkout/tests/run.sh"
stand_in sudo 'echo "you are not in the sudoers file" >&2; exit 1'
says a_sudo_that_refuses_ends_with_what_an_administrator_runs \
  "$packages" sh "$work/checkout/data/run.sh"
rm "$work/bin/apt-get"
says another_system_is_told_the_packages \
  "This is not a Debian or Ubuntu machine" sh "$work/checkout/data/run.sh"
chmod a-w "$work/checkout"
[ "$(id -u)" -ne 0 ] || chown root "$work/checkout"
says the_first_command_in_a_read_only_checkout_says_where_to_go \
  "cp -r '$work/checkout' ~/bandwright && sh ~/bandwright/data/run.sh" sh "$work/checkout/data/run.sh"
says the_second_command_in_a_read_only_checkout_says_where_to_go \
  "cp -r '$work/checkout' ~/bandwright && sh ~/bandwright/tests/run.sh" sh "$work/checkout/tests/run.sh"
exit $failed
