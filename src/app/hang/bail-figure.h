/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A little picture of a style of bail: a stone on its side in its band, and what it hangs by. */
#pragma once

#include "core/design/bail.h"
#include <gtk/gtk.h>

#define BW_TYPE_BAIL_FIGURE (bw_bail_figure_get_type ())
G_DECLARE_FINAL_TYPE (BwBailFigure, bw_bail_figure, BW, BAIL_FIGURE, GtkWidget)

GtkWidget *bw_bail_figure_new (BwBailStyle style);
