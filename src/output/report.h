/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the command line prints: each report as readable text or as one JSON object whose keys the
 * man page tells. All return owned, NUL-terminated UTF-8 ending in a newline; none fails on a sound
 * project but where an error argument is given. JSON numbers are never NaN or infinite (null). */
#pragma once

#include "project/project.h"

char *bw_report_fit (BwProject *project, int rows, gboolean json); /* rows 0: the project's own */
char *bw_report_stone (BwProject *project, gboolean json);
char *bw_report_section (BwProject *project, double z_mm, gboolean json, GError **error);
char *bw_report_hang (BwProject *project, gboolean json, GError **error);
char *bw_report_thread (BwProject *project, gboolean all, gboolean json);
/* pieces 0: the project's own count. */
char *bw_report_materials (BwProject *project, int pieces, gboolean json);

/* The materials list as CSV (RFC 4180, UTF-8, CRLF, header row); never in the user's locale. */
char *bw_materials_csv (BwProject *project, int pieces);
/* The list as translated plain text for the clipboard or a message. */
char *bw_materials_text (BwProject *project, int pieces);

/* Row by row instructions, translated, as a maker reads them at the bench. */
char *bw_words (BwProject *project);
/* The words of one row alone, without its number: "2 Night water, 1 Lamp glass". */
char *bw_words_row (BwProject *project, int row);
