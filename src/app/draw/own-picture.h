/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A motif of the maker's own, small, in the colours it was saved with. */
#pragma once

#include "app/draw/own-motifs.h"
#include <gtk/gtk.h>

#define BW_TYPE_OWN_PICTURE (bw_own_picture_get_type ())
G_DECLARE_FINAL_TYPE (BwOwnPicture, bw_own_picture, BW, OWN_PICTURE, GtkWidget)

/* Takes the motif. */
GtkWidget *bw_own_picture_new (BwOwnMotif *motif);
const BwOwnMotif *bw_own_picture_get (BwOwnPicture *self); /* borrowed */
