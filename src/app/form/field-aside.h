/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is told of one number: why it cannot be, or that it is hard to believe, with what may have
 * been meant on a button. Signal "better": that is pressed. */
#pragma once

#include <gtk/gtk.h>

#define BW_TYPE_FIELD_ASIDE (bw_field_aside_get_type ())
G_DECLARE_FINAL_TYPE (BwFieldAside, bw_field_aside, BW, FIELD_ASIDE, GtkWidget)

GtkWidget *bw_field_aside_new (void); /* tells nothing yet */

/* NULL: nothing of the kind. A question without a better number has no button. */
void bw_field_aside_tell (BwFieldAside *self, const char *reason);
void bw_field_aside_ask (BwFieldAside *self, const char *question, const char *better);
gboolean bw_field_aside_is_telling (BwFieldAside *self);
