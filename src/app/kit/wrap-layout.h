/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays a widget's children in as many rows as they need, each row in the middle: one where there is
 * room, two or three in a narrow window. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_WRAP_LAYOUT (bw_wrap_layout_get_type ())
G_DECLARE_FINAL_TYPE (BwWrapLayout, bw_wrap_layout, BW, WRAP_LAYOUT, GtkLayoutManager)

/* spacing: pixels between children of a row, and between rows. */
GtkLayoutManager *bw_wrap_layout_new (int spacing);
/* The same, but it asks for no more width than its widest child: what is beside it needs the room. */
GtkLayoutManager *bw_wrap_layout_new_narrow (int spacing);
