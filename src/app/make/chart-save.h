/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chart alone, as one drawing or picture. */
#pragma once

#include "app/form/draft.h"
#include "app/ask/file-dialog.h"

/* Asks where to, writes it, and tells how it went. kind: BW_FILES_SVG, BW_FILES_PICTURE or
 * BW_FILES_PDF. */
void bw_chart_save (GtkWindow *window, BwDraft *draft, BwFileKind kind);
