/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a saved picture shall be: its size, its ground, and where the piece is seen from; with the
 * picture as it will be. */
#pragma once

#include "app/form/draft.h"
#include <gtk/gtk.h>

/* Called with the bytes of a PNG file once it is made, of the project of that moment. */
typedef void (*BwPictureMade) (GBytes *png, gpointer data);

/* made: the maker has chosen, and the dialog is gone. data must outlive the parent. */
void bw_picture_dialog_show (GtkWindow *parent, BwDraft *draft, BwPictureMade made, gpointer data);
