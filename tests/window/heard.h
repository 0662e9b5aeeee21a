/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a screen reader would find in the program under test at one moment. */
#pragma once

#include <glib.h>

typedef struct {
  int depth;
  const char *role;   /* AT-SPI's name of it */
  const char *states; /* letters: f focusable, F focused, e editable, c checked, S sensitive */
  int width, height;  /* px; 0 when it was never shown or does not take the keyboard */
  const char *name;
  const char *description;
  const char *text; /* of an entry or a status */
} Heard;

/* Every object of the program, each before its children: an array of Heard. Owned. */
GPtrArray *heard_now (void);

/* The first that has this role and a name, or a status without one whose text, begins so; role
 * NULL: any. NULL when none has. */
const Heard *heard_find (GPtrArray *all, const char *role, const char *name);

/* TRUE when it is shown and takes the keyboard. */
gboolean heard_is_control (const Heard *heard);
/* TRUE when it says what it is: GTK 4.8 gives the class for a name where there is none. */
gboolean heard_has_name (GPtrArray *all, guint i);
