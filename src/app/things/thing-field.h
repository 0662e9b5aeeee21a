/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line of the dialog of a thing: its control, filled, read and cleared. */
#pragma once

#include "app/things/things.h"

/* Filled with what thing has. */
GtkWidget *bw_thing_field_new (const BwThingField *field, gconstpointer thing);
/* Calls changed (data) at every change. */
void bw_thing_field_follow (const BwThingField *field, GtkWidget *control, GCallback changed,
                            gpointer data);
/* Into thing. Nothing typed is 0. FALSE with a fault. */
gboolean bw_thing_field_read (const BwThingField *field, GtkWidget *control, gpointer thing,
                              GError **error);
/* Whether anything is typed in the first text of them. */
gboolean bw_thing_fields_typed (const BwThings *things, GtkWidget *const *controls);
