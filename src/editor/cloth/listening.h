/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an unrolled piece of weaving hears of the pointer, the wheel, the keys and the focus.
 * Presses and drags differ from one to the other and are each one's own. */
#pragma once

#include <gtk/gtk.h>

/* Handlers as the signals of GTK's event controllers want them, their data last; NULL for what is
 * not listened to. Those marked "data" get the data alone. */
typedef struct {
  GCallback pointed;  /* of "enter" and "motion" */
  GCallback left;     /* data */
  GCallback scrolled; /* along both axes */
  GCallback key_pressed;
  GCallback modifiers;
  GCallback focused;   /* data */
  GCallback unfocused; /* data */
} BwListening;

/* The widget keeps the controllers; data is borrowed and must live as long. */
void bw_listen (GtkWidget *widget, const BwListening *listening, gpointer data);
