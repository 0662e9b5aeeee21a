/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a saved picture shall be: its size, its ground, and where the piece is seen from; with the
 * picture as it will be. */
#pragma once

#include "app/form/draft.h"
#include "app/window/still-job.h"

/* Called with the bytes of the files (GBytes) once they are made, of the project of the moment in
 * which the maker had chosen: one PNG or WebP, or numbered PNGs. */
typedef void (*BwPictureMade) (GPtrArray *files, BwStillKind kind, gpointer data);

/* made: the maker has chosen, and the dialog is gone. data must outlive the parent. */
void bw_picture_dialog_show (GtkWindow *parent, BwDraft *draft, BwPictureMade made, gpointer data);
