/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A kind of motif as a few beads: the rule itself, worked on a scrap of band. */
#pragma once

#include "core/pattern/motif.h"
#include <gtk/gtk.h>

#define BW_TYPE_MOTIF_PICTURE (bw_motif_picture_get_type ())
G_DECLARE_FINAL_TYPE (BwMotifPicture, bw_motif_picture, BW, MOTIF_PICTURE, GtkWidget)

GtkWidget *bw_motif_picture_new (BwMotifKind kind);
