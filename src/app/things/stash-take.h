/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A finished piece takes its share of the stash, once. */
#pragma once

#include "project/project.h"
#include <gtk/gtk.h>

/* Asks over parent whether the piece takes what the stash has of it, telling what that is; nothing
 * where it has nothing or the piece took its share before. */
void bw_stash_take_ask (GtkWindow *parent, BwProject *project);
/* Puts back what the piece took; nothing where it took nothing. */
void bw_stash_take_back (GtkWindow *parent, BwProject *project);
