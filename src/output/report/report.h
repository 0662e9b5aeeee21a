/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the command line prints: each report as readable text or as one JSON object whose keys the
 * man page tells. All return owned, NUL-terminated UTF-8 ending in a newline; none fails on a sound
 * project but where an error argument is given. JSON numbers are never NaN or infinite (null), and
 * neither JSON nor CSV is ever in the user's locale. */
#pragma once

#include "core/band/try-on.h"
#include "project/document/length.h"
#include "project/project.h"

/* rows 0: the project's own. Else the project as it would be with that many rows: the drawing cut,
 * or carried on by its repeat (in the first tray colour when it has none). Fault at /band/rows. */
char *bw_report_fit (BwProject *project, int rows, gboolean json, GError **error);
char *bw_report_stone (BwProject *project, gboolean json);
/* A fault without pointer when the height is off the stone. */
char *bw_report_section (BwProject *project, double z_mm, gboolean json, GError **error);
/* What to do with a strip of `rows` rows that was read so. A fault at /progress/rows_done when such
 * a strip cannot be. */
char *bw_report_try_on (BwProject *project, int rows, const BwReading *reading, gboolean json,
                        GError **error);
char *bw_report_hang (BwProject *project, gboolean json);
/* all: the passes in the hole of every bead as well. */
char *bw_report_thread (BwProject *project, gboolean all, gboolean json);
/* pieces 0: the project's own count. */
/* unit: of the text; JSON is in millimetres whatever it is. */
char *bw_report_materials (BwProject *project, int pieces, BwUnit unit, gboolean json);

/* The materials list as CSV (RFC 4180, UTF-8, CRLF, header row). Text that a spreadsheet would take
 * for a formula gets an apostrophe before it. */
char *bw_materials_csv (BwProject *project, int pieces);
/* The list as translated plain text for the clipboard or a message. */
char *bw_materials_text (BwProject *project, int pieces, BwUnit unit);

/* What a shop is to send for all pieces, what is in hand taken off and no costs, as translated
 * plain text. */
char *bw_order_text (BwProject *project, BwUnit unit);

/* Row by row instructions, translated, as a maker reads them at the bench. */
char *bw_words (BwProject *project, BwUnit unit);
/* The same with each sentence on one line, for those who break lines themselves. */
char *bw_words_flowing (BwProject *project, BwUnit unit);
/* The words of one row alone, without its number: "2 Night water, 1 Lamp glass". Beads are told in
 * the order in which the needle meets them. Rows 1 and 2 are one pick-up and have the same words.
 */
char *bw_words_row (BwProject *project, int row);
/* What is to be known or done before this row of the band is begun, a sentence a line: how row 3
 * turns, that the strip is to be tried on, and again at every second row from there, that a fresh
 * thread is due. "" for most rows; the row after the last one has only the try-on. Owned. */
char *bw_words_before_row (BwProject *project, int row, BwUnit unit);
/* The same before the ends are joined: further rows, and how beads are called from here on. Owned.
 */
char *bw_words_before_join (BwProject *project, BwUnit unit);
/* The pass of zip, return or anchors that begins at this visit of the path, with the change of
 * thread before it. Owned. */
char *bw_words_join_pass (BwProject *project, guint first, BwUnit unit);
/* The same before a row of the bail: before its first one the way there, before the one after its
 * last one, or at once where there is no bail, how it is sewn down and the ends. Owned. */
char *bw_words_before_bail_row (BwProject *project, int row, BwUnit unit);
/* What comes after the last row, as bw_words_flowing() tells it: the join, the bail, the ends of
 * the thread. Owned. */
char *bw_words_finish (BwProject *project, BwUnit unit);
