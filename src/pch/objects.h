/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Read by the compiler once a room instead of once a file. No file may lean on it: each includes what
   it uses, and tests/run.sh --all, which builds without, tells when one does not. */
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <gio/gio.h>
