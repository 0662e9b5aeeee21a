/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One sentence laid over a page, so that nothing on the page moves. What went well goes away by
 * itself; what went wrong stays until it is closed, or another sentence takes its place. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_NOTICE (bw_notice_get_type ())
G_DECLARE_FINAL_TYPE (BwNotice, bw_notice, BW, NOTICE, GtkWidget)

void bw_notice_tell (BwNotice *self, GtkMessageType type, const char *sentence);
void bw_notice_clear (BwNotice *self);
/* What was done is undone: a sentence that told it went well goes away, and what went wrong stays.
 */
void bw_notice_outdate (BwNotice *self);
