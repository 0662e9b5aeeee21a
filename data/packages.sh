# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by data/run.sh and tests/run.sh: installs what is missing, or says what to install.

build_packages="gcc libc6-dev meson ninja-build pkg-config gettext libglib2.0-dev libglib2.0-bin
  libgtk-4-dev libgtk-4-bin libepoxy-dev libcglm-dev libjson-glib-dev libegl-dev libgl1-mesa-dri
  fonts-dejavu-core adwaita-icon-theme shared-mime-info desktop-file-utils"

test_packages="libcmocka-dev libqhull-dev libgeos-dev libgsl-dev liblcms2-dev libassimp-dev libx11-dev libxtst-dev
  libatspi2.0-dev binutils xvfb xauth dbus at-spi2-core openbox appstream librsvg2-bin libxml2-utils
  poppler-utils locales man-db mandoc python3"

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
  echo "Installing:$missing"
  sudo=
  [ "$(id -u)" -eq 0 ] || sudo=sudo
  $sudo apt-get update -qq &&
    $sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing \
      >/dev/null || {
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

# build FOLDER: quiet unless it fails.
build () {
  ninja -C "$1" >"$1/ninja.log" 2>&1 || {
    tail -n 40 "$1/ninja.log" >&2
    exit 1
  }
}
