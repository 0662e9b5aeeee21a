/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The widget that every unrolled piece of weaving is: it follows session, project and theme, and
 * says when its view must be placed anew. What lies in the view is for those who derive from it. */
#pragma once

#include "editor/cloth/band-view.h"

#define BW_TYPE_UNROLLED (bw_unrolled_get_type ())
G_DECLARE_DERIVABLE_TYPE (BwUnrolled, bw_unrolled, BW, UNROLLED, GtkWidget)

struct _BwUnrolledClass {
  GtkWidgetClass parent_class;

  /* The widget's size, theme or font is another. */
  void (*place) (BwUnrolled *self);
  /* The project changed (flags of BwChanged), or is another (BW_CHANGED_ALL). */
  void (*changed) (BwUnrolled *self, guint what);
  /* The project will be another, or the widget goes: what is half done is taken back. Nothing is
   * told meanwhile. Called with a project only. */
  void (*leave) (BwUnrolled *self);
  /* Another project is there; "changed" follows. May be NULL. */
  void (*taken) (BwUnrolled *self);
};

/* Signals: "status" (const char *words): what a status label should say; "view" (): how the weaving
 * lies in the widget is another. */

/* Begins to show a session; once, when the widget is made. Keeps a reference. */
void bw_unrolled_show (BwUnrolled *self, BwSession *session);

/* What its parts work on; borrowed, as long as the widget lives. */
BwBandView *bw_unrolled_view (BwUnrolled *self);

/* Tells a status label, unless it says so already. */
void bw_unrolled_tell (BwUnrolled *self, const char *words);
const char *bw_unrolled_get_told (BwUnrolled *self); /* borrowed; NULL before the first */

/* Emits "view". */
void bw_unrolled_seen (BwUnrolled *self);
