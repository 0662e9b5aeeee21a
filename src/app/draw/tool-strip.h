/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tools, one named button each, in a row. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_TOOL_STRIP (bw_tool_strip_get_type ())
G_DECLARE_FINAL_TYPE (BwToolStrip, bw_tool_strip, BW, TOOL_STRIP, GtkWidget)

/* What lies in the row beside the tools; as an interface file adds its children. */
void bw_tool_strip_add (BwToolStrip *self, GtkWidget *child);
void bw_tool_strip_bind (BwToolStrip *self, BwSession *session);
