/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a saved picture shall be: its size, its ground, and where the piece is seen from; with the
 * picture as it will be. */
#pragma once

#include "app/form/draft.h"
#include "app/window/still-job.h"

/* Called with the bytes of the pictures (GBytes) once they are made, of the project of the moment
 * in which the maker had chosen the file: one PNG or WebP, or PNGs that are to be numbered, whose
 * places were free then. */
typedef void (*BwPictureMade) (GFile *file, GPtrArray *pictures, gboolean numbered, gpointer data);

/* made: the pictures are there, and the dialog is gone. data must outlive the parent. */
void bw_picture_dialog_show (GtkWindow *parent, BwDraft *draft, BwPictureMade made, gpointer data);
