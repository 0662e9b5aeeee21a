#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# usage: bare-debian.sh [--all] [SUITE…]          (as root; about 3 GB a suite)
#
# Runs the README's two commands on bare machines: a Debian of each SUITE (bookworm and trixie when
# none is named) is put into a folder by debootstrap, the files of this checkout are copied into it,
# and the first command is run there, with --all the second one too. This is no part of the usual
# tests: it takes long, needs root and the net.
#
# BW_MIRROR   the mirror to take packages from; the one that apt here uses when it is not set
# BW_CHROOTS  a folder to keep the machines in, so that the next run begins with them as they were
#             before anything was installed; without it they are thrown away
set -eu

if [ "$(id -u)" -ne 0 ] || ! command -v debootstrap >/dev/null 2>&1; then
  echo "This needs root and the package debootstrap." >&2
  exit 1
fi
# In a world of mounts of its own: what is mounted below is gone when this ends, however it ends.
if [ -z "${BW_OWN_MOUNTS:-}" ]; then
  export BW_OWN_MOUNTS=yes
  exec unshare --mount --propagation private sh "$0" "$@"
fi
cd "$(dirname "$0")/../.."

all=
[ "${1:-}" = --all ] && all=yes && shift
[ $# -gt 0 ] || set -- bookworm trixie
mirror=${BW_MIRROR:-$(apt-get indextargets --format '$(SITE)' | head -n 1)}
folder=${BW_CHROOTS:-}
[ -n "$folder" ] || folder=$(mktemp -d)
mkdir -p "$folder"
trap '[ -n "${BW_CHROOTS:-}" ] || rm -rf --one-file-system "$folder"' EXIT
trap 'exit 1' HUP INT TERM

# bare SUITE: the bare machine in $folder/SUITE, unpacked from what was kept of it.
bare () {
  rm -rf --one-file-system "${folder:?}/$1"
  if [ ! -f "$folder/$1.tar" ]; then
    debootstrap --variant=minbase "$1" "$folder/$1" "$mirror" >"$folder/$1-debootstrap.log" 2>&1 || {
      tail -n 20 "$folder/$1-debootstrap.log" >&2
      return 1
    }
    cp /etc/resolv.conf "$folder/$1/etc/resolv.conf"
    tar -C "$folder/$1" -cf "$folder/$1.tar" .
  else
    mkdir "$folder/$1"
    tar -C "$folder/$1" -xf "$folder/$1.tar"
  fi
  mkdir "$folder/$1/bandwright"
  git ls-files -z | tar --null -T - -cf - | tar -C "$folder/$1/bandwright" -xf -
  mount -t proc proc "$folder/$1/proc"
  mount --rbind /dev "$folder/$1/dev"
  mount --rbind /sys "$folder/$1/sys"
}

# inside SUITE COMMAND: runs it there as on a machine of its own, and says how it went.
failed=0
inside () {
  log=$folder/$1-$(echo "$2" | tr -cs 'a-z\n' -).log
  began=$(date +%s)
  status=0
  env -i PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LANG=C.UTF-8 \
    ${http_proxy:+http_proxy="$http_proxy"} ${https_proxy:+https_proxy="$https_proxy"} \
    chroot "$folder/$1" sh -c "cd /bandwright && $2" >"$log" 2>&1 </dev/null || status=$?
  took=$(($(date +%s) - began))
  if [ $status -eq 0 ]; then
    printf 'ok      %s on %s, %d s: %s\n' "$2" "$1" $took "$(tail -n 1 "$log")"
  else
    printf 'not ok  %s on %s, %d s, status %d; its last lines, the rest in %s:\n' "$2" "$1" $took $status "$log"
    tail -n 30 "$log"
    failed=$((failed + 1))
  fi
}

for suite in "$@"; do
  if ! bare "$suite"; then
    echo "not ok  no bare $suite to be had from the mirror"
    failed=$((failed + 1))
    continue
  fi
  inside "$suite" "sh data/run.sh"
  [ -z "$all" ] || inside "$suite" "sh tests/run.sh"
  umount --recursive "$folder/$suite/dev" "$folder/$suite/sys" "$folder/$suite/proc"
done
[ $failed -eq 0 ]
