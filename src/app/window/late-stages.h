/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stages are made when they are first shown, and the others when the first picture is on the
 * screen: it need not wait for what is not on it. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

/* Takes a stack whose pages, named after the stages, are empty overlays, and lives as long as it.
 * The stage that is shown is made at once. */
void bw_late_stages_take (GtkStack *stages, BwDraft *draft);
/* The stage of that name, made now if it was not there. Borrowed. */
GtkWidget *bw_late_stages_get (GtkStack *stages, const char *name);
