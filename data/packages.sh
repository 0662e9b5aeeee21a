# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by data/run.sh and tests/run.sh, in the folder of the checkout: installs what is missing, or
# says what to install. Everything is built below that folder, so that it must be one to write in.

if [ ! -w . ]; then
  echo "Nothing can be written in $PWD, and what is built is put there. Copy it to a folder of your" >&2
  echo "own and run it there:" >&2
  echo "  cp -r '$PWD' ~/bandwright && sh ~/bandwright/$(basename "$(dirname "$0")")/run.sh" >&2
  exit 1
fi

build_packages="gcc libc6-dev meson ninja-build pkg-config gettext libglib2.0-dev libglib2.0-bin
  libgtk-4-dev libgtk-4-bin libepoxy-dev libcglm-dev libjson-glib-dev libegl-dev libgl1-mesa-dri
  libembree-dev libwebp-dev librsvg2-common librsvg2-bin itstool fonts-dejavu-core fonts-lato
  adwaita-icon-theme shared-mime-info desktop-file-utils"

test_packages="libcmocka-dev libffi-dev libqhull-dev libgeos-dev libgsl-dev liblcms2-dev libassimp-dev libx11-dev libxtst-dev
  libatspi2.0-dev binutils xvfb xauth dbus at-spi2-core openbox appstream libxml2-utils mallard-rng clang lld
  poppler-utils locales man-db mandoc python3 python3-sklearn"

# ask_an_administrator PACKAGE…: ends, with what somebody else has to do.
ask_an_administrator () {
  echo "Packages are missing, and you have no right to install them. Ask somebody who has it to run" >&2
  echo "  apt-get install --no-install-recommends $*" >&2
  echo "as root, then run this again. Building needs no rights." >&2
  exit 1
}

# install_missing PACKAGE…: apt on Debian and Ubuntu, with sudo when needed.
install_missing () {
  if ! command -v apt-get >/dev/null 2>&1; then
    for tool in gcc meson ninja pkg-config msgfmt; do
      command -v "$tool" >/dev/null 2>&1 && continue
      echo "This is not a Debian or Ubuntu machine, and $tool is missing. Please install what your" >&2
      echo "system calls these Debian packages, then run this again:" >&2
      echo "  $*" >&2
      exit 1
    done
    return 0
  fi
  missing=
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
      missing="$missing $package"
  done
  [ -n "$missing" ] || return 0
  sudo=
  if [ "$(id -u)" -ne 0 ]; then
    sudo=sudo
    command -v sudo >/dev/null 2>&1 || ask_an_administrator $missing
  fi
  echo "Installing:$missing"
  $sudo apt-get update -qq &&
    $sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing \
      >/dev/null || {
    [ -z "$sudo" ] || ask_an_administrator $missing
    echo "These packages could not be installed:$missing" >&2
    exit 1
  }
}

# configure FOLDER [OPTION…]: sets a build folder up once, and again when it was set up without tests
# and they are wanted.
configure () {
  folder=$1
  shift
  again=
  case " $* " in
    *" -Dtests=true "*) grep -q tests/house "$folder/build.ninja" 2>/dev/null || again=--reconfigure ;;
  esac
  [ -f "$folder/build.ninja" ] || again=
  [ -f "$folder/build.ninja" ] && [ -z "$again" ] || meson setup $again "$folder" "$@" >"$folder.log" 2>&1 || {
    cat "$folder.log" >&2
    exit 1
  }
  rm -f "$folder.log"
}

# build FOLDER [TARGET…]: all of it or these alone; quiet unless it fails.
build () {
  folder=$1
  shift
  ninja -C "$folder" "$@" >"$folder/ninja.log" 2>&1 || {
    tail -n 40 "$folder/ninja.log" >&2
    exit 1
  }
}
