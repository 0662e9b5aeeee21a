/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tools, one button each, beside the canvas. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

#define BW_TYPE_TOOL_STRIP (bw_tool_strip_get_type ())
G_DECLARE_FINAL_TYPE (BwToolStrip, bw_tool_strip, BW, TOOL_STRIP, GtkWidget)

void bw_tool_strip_bind (BwToolStrip *self, BwSession *session);
