#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# usage: install-as.sh FILE FOLDER NAME, with the staging folder before FOLDER where there is one.
set -eu
mkdir -p "${DESTDIR:-}$2"
cp "$1" "${DESTDIR:-}$2/$3"
chmod 644 "${DESTDIR:-}$2/$3"
