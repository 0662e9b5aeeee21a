/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A ribbon over the band that says that what is seen there is only tried. */
#pragma once

#include "project/session.h"
#include <gtk/gtk.h>

/* To be laid over the canvas; comes and goes with what is tried. */
GtkWidget *bw_tried_ribbon_new (BwSession *session);
