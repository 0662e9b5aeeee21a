/* SPDX-License-Identifier: GPL-3.0-or-later */
/* As objects.h, for the room that knows no objects. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <glib.h>
