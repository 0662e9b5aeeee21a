/* SPDX-License-Identifier: GPL-3.0-or-later */
/* As objects.h, for the rooms that hold widgets. */
#include <math.h>
#include <string.h>

#include <gtk/gtk.h>
